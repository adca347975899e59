/** Which efforts the sheet draws as rings. */
import type { ReachResult } from './result.ts'

const STEPS_MM = [0.5, 1, 2, 5, 10, 20, 50, 100]
const MOST_RINGS = 6

/** Round efforts in mm to contour, ascending, and among them the radius itself, the edge of what is wetted. */
export function ringLevelsMm(result: Pick<ReachResult, 'radiusMm' | 'fields'>): number[] {
  let farthest = 0
  for (const field of result.fields) {
    for (let cell = 0; cell < field.effortMm.length; cell++) {
      const effort = field.effortMm[cell] ?? Infinity
      if (effort !== Infinity && effort > farthest) farthest = effort
    }
  }
  const stepMm = STEPS_MM.find((step) => farthest / step <= MOST_RINGS) ?? 100
  const levels: number[] = []
  for (let level = stepMm; level < farthest; level += stepMm) {
    if (Math.abs(level - result.radiusMm) > stepMm / 4) levels.push(level)
  }
  if (result.radiusMm > 0) levels.push(result.radiusMm)
  return levels.toSorted((a, b) => a - b)
}
