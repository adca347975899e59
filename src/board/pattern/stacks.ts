/** Where stacked memories stand on a core's substrate: in two columns, left and right of its die. Sizes in mm. */
import type { Point } from '../../base/index.ts'
import { memoryKinds, outlineNamed, type PatternPackage } from './memory-kinds.ts'
import type { RingPlace } from './memory-ring.ts'

/** The die's width, and what is left between bodies and along the edge. Common practice, no source. */
const DIE_MM = 24
const BETWEEN_MM = 0.5
const EDGE_MM = 4
/** Substrates come in steps. Common practice, no source. */
const STEP_MM = 5
const LEAST_MM = 45

/** Whether packages of this kind stand on the core's substrate, beside its die. */
export const isStack = (name: PatternPackage): boolean => memoryKinds[name].onSubstrate === true

const rowsOf = (count: number): number => Math.ceil(count / 2)

/** Edge of the smallest square core that holds so many. */
export function leastCoreMm(name: PatternPackage, count: number): number {
  const { widthMm, lengthMm } = outlineNamed(name).body
  const across = DIE_MM + 2 * (BETWEEN_MM + widthMm)
  const along = rowsOf(count) * (lengthMm + BETWEEN_MM)
  return Math.max(across, along) + 2 * EDGE_MM
}

/** The next usual size up from what they need. */
export const usualStackCoreMm = (name: PatternPackage, count: number): number =>
  Math.max(LEAST_MM, Math.ceil(leastCoreMm(name, count) / STEP_MM) * STEP_MM)

/** Right column first, each from the top down; those on the left are turned by half a turn, so that all face the die alike. */
export function stackPlaces(name: PatternPackage, count: number, middle: Point): RingPlace[] {
  const { widthMm, lengthMm } = outlineNamed(name).body
  const away = DIE_MM / 2 + BETWEEN_MM + widthMm / 2
  const right = rowsOf(count)
  const column = (rows: number, side: 1 | -1): RingPlace[] =>
    Array.from({ length: rows }, (_, row) => ({
      at: { x: middle.x + side * away, y: middle.y + ((rows - 1) / 2 - row) * (lengthMm + BETWEEN_MM) },
      rotationDeg: side > 0 ? 0 : 180,
    }))
  return [...column(right, 1), ...column(count - right, -1)]
}
