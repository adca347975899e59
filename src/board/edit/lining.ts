/** Lines parts up and spaces them evenly, by their bodies. Lengths in mm. */
import { bad, type Box, type Point, type Result, say } from '../../base/index.ts'
import type { BoardDescription, Part } from '../schema.ts'
import type { Alignment, EditOf } from './edits.ts'
import { NO_MOVE_MM, partBox, partsNamed } from './look-up.ts'
import { type NewPlace, placed } from './placing.ts'

/** Lines bodies up by an edge or their middles; outermost edge, or the middle of all, stays. Refuses fewer than two. */
export function align(board: BoardDescription, { refs, to }: EditOf<'align'>): Result<BoardDescription> {
  const parts = partsNamed(board, refs)
  if (!parts.ok) return parts
  if (parts.value.length < 2) return tooFew(say('at least {least} parts to line up', { least: 2 }), parts.value.length)
  const boxes = parts.value.map(partBox)
  const goal = goalOf(boxes, to)
  const moves = parts.value.map((part, i) => shifted(part, to, goal - valueOf(boxes[i] ?? EMPTY, to)))
  return placed(board, new Map(moves.flat()))
}

const EMPTY: Box = { minX: 0, minY: 0, maxX: 0, maxY: 0 }

/** y runs up: the top edge is the largest y. */
function valueOf({ minX, maxX, minY, maxY }: Box, to: Alignment): number {
  switch (to) {
    case 'left':
      return minX
    case 'right':
      return maxX
    case 'bottom':
      return minY
    case 'top':
      return maxY
    case 'centre-x':
      return (minX + maxX) / 2
    case 'centre-y':
      return (minY + maxY) / 2
    default:
      return to satisfies never
  }
}

function goalOf(boxes: readonly Box[], to: Alignment): number {
  const values = boxes.map((box) => valueOf(box, to))
  if (to === 'left' || to === 'bottom') return Math.min(...values)
  if (to === 'right' || to === 'top') return Math.max(...values)
  const [low, high] = to === 'centre-x' ? (['left', 'right'] as const) : (['bottom', 'top'] as const)
  return (goalOf(boxes, low) + goalOf(boxes, high)) / 2
}

const isAcross = (to: Alignment): boolean => to === 'left' || to === 'right' || to === 'centre-x'

function shifted(part: Part, to: Alignment, byMm: number): [string, NewPlace][] {
  if (Math.abs(byMm) < NO_MOVE_MM) return []
  const { x, y } = part.at
  const at: Point = isAcross(to) ? { x: x + byMm, y } : { x, y: y + byMm }
  return [[part.ref, { at }]]
}

/** Spaces the middles of bodies evenly; the outermost two stay where they are. Refuses fewer than three. */
export function distribute(board: BoardDescription, { refs, along }: EditOf<'distribute'>): Result<BoardDescription> {
  const parts = partsNamed(board, refs)
  if (!parts.ok) return parts
  if (parts.value.length < 3)
    return tooFew(say('at least {least} parts to space evenly', { least: 3 }), parts.value.length)
  const to = along === 'x' ? 'centre-x' : 'centre-y'
  const inOrder = parts.value
    .map((part) => ({ part, middle: valueOf(partBox(part), to) }))
    .toSorted((a, b) => a.middle - b.middle)
  const first = inOrder[0]?.middle ?? 0
  const step = ((inOrder.at(-1)?.middle ?? 0) - first) / (inOrder.length - 1)
  const moves = inOrder
    .slice(1, -1)
    .flatMap(({ part, middle }, i) => shifted(part, to, first + step * (i + 1) - middle))
  return placed(board, new Map(moves))
}

const tooFew = (expected: string, found: number): Result<never> =>
  bad({
    path: say('the selection'),
    found: found === 1 ? say('one part') : say('{found} parts', { found }),
    expected,
  })
