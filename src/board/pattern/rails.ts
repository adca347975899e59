/** Rails of a card from a pattern, with the ranges that the trade goes by: none of it is measured on the card. */
import type { z } from 'zod'
import type { Point } from '../../base/index.ts'
import type { railSchema } from '../schema.ts'
import type { Canvas } from './canvas.ts'
import type { PatternSupply } from './pattern.ts'
import type { PlacedPower, PlacedSupply } from './power.ts'

type RailFile = z.input<typeof railSchema>
type Ohms = NonNullable<RailFile['ohmsToGround']>

export const TYPICAL = 'common practice, no source'

/** Cold resistance to ground by what a rail feeds, in ohms: for comparison only. Common practice, no source. */
const typicalOhms = {
  input12V: { lowOhm: 1000, highOhm: 50_000, from: TYPICAL },
  input3V3: { lowOhm: 200, highOhm: 10_000, from: TYPICAL },
  coreMain: { lowOhm: 0.2, highOhm: 2, from: TYPICAL },
  coreSmall: { lowOhm: 5, highOhm: 50, from: TYPICAL },
  memoryMain: { lowOhm: 20, highOhm: 150, from: TYPICAL },
  memorySmall: { lowOhm: 50, highOhm: 2000, from: TYPICAL },
} satisfies Readonly<Record<string, Ohms>>

/**
 * Input rails, then the supplies in their order, each with its usual range.
 * @param memories refs of the memory packages
 * @param core ref of the core
 */
export function patternRails(
  canvas: Pick<Canvas, 'parts'>,
  power: PlacedPower,
  memories: readonly string[],
  core: string,
): RailFile[] {
  const placeOf = new Map(canvas.parts.map((part) => [part.ref, part]))
  const pointsAt = (refs: readonly (string | undefined)[]): { side: 'top' | 'bottom'; at: Point; part: string }[] =>
    refs.slice(0, 2).flatMap((ref) => {
      const part = ref === undefined ? undefined : placeOf.get(ref)
      return ref === undefined || part === undefined ? [] : [{ side: part.side, at: part.at, part: ref }]
    })
  // what a stack's supply usually measures is not known here
  const stacked = canvas.parts.some(({ carriedBy }) => carriedBy !== undefined)
  const fed: Readonly<Record<PatternSupply['feeds'], readonly string[]>> = {
    core: [core],
    memory: memories,
    both: [core, ...memories],
  }
  return [
    {
      name: '12V',
      nominalV: 12,
      ohmsToGround: typicalOhms.input12V,
      feeds: [...power.supplies.flatMap(({ stages }) => stages), ...power.controllers, ...power.inputCapacitors],
      points: pointsAt([power.plug, ...power.inputCapacitors]),
    },
    {
      name: '3V3',
      nominalV: 3.3,
      ohmsToGround: typicalOhms.input3V3,
      feeds: [...power.controllers, ...power.displays],
      points: pointsAt([power.slot]),
    },
    ...power.supplies.map((placed) => ({
      name: placed.supply.name,
      nominalV: placed.supply.nominalV,
      ...(stacked && placed.supply.feeds !== 'core' ? {} : { ohmsToGround: ohmsOf(placed, power.supplies) }),
      stages: [...placed.stages],
      feeds: [...fed[placed.supply.feeds], ...placed.capacitors],
      points: pointsAt(placed.inductors),
    })),
  ]
}

/** Of core and of memory, the supply with the most stages is the main one; the first of equals. */
function ohmsOf({ supply }: PlacedSupply, all: readonly PlacedSupply[]): Ohms {
  const forCore = supply.feeds === 'core'
  const rivals = all.filter((other) => (other.supply.feeds === 'core') === forCore)
  const most = Math.max(...rivals.map((other) => other.supply.stages))
  const main = rivals.find((other) => other.supply.stages === most)?.supply === supply
  if (forCore) return main ? typicalOhms.coreMain : typicalOhms.coreSmall
  return main ? typicalOhms.memoryMain : typicalOhms.memorySmall
}
