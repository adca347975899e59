/** What the hand does on the editor's sheet: selects, draws a box, drags parts, moves and zooms the view, with mouse or fingers. */
import type { PointerEvent as ReactPointerEvent, WheelEvent } from 'react'
import { boxOf, distance, type Point, polygonContains, signedArea } from '../../base/index.ts'
import { type BoardDescription, createSnapper, type Part, partBox, partCorners, type Side } from '../../board/index.ts'
import { panned, toBoard, wayOnBoard, zoomed } from './camera.ts'
import { edit, type EditorStore, type RegionWish, select } from './editorStore.ts'

/** A hand that trembles less than this is pressing, not dragging. */
const STILL_PX = 4
/** In line with another part from so near on. */
const IN_LINE_PX = 6
/** A finger is no needle: what it presses may be this far away. */
const FINGER_PX = 12

type Doing =
  | { readonly kind: 'press'; readonly ref: string | undefined; readonly adds: boolean }
  | { readonly kind: 'drag'; readonly snap: ReturnType<typeof createSnapper>; readonly refs: readonly string[] }
  | { readonly kind: 'band'; readonly from: Point; readonly adds: boolean }
  | { readonly kind: 'draw'; readonly from: Point; readonly wish: RegionWish }
  | { readonly kind: 'pan' }
  | { readonly kind: 'pinch' }

export interface SheetHand {
  readonly down: (event: ReactPointerEvent<SVGSVGElement>) => void
  readonly move: (event: ReactPointerEvent<SVGSVGElement>) => void
  readonly up: (event: ReactPointerEvent<SVGSVGElement>) => void
  readonly lost: (event: ReactPointerEvent<SVGSVGElement>) => void
  readonly wheel: (event: WheelEvent<SVGSVGElement>) => void
}

/** Where the fingers are, where the first of them began, and what they do. */
interface Hand {
  readonly editor: EditorStore
  readonly fingers: Map<number, Point>
  start: Point
  doing: Doing | undefined
}

type SheetPointer = ReactPointerEvent<SVGSVGElement>

export function createSheetHand(editor: EditorStore): SheetHand {
  const hand: Hand = { editor, fingers: new Map(), start: { x: 0, y: 0 }, doing: undefined }
  return {
    down: (event) => down(hand, event),
    move: (event) => move(hand, event),
    up: (event) => up(hand, event),
    lost: (event) => {
      hand.fingers.delete(event.pointerId)
      letGo(hand)
    },
    wheel: (event) => {
      const at = pointOf(event)
      editor.setState(({ view }) => ({ view: zoomed(view, Math.exp(-event.deltaY * 0.0015), at) }))
    },
  }
}

function letGo(hand: Hand): void {
  hand.doing = undefined
  hand.editor.setState({ held: undefined, band: undefined })
}

function down(hand: Hand, event: SheetPointer): void {
  const at = pointOf(event)
  hand.fingers.set(event.pointerId, at)
  capture(event)
  if (hand.fingers.size === 2) {
    letGo(hand)
    hand.doing = { kind: 'pinch' }
    return
  }
  hand.start = at
  const { tool, view, session, rail, regionWish } = hand.editor.getState()
  if (tool === 'view' || event.button === 1) {
    hand.doing = { kind: 'pan' }
    return
  }
  if (event.button !== 0) return
  if (tool === 'point' && rail !== undefined) {
    edit(hand.editor, { kind: 'add-point', rail, point: { side: view.side, at: toBoard(view, at) } })
    return
  }
  if (tool === 'region' && regionWish !== undefined) {
    hand.doing = { kind: 'draw', from: toBoard(view, at), wish: regionWish }
    return
  }
  const slack = event.pointerType === 'touch' ? FINGER_PX / view.pxPerMm : 0
  const ref = partAt(session.board, view.side, toBoard(view, at), slack)?.ref
  hand.doing = { kind: 'press', ref, adds: event.shiftKey || event.ctrlKey || event.metaKey }
}

function move(hand: Hand, event: SheetPointer): void {
  const { editor, fingers, start } = hand
  const last = fingers.get(event.pointerId)
  if (last === undefined || hand.doing === undefined) return
  const at = pointOf(event)
  if (hand.doing.kind === 'pinch') return pinch(hand, event.pointerId, at)
  fingers.set(event.pointerId, at)
  if (hand.doing.kind === 'press' && distance(at, start) > STILL_PX) hand.doing = begun(editor, hand.doing, start)
  const { doing } = hand
  const { view } = editor.getState()
  if (doing.kind === 'pan') editor.setState({ view: panned(view, { x: at.x - last.x, y: at.y - last.y }) })
  else if (doing.kind === 'band' || doing.kind === 'draw')
    editor.setState({ band: boxOf([doing.from, toBoard(view, at)]) })
  else if (doing.kind === 'drag') dragTo(editor, doing, { x: at.x - start.x, y: at.y - start.y }, event.altKey)
}

/** Two fingers zoom about what is between them, and take it along. */
function pinch({ editor, fingers }: Hand, id: number, at: Point): void {
  const other = [...fingers].find(([each]) => each !== id)?.[1]
  const before = fingers.get(id)
  fingers.set(id, at)
  if (other === undefined || before === undefined) return
  const [was, is] = [distance(before, other), distance(at, other)]
  const middle = { x: (at.x + other.x) / 2, y: (at.y + other.y) / 2 }
  const by = { x: (at.x - before.x) / 2, y: (at.y - before.y) / 2 }
  editor.setState(({ view }) => ({ view: panned(was < 1 ? view : zoomed(view, is / was, middle), by) }))
}

function up(hand: Hand, event: SheetPointer): void {
  const { editor, fingers, doing } = hand
  fingers.delete(event.pointerId)
  if (doing?.kind === 'pinch' && fingers.size > 0) return
  const { held, band, session, view } = editor.getState()
  letGo(hand)
  if (doing?.kind === 'press') select(editor, doing.ref === undefined ? [] : [doing.ref], doing.adds)
  if (doing?.kind === 'drag' && held !== undefined)
    edit(editor, { kind: 'move', refs: [...held.refs], byMm: held.byMm })
  if (doing?.kind === 'draw' && band !== undefined) {
    const corners: [Point, Point] = [
      { x: band.minX, y: band.minY },
      { x: band.maxX, y: band.maxY },
    ]
    const isDrawn = edit(editor, { kind: 'draw-region', ...doing.wish, lanes: [...doing.wish.lanes], corners })
    if (isDrawn) editor.setState({ tool: 'select', regionWish: undefined })
  }
  if (doing?.kind === 'band' && band !== undefined) select(editor, partsIn(session.board, view.side, band), doing.adds)
}

/** A press that has become a way: parts are taken up, or a box is drawn from where nothing stands. */
function begun(editor: EditorStore, { ref, adds }: Extract<Doing, { kind: 'press' }>, start: Point): Doing {
  const { view, session, selected } = editor.getState()
  if (ref === undefined) return { kind: 'band', from: toBoard(view, start), adds }
  if (!selected.includes(ref)) select(editor, [ref], adds)
  const refs = editor.getState().selected
  return { kind: 'drag', refs, snap: createSnapper(session.board, refs) }
}

function dragTo(
  editor: EditorStore,
  { snap, refs }: Extract<Doing, { kind: 'drag' }>,
  byPx: Point,
  isFree: boolean,
): void {
  const { view, gridMm } = editor.getState()
  const byMm = wayOnBoard(view, byPx)
  const snapped = isFree
    ? snap({ byMm, gridMm: 0, withinMm: 0 })
    : snap({ byMm, gridMm, withinMm: IN_LINE_PX / view.pxPerMm })
  editor.setState({ held: { refs, ...snapped } })
}

/** Not every pointer can be held, as one that a test makes up. */
function capture(event: ReactPointerEvent<SVGSVGElement>): void {
  try {
    event.currentTarget.setPointerCapture(event.pointerId)
  } catch {
    // it is followed for as long as it stays over the sheet
  }
}

function pointOf(event: ReactPointerEvent<SVGSVGElement> | WheelEvent<SVGSVGElement>): Point {
  const box = event.currentTarget.getBoundingClientRect()
  return { x: event.clientX - box.left, y: event.clientY - box.top }
}

/** The smallest part of a side that the point lies in, or the nearest within the slack, in mm. */
export function partAt(board: BoardDescription, side: Side, at: Point, slackMm: number): Part | undefined {
  let best: Part | undefined
  let least = Infinity
  for (const part of board.parts) {
    if (part.side !== side) continue
    const { minX, minY, maxX, maxY } = partBox(part)
    const beyond = Math.max(minX - at.x, at.x - maxX, minY - at.y, at.y - maxY)
    if (beyond > slackMm) continue
    const outline = partCorners(part)
    const inside = polygonContains(outline, at)
    if (!inside && (slackMm === 0 || beyond <= 0)) continue
    const rank = (inside ? 0 : 1e6 * (1 + beyond)) + Math.abs(signedArea(outline))
    if (rank < least) {
      least = rank
      best = part
    }
  }
  return best
}

const partsIn = (board: BoardDescription, side: Side, band: ReturnType<typeof boxOf>): string[] =>
  board.parts.flatMap((part) => {
    if (part.side !== side) return []
    const box = partBox(part)
    const meets = box.minX <= band.maxX && band.minX <= box.maxX && box.minY <= band.maxY && band.minY <= box.maxY
    return meets ? [part.ref] : []
  })
