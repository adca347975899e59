/** A view that is being fitted: its unknowns, and the places along the board’s edges where it can be held to the picture. */
import { homographyFrom, type Point } from '../base/index.ts'
import type { EdgeSpot } from './edge-search.ts'
import { type BoardView, type Lens, seenAt, unbent } from './view.ts'

/** A rectangle on the board and where its corners seem to be in the picture, both clockwise from the upper left. */
export interface CornerGuess {
  readonly onBoard: readonly Point[]
  readonly seen: readonly Point[]
  readonly lens: Lens
  /** Whether the lens may be fitted too: a small rectangle can’t tell how it bends. */
  readonly mayBend: boolean
}

export const PER_EDGE = 64

/** Corners through a straight lens, x and y in turn, then k1 and k2. */
export type Unknowns = readonly number[]

export function viewOf({ onBoard, lens }: CornerGuess, unknowns: Unknowns): BoardView | undefined {
  const pairs = onBoard.map((from, i) => ({ from, to: { x: unknowns[2 * i] ?? 0, y: unknowns[2 * i + 1] ?? 0 } }))
  const made = homographyFrom(pairs, 'turned over')
  if (!made.ok) return undefined
  return { homography: made.value, lens: { ...lens, k1: unknowns[8] ?? 0, k2: unknowns[9] ?? 0 } }
}

/** With the corners where they were clicked, seen through a lens with this k1. */
export const unknownsFor = ({ seen, lens }: CornerGuess, k1: number): Unknowns => [
  ...seen.flatMap((corner) => {
    const { x, y } = unbent({ ...lens, k1, k2: 0 }, corner)
    return [x, y]
  }),
  k1,
  0,
]

export interface Edge {
  readonly from: Point
  readonly to: Point
}

export const edgesOf = ({ onBoard }: CornerGuess): Edge[] =>
  onBoard.flatMap((from, i) => {
    const to = onBoard[(i + 1) % onBoard.length]
    return to === undefined ? [] : [{ from, to }]
  })

/** Places along an edge, each with the way across it to the outside: the corners run clockwise as they are seen. */
export function spotsOn({ from, to }: Edge, view: BoardView): EdgeSpot[] {
  const along = (share: number): Point => ({ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share })
  return Array.from({ length: PER_EDGE }, (_, i) => {
    const share = 0.02 + (0.96 * (i + 0.5)) / PER_EDGE
    const at = seenAt(view, along(share))
    const next = seenAt(view, along(share + 1e-3))
    const length = Math.hypot(next.x - at.x, next.y - at.y) || 1
    return { at, across: { x: (next.y - at.y) / length, y: -(next.x - at.x) / length } }
  })
}

/** Pixels to a millimetre along the diagonal. */
export function pxPerMmOf({ onBoard }: CornerGuess, view: BoardView): number {
  const [a, , c] = onBoard
  if (a === undefined || c === undefined) return 1
  const from = seenAt(view, a)
  const to = seenAt(view, c)
  return Math.hypot(to.x - from.x, to.y - from.y) / Math.hypot(c.x - a.x, c.y - a.y)
}
