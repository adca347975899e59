/** A card by hand on the small board: what is broken on it is said, and luck is what its figures say. */
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import {
  type Damage,
  type Known,
  knownOf,
  middleMixture,
  type Observations,
  type SimulatedCard,
  type TrueCause,
  type TrueSpill,
} from '../../src/rehearsal/index.ts'
import { type SpillMark, spillMarkSchema } from '../../src/spill/index.ts'
import type { LaneState } from '../../src/suspects/index.ts'
import { smallBoard } from '../support/small-board.ts'

const read = readBoard(JSON.stringify(smallBoard()))
if (!read.ok) throw new Error('the small board is none')
/** Core U1, memories U2 (top) and U3 (bottom) with lanes A0, A1, B0, B1, stage S1 of rail VMEM. */
export const model: BoardModel = read.value

export const nothingSeen: Observations = {
  report: { kind: 'table', layout: 'table by hand', rows: [] },
  told: 'unknown',
  spills: [],
  areas: [],
  slips: [],
  measurements: [],
}

/** A damage that spoils one lane of U2 whole, with something of it changed. */
export const damage = (change: Partial<Damage>): Damage => ({
  cause: 0,
  kind: 'die',
  at: 'U2',
  ref: 'U2',
  lanes: [{ lane: 'U2.A0', bits: 255, reads: 'high', perRead: 1 }],
  lines: [],
  ...change,
})

export const lanes = (...failing: readonly string[]): Map<string, LaneState> =>
  new Map(model.lanes.map(({ id }) => [id, failing.includes(id) ? 'fail' : 'pass']))

const spoiledBy = (left: readonly Damage[]): Map<string, LaneState> =>
  lanes(...left.flatMap((each) => each.lanes.map(({ lane }) => lane)))

/** Everything goes well, and nothing is cured by luck. */
const LUCK: Partial<SimulatedCard['figures']> = {
  washCures: 0,
  washCuresMetal: 0,
  takeUpCures: 0,
  siteCures: 1,
  siteCuresMetal: 1,
  reballCures: 1,
  newPartGood: 1,
  repairFinds: 1,
  seenUnder: 1,
  seenUnderClean: 0,
  refitSpoilsMemory: 0,
  refitSpoilsCore: 0,
  liftLosesMemory: 0,
  liftLosesCore: 0,
}

export interface ByHand {
  readonly damages?: readonly Damage[]
  readonly causes?: readonly TrueCause[]
  readonly figures?: Partial<SimulatedCard['figures']>
  readonly seen?: Partial<Observations>
  readonly change?: Partial<SimulatedCard>
}

/** Every check finds nothing, no line can be read, and a test fails exactly the lanes that are spoiled. */
export function handCard({
  damages = [],
  causes = [],
  figures = {},
  seen = {},
  change = {},
}: ByHand = {}): SimulatedCard {
  const spoiled = [...new Set(damages.flatMap((each) => each.lanes.map(({ lane }) => lane)))]
  const needs = [...new Set(damages.flatMap(({ ref }) => ref ?? []))]
  return {
    seed: 5,
    model,
    mixture: 'by hand',
    figures: { ...middleMixture().figures, ...LUCK, ...figures },
    truth: { causes, damages, spoiled, needs },
    observations: { ...nothingSeen, ...seen },
    walk: { addresses: new Float64Array(), channel: new Int32Array(), row: new Float64Array() },
    outcomeOf: () => false,
    measure: () => [],
    lift: (refs) => refs.map((ref) => ({ ref, atFault: needs.includes(ref), wet: [], kinds: [] })),
    retest: (lifted) => spoiledBy(damages.filter(({ ref }) => ref === undefined || !lifted.includes(ref))),
    withLeft: (left) => ({ outcomeOf: () => false, measure: () => [], test: () => spoiledBy(left) }),
    ...change,
  }
}

/** What is known of it as it came: the lanes of its first test. */
export const asKnown = (card: SimulatedCard): Known =>
  knownOf(card, { lanes: spoiledBy(card.truth.damages), signatures: new Map() })

export const reading = (
  name: string,
  value: number,
  kind: 'rail' | 'stage' = 'rail',
): Observations['measurements'][number] => ({
  line: { kind, name },
  quantity: 'ohms',
  phase: 'before',
  reading: { kind: 'value', value },
  typed: `${value}`,
})

/** A millilitre of water on the top side, with something of it changed. */
export const spillMark = (change: Partial<SpillMark>): SpillMark => ({
  ...spillMarkSchema.parse({
    kind: 'spill',
    id: 'spill-1',
    side: 'top',
    at: { x: 20, y: 20 },
    sdMm: 2,
    substance: 'water',
    amount: { volumeMl: 1 },
  }),
  ...change,
})

/** A millilitre of water at (20, 20) on top that wetted no cell, with something of it changed. */
export const spillCause = (change: Partial<TrueSpill>, kind: TrueCause['kind'] = 'wet-spill'): TrueCause => {
  const wet = { side: 'top', cellMm: 1, columns: 0, rows: 0, minX: 0, minY: 0, cells: new Uint8Array() } as const
  const spill = { substance: 'water', at: { x: 20, y: 20 }, side: 'top', volumeMl: 1 } as const
  const none = { smear: undefined, downDeg: undefined, wet, regions: [] }
  return { kind, at: spill.substance, spill: { ...spill, ...none, ...change } }
}
