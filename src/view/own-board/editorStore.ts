/** The editor's state: the board with its undo, what is selected, what the hand holds, and how the board is seen. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import { type Box, boxOf, type Point, sayFault } from '../../base/index.ts'
import {
  beginSession,
  type BoardDescription,
  type BoardEdit,
  type BoardSession,
  editSession,
  type FaultPlace,
  partBox,
  redoSession,
  type Side,
  type SnapGuide,
  undoSession,
} from '../../board/index.ts'
import { fitted, toScreen, type View, wholeBox } from './camera.ts'

export const editorTabs = ['parts', 'rails', 'lanes', 'addresses', 'board'] as const
export type EditorTab = (typeof editorTabs)[number]
/** `point` puts a probe point of the chosen rail where the hand presses; `region` draws the box of the wished region. */
export type EditorTool = 'select' | 'view' | 'point' | 'region'

/** A region that the hand is about to draw, and the lanes that will end in it. */
export interface RegionWish {
  readonly ref: string
  readonly region: string
  readonly lanes: readonly string[]
}

export interface HeldParts {
  readonly refs: readonly string[]
  readonly byMm: Point
  readonly guides: readonly SnapGuide[]
}

export interface EditorState {
  readonly session: BoardSession
  readonly selected: readonly string[]
  /** The rail that the panel shows; its parts and points are marked on the sheet. */
  readonly rail: string | undefined
  readonly tab: EditorTab
  readonly tool: EditorTool
  readonly regionWish: RegionWish | undefined
  readonly view: View
  readonly gridMm: number
  readonly held: HeldParts | undefined
  /** What the hand draws a box around, on the board. */
  readonly band: Box | undefined
  /** What a line of the check points at. */
  readonly pointed: FaultPlace | undefined
  /** Why the last edit was refused. */
  readonly refused: string | undefined
}

export type EditorStore = StoreApi<EditorState>

export function createEditor(board: BoardDescription): EditorStore {
  const view: View = { centre: { x: 0, y: 0 }, pxPerMm: 3, side: 'top', widthPx: 800, heightPx: 600 }
  return createStore<EditorState>(() => ({
    session: beginSession(board),
    selected: [],
    rail: undefined,
    tab: 'parts',
    tool: 'select',
    regionWish: undefined,
    view: fitted(view, wholeBox(board)),
    gridMm: 0.5,
    held: undefined,
    band: undefined,
    pointed: undefined,
    refused: undefined,
  }))
}

/** @returns whether the board took the edit; why not stands in the state */
export function edit(editor: EditorStore, wish: BoardEdit, joinKey?: string): boolean {
  const next = editSession(editor.getState().session, wish, joinKey)
  if (!next.ok) {
    editor.setState({ refused: next.faults.map(sayFault).slice(0, 3).join(' ') })
    return false
  }
  editor.setState((state) => ({ ...withSession(state, next.value), pointed: undefined, refused: undefined }))
  return true
}

export const undo = (editor: EditorStore): void =>
  editor.setState((state) => stepped(state, undoSession(state.session)))
export const redo = (editor: EditorStore): void =>
  editor.setState((state) => stepped(state, redoSession(state.session)))

const stepped = (state: EditorState, session: BoardSession): Partial<EditorState> => ({
  ...withSession(state, session),
  refused: undefined,
  pointed: undefined,
})

/** What is selected and no longer there is let go. */
function withSession({ selected, rail }: EditorState, session: BoardSession): Partial<EditorState> {
  const refs = new Set(session.board.parts.map(({ ref }) => ref))
  const rails = new Set(session.board.rails.map(({ name }) => name))
  return {
    session,
    selected: selected.filter((ref) => refs.has(ref)),
    rail: rail !== undefined && rails.has(rail) ? rail : undefined,
  }
}

/** @param adds to what is selected; one that is selected already is let go then */
export function select(editor: EditorStore, refs: readonly string[], adds = false): void {
  editor.setState(({ selected, tab }) => {
    const next = !adds
      ? [...refs]
      : refs.length === 1 && selected.includes(refs[0] ?? '')
        ? selected.filter((ref) => ref !== refs[0])
        : [...new Set([...selected, ...refs])]
    return {
      selected: next,
      pointed: undefined,
      refused: undefined,
      tab: tab === 'board' || tab === 'addresses' ? 'parts' : tab,
    }
  })
}

/** Selected from a list: what is not in sight is brought there. */
export function showParts(editor: EditorStore, refs: readonly string[], adds = false): void {
  select(editor, refs, adds)
  const { session, view, selected } = editor.getState()
  const part = session.board.parts.find(({ ref }) => ref === refs[0] && selected.includes(ref))
  if (part === undefined) return
  const there = { ...view, side: part.side }
  const { x, y } = toScreen(there, part.at)
  const isSeen = x > 0 && y > 0 && x < view.widthPx && y < view.heightPx
  editor.setState({ view: isSeen ? there : { ...there, centre: part.at } })
}

export const partsOn = (board: BoardDescription, side: Side) => board.parts.filter((part) => part.side === side)

/** The side that is seen changes; what is selected stays, wherever it is. */
export const seeSide = (editor: EditorStore, side: Side): void =>
  editor.setState(({ view }) => ({ view: { ...view, side } }))

export const fitBoard = (editor: EditorStore): void =>
  editor.setState(({ view, session }) => ({ view: fitted(view, wholeBox(session.board)) }))

/** A part of this size fills about a quarter of the drawing: enough to see what is around it. */
const AROUND = 2.2
const LEAST_SEEN_MM = 30

/** Selects what a line of the check speaks of, and brings it into the middle of the drawing. */
export function pointAt(editor: EditorStore, place: FaultPlace): void {
  editor.setState(({ session, view, tab }) => {
    const parts = session.board.parts.filter(({ ref }) => place.refs.includes(ref))
    const corners = [
      ...place.points,
      ...parts.flatMap((part) => {
        const { minX, minY, maxX, maxY } = partBox(part)
        return [
          { x: minX, y: minY },
          { x: maxX, y: maxY },
        ]
      }),
    ]
    const side = parts[0]?.side ?? view.side
    return {
      pointed: place,
      selected: parts.map(({ ref }) => ref),
      rail: place.rail,
      tab: place.rail === undefined ? (parts.length > 0 ? 'parts' : tab) : 'rails',
      view: corners.length === 0 ? view : seenFrom({ ...view, side }, boxOf(corners)),
    }
  })
}

/** The view stays as near as it is where the box fits into it. */
function seenFrom(view: View, box: Box): View {
  const x = (box.minX + box.maxX) / 2
  const y = (box.minY + box.maxY) / 2
  const half = Math.max(LEAST_SEEN_MM, Math.max(box.maxX - box.minX, box.maxY - box.minY) * AROUND) / 2
  const near = fitted(view, { minX: x - half, maxX: x + half, minY: y - half, maxY: y + half })
  return { ...near, pxPerMm: Math.min(near.pxPerMm, Math.max(view.pxPerMm, 8)) }
}

/** Moves what is selected by steps of the grid as they look on the screen, ten with `far`; a row of nudges is one step of undo. */
export function nudge(editor: EditorStore, way: Point, far: boolean): void {
  const { selected, gridMm, view } = editor.getState()
  const stepMm = (gridMm > 0 ? gridMm : 0.1) * (far ? 10 : 1)
  const x = way.x * stepMm * (view.side === 'top' ? 1 : -1)
  edit(editor, { kind: 'move', refs: [...selected], byMm: { x, y: way.y * stepMm } }, `nudge ${selected.join(' ')}`)
}
