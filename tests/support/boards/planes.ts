/** Planes of core and memory of an invented card: where the copper of these two rails is. */
import type { z } from 'zod'
import { boxOf } from '../../../src/base/index.ts'
import type { railSchema } from '../../../src/board/index.ts'
import type { CardPlan } from './plan.ts'
import type { PlacedPower } from './power.ts'

type Copper = NonNullable<z.input<typeof railSchema>['copper']>

const INDUCTOR_HALF_MM = 4.5
const AROUND_CORE_MM = 5
const NARROWEST_MM = 10
const AROUND_RING_MM = 2.5
const CORNER_MM = 14

const polygonOf = (layer: string, corners: readonly (readonly [number, number])[]): Copper => [
  { layer, polygon: corners.map(([x, y]) => ({ x: rounded(x), y: rounded(y) })) },
]

const rounded = (mm: number): number => Math.round(mm * 10) / 10

/** From the inductors on the right to the core, and on to those on the left. */
export function corePlane(plan: CardPlan, power: PlacedPower): Copper {
  const { x, y } = plan.core.at
  const half = plan.core.sizeMm / 2 + AROUND_CORE_MM
  const coils = power.inductors.filter(({ stage }) => power.coreStages.includes(stage)).map(({ at }) => at)
  const right = boxOf(coils.filter((at) => at.x > x))
  const left = boxOf(coils.filter((at) => at.x < x))
  const grown = INDUCTOR_HALF_MM
  const armLow = Math.min(left.minY - grown, y + half - NARROWEST_MM)
  return polygonOf('power 4', [
    [left.minX - grown, armLow],
    [x - half, armLow],
    [x - half, y - half],
    [right.minX - grown - 8, y - half],
    [right.minX - grown - 8, right.minY - grown],
    [right.maxX + grown, right.minY - grown],
    [right.maxX + grown, right.maxY + grown],
    [right.minX - grown - 8, right.maxY + grown],
    [right.minX - grown - 8, y + half],
    [x - half, y + half],
    [x - half, left.maxY + grown],
    [left.minX - grown, left.maxY + grown],
  ])
}

/** Under the ring of packages, with an arm to the inductors on the left. */
export function memoryPlane(plan: CardPlan, power: PlacedPower): Copper {
  const { x, y } = plan.core.at
  const reach = plan.core.sizeMm / 2 + plan.memory.gapMm + plan.memory.lengthMm + AROUND_RING_MM
  const coils = boxOf(power.inductors.filter(({ stage }) => power.memoryStages.includes(stage)).map(({ at }) => at))
  const west = x - reach
  const low = coils.minY - INDUCTOR_HALF_MM
  const high = Math.min(plan.heightMm - 1.5, y + reach)
  return polygonOf('power 6', [
    [coils.minX - INDUCTOR_HALF_MM, low],
    [x + reach - CORNER_MM, low],
    [x + reach, low + CORNER_MM],
    [x + reach, high - CORNER_MM],
    [x + reach - CORNER_MM, high],
    [west + CORNER_MM, high],
    [west, high - CORNER_MM],
    [west, coils.maxY + INDUCTOR_HALF_MM],
    [coils.minX - INDUCTOR_HALF_MM, coils.maxY + INDUCTOR_HALF_MM],
  ])
}
