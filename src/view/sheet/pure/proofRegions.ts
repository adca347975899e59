/** What became of lanes, brought onto the regions at both of their ends; and where the symbol of a region stands. */
import type { Point } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'

/**
 * After the work: it fails and did not before, fails as before, errors lie beside and nobody knows where, was not tested
 * again, or failed before and passes now. The gravest first: where lanes share a region, that one shows.
 */
export const proofKinds = ['fresh', 'still', 'not-told', 'untested', 'gone'] as const
export type ProofKind = (typeof proofKinds)[number]

/** By the id of a lane; lanes that pass and passed before are not in it. */
export type ProofLanes = ReadonlyMap<string, ProofKind>

/** By the id of a region. */
export function proofRegions(model: BoardModel, lanes: ProofLanes): ReadonlyMap<string, ProofKind> {
  const regions = new Map<string, ProofKind>()
  for (const [id, kind] of lanes) {
    const lane = model.laneById.get(id)
    for (const region of [lane?.memoryRegion, lane?.coreRegion]) {
      if (region === undefined) continue
      const known = regions.get(region)
      if (known === undefined || proofKinds.indexOf(kind) < proofKinds.indexOf(known)) regions.set(region, kind)
    }
  }
  return regions
}

/** Centre of area of a simple polygon; the mean of its corners where it has no area. */
export function middleOf(polygon: readonly Point[]): Point {
  let area = 0
  let x = 0
  let y = 0
  for (const [i, p] of polygon.entries()) {
    const next = polygon[(i + 1) % polygon.length] ?? p
    const cross = p.x * next.y - next.x * p.y
    area += cross
    x += (p.x + next.x) * cross
    y += (p.y + next.y) * cross
  }
  if (Math.abs(area) > 1e-9) return { x: x / (3 * area), y: y / (3 * area) }
  const n = Math.max(1, polygon.length)
  return { x: polygon.reduce((sum, p) => sum + p.x, 0) / n, y: polygon.reduce((sum, p) => sum + p.y, 0) / n }
}
