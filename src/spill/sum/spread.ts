/** From a spill mark to all the ways in which it may have gone: places × levels, with what each of them reached. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import type { SpillMark } from '../marks.ts'
import { gaussianPlaces, type Places } from './places.ts'
import type { Site } from '../flow/site.ts'
import type { Substance } from '../substance/substance.ts'
import type { Trial } from './trial.ts'
import type { Trials, TrialStore } from './trial-store.ts'

export interface Spread {
  readonly places: Places
  /** One for each place. */
  readonly trials: readonly Trial[]
  /** Levels of a place; entry i · levels + j of what follows is level j at place i. */
  readonly levels: number
  readonly weight: Float64Array
  /** How far it may have been pushed; the trials name one of these by its index. */
  readonly pushesMm: readonly number[]
  /** The direction in which streaks run, or undefined where none does. */
  readonly downDeg: number | undefined
}

/** The spread of a mark, from trials that are run when they are first needed and kept. */
export function spreadOf(store: TrialStore, site: Site, mark: SpillMark, substance: Substance): Result<Spread> {
  const places = gaussianPlaces(site.terrain, mark.at, mark.sdMm)
  if (places.list.length === 0) return bad(offBoard(mark))
  const trials = store.trialsFor(mark, substance, places.spacingMm)
  return trials.ok ? good(spreadFrom(places, trials.value)) : trials
}

function spreadFrom(places: Places, trials: Trials): Spread {
  const { plan, downDeg } = trials
  const members = places.list.length * plan.count
  const weight = new Float64Array(members)
  for (let member = 0; member < members; member++) {
    weight[member] = (places.list[Math.floor(member / plan.count)]?.weight ?? 0) / plan.count
  }
  return {
    places,
    trials: places.list.map((place) => trials.at(place)),
    levels: plan.count,
    weight,
    pushesMm: plan.pushes.map(({ pushMm }) => pushMm),
    downDeg,
  }
}

/** The fault of a spill whose point lies beside the board or in a cut-out. */
export const offBoard = (mark: SpillMark): Fault => ({
  path: `spill ${mark.id}`,
  found: `(${mark.at.x}, ${mark.at.y})`,
  expected: say('a point on the {side, select, top {top} other {bottom}} side of the board', { side: mark.side }),
  todo: say('Move the spill onto the board, away from cut-outs.'),
})

/** Probability of each target: the weight of all ways in which it was reached. */
export function probabilitiesOf({ trials, levels, weight }: Spread, targets: number): Float64Array {
  const sum = new Float64Array(targets)
  for (const [i, { reached }] of trials.entries()) {
    for (let level = 0; level < levels; level++) {
      const share = weight[i * levels + level] ?? 0
      for (const target of reached[level] ?? nothing) sum[target] = (sum[target] ?? 0) + share
    }
  }
  return sum.map((probability) => (probability > 1 - ROUNDING ? 1 : probability))
}

/** Sums of a thousand weights are this good. */
const ROUNDING = 1e-9

const nothing = new Uint16Array(0)
