/** Bodies that stand in one another: no fault, since heat sinks and shields do, but seldom meant. Lengths in mm. */
import type { Box, Point } from '../../base/index.ts'
import type { BoardDescription } from '../schema.ts'
import { partBox, partCorners } from './look-up.ts'

export interface Overlap {
  readonly refs: readonly [string, string]
  /** How deep, the shorter way out. */
  readonly byMm: number
}

/** Less is drawing, not standing. */
const LEAST_MM = 0.05

/** Pairs of parts of one side whose bodies overlap by more than 0.05 mm, the deepest first; bodies by their true outlines. */
export function overlapsOf(board: BoardDescription): Overlap[] {
  const found: Overlap[] = []
  for (const side of ['top', 'bottom'] as const) {
    const parts = bodiesOn(board, side).toSorted((a, b) => a.box.minX - b.box.minX)
    for (const [i, a] of parts.entries())
      for (let j = i + 1; j < parts.length; j++) {
        const b = parts[j]
        if (b === undefined || b.box.minX > a.box.maxX - LEAST_MM) break
        if (!boxesOverlap(a.box, b.box) || a.on === b.ref || b.on === a.ref) continue
        const byMm = depthOf(a, b)
        if (byMm > LEAST_MM) found.push({ refs: [a.ref, b.ref], byMm })
      }
  }
  return found.toSorted((a, b) => b.byMm - a.byMm)
}

interface Body {
  readonly ref: string
  /** The core that carries it. */
  readonly on: string | undefined
  readonly outline: readonly Point[]
  readonly box: Box
}

const bodiesOn = (board: BoardDescription, side: 'top' | 'bottom'): Body[] =>
  board.parts.flatMap((part) =>
    part.side === side ? [{ ref: part.ref, on: part.carriedBy, outline: partCorners(part), box: partBox(part) }] : [],
  )

const boxesOverlap = (a: Box, b: Box): boolean =>
  a.minY < b.maxY && b.minY < a.maxY && a.minX < b.maxX && b.minX < a.maxX

/** Least overlap over the directions of both rectangles' edges; none where one keeps them apart (separating axes). */
function depthOf(a: Body, b: Body): number {
  let depth = Infinity
  for (const { outline } of [a, b])
    for (let i = 0; i < 2; i++) {
      const p = outline[i]
      const q = outline[i + 1]
      if (p === undefined || q === undefined) continue
      const length = Math.hypot(q.x - p.x, q.y - p.y)
      if (length === 0) continue
      const [x, y] = [(q.x - p.x) / length, (q.y - p.y) / length]
      const along = (part: Body): number[] => part.outline.map((corner) => corner.x * x + corner.y * y)
      const [ofA, ofB] = [along(a), along(b)]
      depth = Math.min(depth, Math.max(...ofA) - Math.min(...ofB), Math.max(...ofB) - Math.min(...ofA))
    }
  return depth
}
