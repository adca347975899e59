/** The pointer on the sheet: pans, pinches, selects, moves marks by their handles, draws new ones, measures. */
import type { Point } from '../../base/index.ts'
import type { Mark } from '../../spill/index.ts'
import type { SheetContext } from './context.ts'
import { Drawing } from './drawing.ts'
import { marksNow } from './handStore.ts'
import type { Selection, Tool } from './props.ts'
import { type Pane, paneAt, paneTransform, toBoard } from './pure/camera.ts'
import { anchorOf, type Handle, handledMark, handlesOf, pickHandle } from './pure/handles.ts'
import { nextMark, pickMark, pickOnBoard, type PointerOn } from './pure/pick.ts'

/** A pointer event without the DOM: where on the sheet, in CSS pixels from its upper left. */
export interface PointerAt {
  readonly id: number
  readonly onSheet: Point
  /** A finger is thicker than a mouse's tip. */
  readonly coarse: boolean
  /** Middle button, or the space bar held: pan whatever lies there. */
  readonly pan: boolean
}

type Mode =
  | { readonly kind: 'idle' }
  | { readonly kind: 'press'; readonly from: Point; readonly pane: Pane; readonly pan: boolean }
  | { readonly kind: 'pan'; readonly pane: Pane; readonly last: Point }
  | { readonly kind: 'pinch' }
  | { readonly kind: 'draw'; readonly pane: Pane }
  | {
      readonly kind: 'mark'
      readonly pane: Pane
      readonly mark: Mark
      readonly handle: Handle
      readonly from: Point
      readonly grip: Point
      readonly moved: boolean
    }

const DRAG_FROM_PX = 4
const MOUSE_TOLERANCE_PX = 5
const FINGER_TOLERANCE_PX = 16
const HANDLE_TOLERANCE_PX = 11

export class Hand {
  readonly #context: SheetContext
  readonly #drawing: Drawing
  #tool: Tool = 'select'
  #mode: Mode = { kind: 'idle' }
  readonly #pointers = new Map<number, Point>()

  constructor(context: SheetContext) {
    this.#context = context
    this.#drawing = new Drawing(context)
  }

  /** Another tool: whatever the old one had begun is dropped. */
  takeUp(tool: Tool): void {
    if (tool !== this.#tool) this.cancel()
    this.#tool = tool
  }

  /** The shell's marks have come up to date: a mark that is no longer moved is theirs again, one that is gone is let go. */
  settle(marks: readonly Mark[]): void {
    const { edited } = this.#context.hand.getState()
    if (edited === undefined) return
    const gone = !marks.some((mark) => mark.id === edited.id)
    if (gone) this.#mode = { kind: 'idle' }
    if (gone || this.#mode.kind !== 'mark') this.#context.hand.setState({ edited: undefined })
  }

  down(pointer: PointerAt): void {
    this.#pointers.set(pointer.id, pointer.onSheet)
    if (this.#pointers.size === 2) {
      this.cancel()
      this.#mode = { kind: 'pinch' }
      return
    }
    if (this.#pointers.size > 2) return
    const { pane, at } = this.#locate(pointer.onSheet)
    const { tool } = this.#context.props()
    if (pointer.pan) this.#mode = { kind: 'press', from: pointer.onSheet, pane, pan: true }
    else if (tool === 'probe') this.#mode = { kind: 'press', from: pointer.onSheet, pane, pan: false }
    else if (tool === 'select')
      this.#mode = this.#gripped(pointer, pane, at) ?? { kind: 'press', from: pointer.onSheet, pane, pan: false }
    else {
      this.#drawing.start(tool, pane.side, at)
      this.#mode = { kind: 'draw', pane }
    }
  }

  move(pointer: PointerAt): void {
    const before = this.#pointers.get(pointer.id)
    if (before !== undefined) this.#pointers.set(pointer.id, pointer.onSheet)
    const mode = this.#mode
    switch (mode.kind) {
      case 'idle':
        return this.#hover(pointer)
      case 'press':
        if (away(mode.from, pointer.onSheet) >= DRAG_FROM_PX) {
          this.#mode = { kind: 'pan', pane: mode.pane, last: mode.from }
          this.move(pointer)
        }
        return
      case 'pan':
        this.#context
          .props()
          .camera.getState()
          .panBy(pointer.onSheet.x - mode.last.x, pointer.onSheet.y - mode.last.y, mode.pane.side)
        this.#mode = { ...mode, last: pointer.onSheet }
        return
      case 'pinch':
        return this.#pinch(pointer, before)
      case 'draw':
        return this.#drawing.to(this.#boardPoint(mode.pane, pointer.onSheet), this.#pxToMm(DRAG_FROM_PX))
      case 'mark':
        if (mode.moved || away(mode.from, pointer.onSheet) >= DRAG_FROM_PX) this.#moveMark(mode, pointer.onSheet)
    }
  }

  up(pointer: PointerAt): void {
    this.#pointers.delete(pointer.id)
    const mode = this.#mode
    if (mode.kind === 'pinch') {
      if (this.#pointers.size === 0) this.#mode = { kind: 'idle' }
      return
    }
    this.#mode = { kind: 'idle' }
    if (mode.kind === 'press' && !mode.pan) this.#click(pointer)
    else if (mode.kind === 'draw') this.#drawing.end(this.#boardPoint(mode.pane, pointer.onSheet))
    else if (mode.kind === 'mark') {
      if (mode.moved) this.#dropMark(mode)
      else this.#pressMark(mode, pointer)
    }
  }

  /** Two presses in a row: a dam is done; a part fills the view. */
  doubleClick(onSheet: Point): void {
    if (this.#drawing.finishDam()) return
    const { camera, model, tool } = this.#context.props()
    if (tool !== 'select') return
    const hit = this.#pick({ id: 0, onSheet, coarse: false, pan: false })
    const part = hit?.kind === 'part' ? model.partByRef.get(hit.id) : undefined
    if (part !== undefined) camera.getState().showBox(part.box, Math.min(220, camera.getState().width / 4))
  }

  /** Escape: what was being moved goes back, what was being drawn goes away. True if there was something. */
  cancel(): boolean {
    const mode = this.#mode
    const drew = this.#drawing.cancel()
    this.#mode = { kind: 'idle' }
    if (mode.kind !== 'mark' || !mode.moved) return drew
    this.#context.hand.setState({ edited: mode.mark })
    this.#dropMark(mode)
    return true
  }

  finish(): boolean {
    return this.#drawing.finishDam()
  }

  leave(): void {
    if (this.#mode.kind !== 'idle') return
    this.#setHovered(undefined)
    this.#drawing.leave()
    this.#context.props().onPointAt?.(undefined, 'top')
  }

  cursor(): string {
    if (this.#mode.kind === 'pan' || this.#mode.kind === 'pinch') return 'grabbing'
    if (this.#context.props().tool !== 'select' || this.#context.props().onPlace !== undefined) return 'crosshair'
    const { hovered } = this.#context.hand.getState()
    if (hovered?.kind === 'mark') return 'move'
    return hovered === undefined ? 'grab' : 'pointer'
  }

  #locate(onSheet: Point): { pane: Pane; at: Point } {
    const pane = paneAt(this.#context.props().camera.getState(), onSheet)
    return { pane, at: this.#boardPoint(pane, onSheet) }
  }

  #boardPoint(pane: Pane, onSheet: Point): Point {
    const t = paneTransform(this.#context.props().camera.getState(), pane)
    return toBoard(t, { x: onSheet.x - pane.left, y: onSheet.y - pane.top })
  }

  #pxToMm(px: number): number {
    return px / this.#context.props().camera.getState().scale
  }

  /** What a press here would drag: a handle of the selected mark, or the mark that the hit test finds. */
  #gripped(pointer: PointerAt, pane: Pane, at: Point): Mode | undefined {
    const { camera, onPlace } = this.#context.props()
    if (onPlace !== undefined) return undefined
    const on = this.#pointerOn(pointer, pane, at)
    const shown = this.#shownMarks()
    const selected = shown.find((mark) => mark.id === on.selectedId && mark.side === pane.side)
    const { scale } = camera.getState()
    const handle =
      selected && pickHandle(handlesOf(selected, scale, pane.side === 'bottom' ? -1 : 1), at, on.toleranceMm)
    const mark = handle ? selected : pickMark(shown, on)
    if (mark === undefined) return undefined
    const held = handle ?? { kind: 'move' as const, at: anchorOf(mark) }
    return {
      kind: 'mark',
      pane,
      mark,
      handle: held,
      from: pointer.onSheet,
      grip: { x: held.at.x - at.x, y: held.at.y - at.y },
      moved: false,
    }
  }

  #shownMarks(): readonly Mark[] {
    return marksNow(this.#context.props().marks, this.#context.hand.getState().edited)
  }

  #pointerOn(pointer: PointerAt, pane: Pane, at: Point): PointerOn {
    const { selection } = this.#context.props()
    const toleranceMm = this.#pxToMm(pointer.coarse ? FINGER_TOLERANCE_PX : HANDLE_TOLERANCE_PX)
    return { side: pane.side, at, toleranceMm, selectedId: selection?.kind === 'mark' ? selection.id : undefined }
  }

  #moveMark(mode: Mode & { kind: 'mark' }, onSheet: Point): void {
    const at = this.#boardPoint(mode.pane, onSheet)
    const edited = handledMark(mode.mark, mode.handle, { x: at.x + mode.grip.x, y: at.y + mode.grip.y })
    this.#mode = { ...mode, moved: true }
    this.#context.hand.setState({ edited })
    this.#context.props().onMarkEdit(edited, mode.handle.kind, 'drag')
  }

  /** The mark stays where the last move brought it. */
  #dropMark(mode: Mode & { kind: 'mark' }): void {
    const { edited } = this.#context.hand.getState()
    const { onMarkEdit } = this.#context.props()
    if (edited === undefined) return
    onMarkEdit(edited, mode.handle.kind, 'drop')
    // the shell may have it already, and then nothing more comes from it that would settle the hand
    if (this.#context.props().marks.includes(edited)) this.#context.hand.setState({ edited: undefined })
  }

  /** A press that moved nothing selects; on the selected mark it means the next one below. */
  #pressMark(mode: Mode & { kind: 'mark' }, pointer: PointerAt): void {
    const { onSelect } = this.#context.props()
    const { pane, at } = this.#locate(pointer.onSheet)
    const on = this.#pointerOn(pointer, pane, at)
    const mark = mode.mark.id === on.selectedId ? (nextMark(this.#shownMarks(), on) ?? mode.mark) : mode.mark
    onSelect({ kind: 'mark', id: mark.id })
  }

  #click(pointer: PointerAt): void {
    if (this.#context.props().tool === 'probe') {
      const { pane, at } = this.#locate(pointer.onSheet)
      return this.#context.props().onProbe?.(at, pane.side)
    }
    const { onPlace } = this.#context.props()
    if (onPlace !== undefined) {
      const { pane, at } = this.#locate(pointer.onSheet)
      return onPlace(at, pane.side)
    }
    const hit = this.#pick(pointer)
    this.#context.hand.setState({ keyboardPart: undefined })
    this.#context.props().onSelect(hit)
  }

  #hover(pointer: PointerAt): void {
    const { pane, at } = this.#locate(pointer.onSheet)
    this.#context.props().onPointAt?.(at, pane.side)
    if (this.#context.props().tool === 'select') this.#setHovered(this.#pick(pointer))
    this.#drawing.hover(at, pane.side, pointer.coarse)
  }

  #pick(pointer: PointerAt): Selection | undefined {
    const { pane, at } = this.#locate(pointer.onSheet)
    const mark = pickMark(this.#shownMarks(), this.#pointerOn(pointer, pane, at))
    if (mark !== undefined) return { kind: 'mark', id: mark.id }
    const tolerance = this.#pxToMm(pointer.coarse ? FINGER_TOLERANCE_PX : MOUSE_TOLERANCE_PX)
    return pickOnBoard(this.#context.scene(), pane.side, at, tolerance, this.#context.props().selection)
  }

  #setHovered(hovered: Selection | undefined): void {
    const before = this.#context.hand.getState().hovered
    if (before?.kind === hovered?.kind && before?.id === hovered?.id) return
    this.#context.hand.setState({ hovered })
    this.#context.props().onHover(hovered)
  }

  #pinch(pointer: PointerAt, before: Point | undefined): void {
    const other = [...this.#pointers].find(([id]) => id !== pointer.id)?.[1]
    if (other === undefined || before === undefined) return
    const camera = this.#context.props().camera.getState()
    const middle = { x: (pointer.onSheet.x + other.x) / 2, y: (pointer.onSheet.y + other.y) / 2 }
    const pane = paneAt(camera, middle)
    camera.panBy((pointer.onSheet.x - before.x) / 2, (pointer.onSheet.y - before.y) / 2, pane.side)
    const factor = Math.max(1, away(pointer.onSheet, other)) / Math.max(1, away(before, other))
    camera.zoomAt(factor, middle)
  }
}

const away = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y)
