/** Where parts under the hand come to rest: in line with others where they nearly are, else on the grid. Lengths in mm. */
import type { Box, Point } from '../../base/index.ts'
import type { BoardDescription } from '../schema.ts'
import { partBox, roundMm } from './look-up.ts'

export interface SnapGuide {
  /** `x`: an upright line at that x. */
  readonly axis: 'x' | 'y'
  readonly atMm: number
  /** The part that it is in line with. */
  readonly ref: string
}

export interface Snapped {
  readonly byMm: Point
  readonly guides: readonly SnapGuide[]
}

export interface SnapWish {
  readonly byMm: Point
  /** 0: no grid. */
  readonly gridMm: number
  /** 0: in line with nothing. */
  readonly withinMm: number
}

interface Line {
  readonly atMm: number
  readonly ref: string
}

/**
 * Made once when the hand takes parts up; what it returns says for each way of the hand how far the parts go. In line means
 * left edge, middle or right edge of the box about the parts with one of these of another part on either side of the board,
 * the nearest first; the grid holds the place of the first part. The other axis is judged by itself.
 */
export function createSnapper(board: BoardDescription, refs: readonly string[]): (wish: SnapWish) => Snapped {
  const held = new Set(refs)
  const moving = board.parts.filter(({ ref }) => held.has(ref))
  const [first] = moving
  if (first === undefined) return ({ byMm }) => ({ byMm, guides: [] })
  const box = unionOf(moving.map(partBox))
  const still = board.parts.filter(({ ref }) => !held.has(ref)).map((part) => ({ ref: part.ref, box: partBox(part) }))
  const lines = {
    x: sorted(still.flatMap(({ ref, box: { minX, maxX } }) => threeOf(minX, maxX).map((atMm) => ({ atMm, ref })))),
    y: sorted(still.flatMap(({ ref, box: { minY, maxY } }) => threeOf(minY, maxY).map((atMm) => ({ atMm, ref })))),
  }
  const own = { x: threeOf(box.minX, box.maxX), y: threeOf(box.minY, box.maxY) }
  const along = (axis: 'x' | 'y', { byMm, gridMm, withinMm }: SnapWish): [number, SnapGuide | undefined] => {
    const by = byMm[axis]
    const near = nearestLine(own[axis], by, lines[axis], withinMm)
    if (near !== undefined) return [roundMm(near.byMm), { axis, atMm: near.line.atMm, ref: near.line.ref }]
    if (gridMm <= 0) return [roundMm(by), undefined]
    return [roundMm(Math.round((first.at[axis] + by) / gridMm) * gridMm - first.at[axis]), undefined]
  }
  return (wish) => {
    const [x, upright] = along('x', wish)
    const [y, level] = along('y', wish)
    return { byMm: { x, y }, guides: [upright, level].filter((guide) => guide !== undefined) }
  }
}

const threeOf = (low: number, high: number): readonly number[] => [low, (low + high) / 2, high]

const sorted = (lines: readonly Line[]): readonly Line[] => lines.toSorted((a, b) => a.atMm - b.atMm)

const unionOf = (boxes: readonly Box[]): Box => ({
  minX: Math.min(...boxes.map(({ minX }) => minX)),
  minY: Math.min(...boxes.map(({ minY }) => minY)),
  maxX: Math.max(...boxes.map(({ maxX }) => maxX)),
  maxY: Math.max(...boxes.map(({ maxY }) => maxY)),
})

function nearestLine(
  own: readonly number[],
  by: number,
  lines: readonly Line[],
  withinMm: number,
): { readonly byMm: number; readonly line: Line } | undefined {
  let best: { byMm: number; line: Line } | undefined
  let least = withinMm
  for (const place of own) {
    const at = firstFrom(lines, place + by - least)
    for (let i = at; i < lines.length; i++) {
      const line = lines[i]
      if (line === undefined || line.atMm > place + by + least) break
      const off = Math.abs(line.atMm - place - by)
      if (off < least || (best === undefined && off <= least && withinMm > 0)) {
        least = off
        best = { byMm: line.atMm - place, line }
      }
    }
  }
  return best
}

/** Index of the first line from `atMm` on. */
function firstFrom(lines: readonly Line[], atMm: number): number {
  let low = 0
  let high = lines.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((lines[middle]?.atMm ?? Infinity) < atMm) low = middle + 1
    else high = middle
  }
  return low
}
