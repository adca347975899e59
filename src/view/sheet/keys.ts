/** The keyboard on the sheet: pan and zoom, walk from part to part, nudge the selected mark. */
import type { Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { SheetContext } from './context.ts'
import type { Hand } from './hand.ts'
import { panesOf, shownBox } from './pure/camera.ts'
import { anchorOf, movedMark } from './pure/handles.ts'
import { nextPart, type PartStep, readingOrder } from './pure/nextPart.ts'

export interface KeyPress {
  readonly key: string
  readonly shiftKey: boolean
}

const PAN_PX = 60
const FAR_PAN_PX = 240
const ZOOM_STEP = 1.25
const NUDGE_MM = 1
const FAR_NUDGE_MM = 5

const ARROWS: Readonly<Record<string, { readonly step: PartStep; readonly x: number; readonly y: number }>> = {
  ArrowLeft: { step: 'left', x: -1, y: 0 },
  ArrowRight: { step: 'right', x: 1, y: 0 },
  ArrowUp: { step: 'up', x: 0, y: 1 },
  ArrowDown: { step: 'down', x: 0, y: -1 },
}

/** @returns true when the sheet took the key, so that nothing else should */
export function pressKey(context: SheetContext, hand: Hand, press: KeyPress): boolean {
  const camera = context.props().camera.getState()
  const arrow = ARROWS[press.key]
  if (arrow !== undefined) return pressArrow(context, arrow, press.shiftKey)
  switch (press.key) {
    case '+':
    case '=':
      camera.zoomAt(ZOOM_STEP)
      return true
    case '-':
    case '_':
      camera.zoomAt(1 / ZOOM_STEP)
      return true
    case 'f':
    case 'F':
      camera.fit()
      return true
    case 't':
    case 'T':
      camera.turnOver()
      return true
    case 'Tab':
      return walk(context, press.shiftKey ? 'previous' : 'next', false)
    case 'Enter':
      return pressEnter(context, hand)
    case 'Escape':
      return pressEscape(context, hand)
    case 'Delete':
    case 'Backspace':
      return removeMark(context)
    default:
      return false
  }
}

function pressArrow(
  context: SheetContext,
  arrow: { readonly step: PartStep; readonly x: number; readonly y: number },
  far: boolean,
): boolean {
  const { camera, marks, selection, onMarkEdit } = context.props()
  if (context.hand.getState().keyboardPart !== undefined) {
    walk(context, arrow.step, false)
    return true
  }
  const mirror = sideOf(context) === 'bottom' ? -1 : 1
  const mark = selection?.kind === 'mark' ? marks.find((one) => one.id === selection.id) : undefined
  if (mark !== undefined) {
    const step = far ? FAR_NUDGE_MM : NUDGE_MM
    const at = anchorOf(mark)
    const to = { x: at.x + mirror * step * arrow.x, y: at.y + step * arrow.y }
    onMarkEdit(movedMark(mark, to), 'move', 'drop')
    return true
  }
  const px = far ? FAR_PAN_PX : PAN_PX
  camera.getState().panBy(-px * arrow.x, px * arrow.y)
  return true
}

/** First Enter: the keyboard steps onto the selected part, or the first one; the next selects where it stands. */
function pressEnter(context: SheetContext, hand: Hand): boolean {
  if (hand.finish()) return true
  const { keyboardPart } = context.hand.getState()
  const { onSelect, selection, model } = context.props()
  if (keyboardPart !== undefined) {
    onSelect({ kind: 'part', id: keyboardPart })
    return true
  }
  const selected = selection?.kind === 'part' ? model.partByRef.get(selection.id) : undefined
  if (selected !== undefined && selected.side === sideOf(context)) {
    stepTo(context, selected.ref)
    return true
  }
  return walk(context, 'next', true)
}

function pressEscape(context: SheetContext, hand: Hand): boolean {
  if (hand.cancel()) return true
  if (context.hand.getState().keyboardPart !== undefined) {
    context.hand.setState({ keyboardPart: undefined })
    return true
  }
  if (context.props().selection === undefined) return false
  context.props().onSelect(undefined)
  return true
}

function removeMark(context: SheetContext): boolean {
  const { selection, onMarkRemove } = context.props()
  if (selection?.kind !== 'mark' || onMarkRemove === undefined) return false
  onMarkRemove(selection.id)
  return true
}

/** Goes to the next part; at the end of the order Tab leaves the sheet, as everywhere on a page. */
function walk(context: SheetContext, step: PartStep, enter: boolean): boolean {
  const { keyboardPart } = context.hand.getState()
  const { model } = context.props()
  if (keyboardPart === undefined && !enter) return false
  const side = (keyboardPart === undefined ? undefined : model.partByRef.get(keyboardPart)?.side) ?? sideOf(context)
  const to = nextPart(model, keyboardPart, step, side) ?? acrossSides(context, side, step)
  if (to === undefined) {
    if (step === 'next' || step === 'previous') context.hand.setState({ keyboardPart: undefined })
    return false
  }
  stepTo(context, to)
  return true
}

function acrossSides(context: SheetContext, side: Side, step: PartStep): string | undefined {
  const { camera, model } = context.props()
  if (camera.getState().side !== 'both') return undefined
  if (step === 'next' && side === 'top') return readingOrder(model, 'bottom')[0]?.ref
  return step === 'previous' && side === 'bottom' ? readingOrder(model, 'top').at(-1)?.ref : undefined
}

function stepTo(context: SheetContext, ref: string): void {
  const { camera, model } = context.props()
  const part = model.partByRef.get(ref)
  const pane = panesOf(camera.getState())[0]
  context.hand.setState({ keyboardPart: ref })
  if (part === undefined || pane === undefined) return
  const shown = shownBox(camera.getState(), pane)
  const at: Point = part.placement.at
  if (at.x < shown.minX || at.x > shown.maxX || at.y < shown.minY || at.y > shown.maxY) camera.getState().moveTo(at)
}

const sideOf = (context: SheetContext): Side => panesOf(context.props().camera.getState())[0]?.side ?? 'top'
