/** Trials that were run, kept by what they hang on: what was spilled, how it stood, and the place. */
import { good, type Result } from '../../base/index.ts'
import { type LevelPlan, levelsAt, planLevels } from '../flow/levels.ts'
import type { SpillMark } from '../marks.ts'
import { latticePlacesNear, spacingFor } from './places.ts'
import { createShelf } from './last-used.ts'
import type { Site } from '../flow/site.ts'
import type { Substance } from '../substance/substance.ts'
import type { Trial, TrialBench, TrialPlace } from './trial.ts'

/** Trials of one plan: all places of one lattice share it. */
export interface Trials {
  readonly plan: LevelPlan
  readonly downDeg: number | undefined
  at(place: TrialPlace): Trial
}

export interface TrialStore {
  trialsFor(mark: SpillMark, substance: Substance, spacingMm: number | undefined): Result<Trials>
  /** Runs the trials of the whole lattice that a mark's spread stands on, nearest first; yields the share done. */
  prepareSteps(mark: SpillMark, substance: Substance): Result<Generator<number, void>>
}

const LEVELS_PER_PLACE = 3
const MOST_KEPT = 40_000
const KEPT_PLANS = 4
/** More columns than any lattice has. */
const ROW = 2 ** 20

/**
 * Keeps trials of one site, those of the four plans that were used last. Refuses, when asked, what `planLevels`
 * refuses: an amount or a substance without its figures.
 */
export function createTrialStore(site: Site, bench: TrialBench): TrialStore {
  const shelf = createShelf<Trials>(KEPT_PLANS)
  const trialsFor: TrialStore['trialsFor'] = (mark, substance, spacingMm) => {
    const downDeg = streakDownDeg(site, mark)
    const plan = planLevels(mark, substance, site.behaviour, LEVELS_PER_PLACE)
    if (!plan.ok) return plan
    const { amount, amountSdLog, at } = mark
    const key = JSON.stringify([amount, amountSdLog, substance, downDeg, plan.value.pushes, spacingMm ?? at])
    return good(shelf.get(key, () => keptTrials(bench, plan.value, downDeg)))
  }
  return {
    trialsFor,
    prepareSteps: (mark, substance) => {
      const spacingMm = spacingFor(mark.sdMm)
      const trials = trialsFor(mark, substance, spacingMm)
      if (!trials.ok) return trials
      const places = spacingMm === undefined ? [] : latticePlacesNear(site.terrain, mark.at, spacingMm)
      return good(runAll(trials.value, places.slice(0, MOST_KEPT)))
    },
  }
}

/** The direction in which a streak runs: the board was mounted and the substance flows. Else undefined. */
const streakDownDeg = (site: Site, mark: SpillMark): number | undefined =>
  site.behaviour.liquid === undefined ? undefined : mark.downDeg

function keptTrials(bench: TrialBench, plan: LevelPlan, downDeg: number | undefined): Trials {
  const kept = new Map<number, Trial>()
  const pushesMm = plan.pushes.map(({ pushMm }) => pushMm)
  return {
    plan,
    downDeg,
    at: (place) => {
      const key = place.row * ROW + place.column
      const before = kept.get(key)
      if (before !== undefined) return before
      const trial = bench.run(place, levelsAt(plan, place.column, place.row), downDeg, pushesMm)
      if (kept.size >= MOST_KEPT) kept.clear()
      kept.set(key, trial)
      return trial
    },
  }
}

function* runAll(trials: Trials, places: readonly TrialPlace[]): Generator<number, void> {
  let done = 0
  for (const place of places) {
    trials.at(place)
    yield ++done / places.length
  }
}
