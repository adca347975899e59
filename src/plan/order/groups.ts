/** Which listed parts stand so close that one nozzle of the equipment covers them. Each such group needs its own heat solve. */
import { boxOf } from '../../base/index.ts'
import type { BoardModel, PlacedPart } from '../../board/index.ts'
import { byRef, type Nozzle } from '../input.ts'
import { defaultShopSettings, type ShopSettings } from '../settings.ts'

export interface GroupCandidate {
  readonly refs: readonly string[]
  /** The smallest nozzle that covers them. */
  readonly nozzle: Nozzle
  readonly at: { readonly x: number; readonly y: number }
}

const MOST_IN_A_GROUP = 4
const MOST_CANDIDATES = 200

/** Groups of two to four parts of one side under one nozzle, smaller groups first; at most 200 of them. */
export function groupCandidates(
  model: BoardModel,
  lift: readonly string[],
  nozzles: readonly Nozzle[],
  settings: ShopSettings = defaultShopSettings,
): GroupCandidate[] {
  const parts = [...new Set(lift)].toSorted(byRef).flatMap((ref) => model.partByRef.get(ref) ?? [])
  const sorted = nozzles.toSorted((a, b) => a.sizeMm - b.sizeMm)
  const found: GroupCandidate[] = []
  const extend = (group: readonly PlacedPart[], from: number): void => {
    for (let next = from; next < parts.length && found.length < MOST_CANDIDATES; next++) {
      const part = parts[next]
      if (part === undefined || (group[0] !== undefined && group[0].side !== part.side)) continue
      const larger = [...group, part]
      const cover = coverOf(larger, sorted, settings.rules.nozzleRimMm)
      if (cover === undefined) continue
      if (larger.length > 1) found.push({ refs: larger.map(({ ref }) => ref), ...cover })
      if (larger.length < MOST_IN_A_GROUP) extend(larger, next + 1)
    }
  }
  extend([], 0)
  return found.toSorted((a, b) => a.refs.length - b.refs.length)
}

/** The smallest nozzle whose opening holds all the bodies with the rim to spare, and where its middle stands. */
function coverOf(parts: readonly PlacedPart[], nozzles: readonly Nozzle[], rimMm: number) {
  const box = boxOf(parts.flatMap(({ outline }) => outline))
  const at = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
  const squareMm = Math.max(box.maxX - box.minX, box.maxY - box.minY) + 2 * rimMm
  const roundMm = Math.hypot(box.maxX - box.minX, box.maxY - box.minY) + 2 * rimMm
  const nozzle = nozzles.find(({ shape, sizeMm }) => sizeMm >= (shape === 'square' ? squareMm : roundMm))
  return nozzle === undefined ? undefined : { nozzle, at }
}
