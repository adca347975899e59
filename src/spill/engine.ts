/** The reach engine of one board: everything that is marched once is kept, so that moving a mark is a lookup. */
import { bad, good, type Result } from '../base/index.ts'
import type { BoardModel, Side } from '../board/index.ts'
import { reachesArea } from './sum/area-arrivals.ts'
import { checkSpill } from './checks.ts'
import { directReach } from './sum/direct.ts'
import { type Behaviour, behaviourOf, loadOf } from './flow/film.ts'
import { mergeHypotheses } from './sum/groups.ts'
import type { AreaMark, DamMark, SpillMark } from './marks.ts'
import { extentWords, notesOn } from './notes.ts'
import { lands } from './sum/places.ts'
import type { ReachResult, SpillHypotheses } from './result.ts'
import { createShelf } from './sum/last-used.ts'
import { buildSite, type Site } from './flow/site.ts'
import { offBoard, probabilitiesOf, type Spread, spreadOf } from './sum/spread.ts'
import type { Substance } from './substance/substance.ts'
import { substances } from './substance/substances.ts'
import { type BoardTargets, targetsOf } from './ground/targets.ts'
import { createTrialBench, type TrialBench } from './sum/trial.ts'
import { createTrialStore, type TrialStore } from './sum/trial-store.ts'
import { unreportedSpread } from './sum/unreported.ts'

export interface ReachEngineOptions {
  /** Edge of a raster cell; 1 where left out. */
  readonly cellMm?: number
}

export interface UnreportedQuestion {
  readonly side: Side
  /** Coolant where left out. */
  readonly substance?: Substance
  readonly areas: readonly AreaMark[]
  readonly dams: readonly DamMark[]
}

export interface ReachEngine {
  /** Marches everything that a mark of this kind needs, wherever it is moved; `onProgress` hears shares of the work done. */
  prepare(
    mark: SpillMark,
    dams: readonly DamMark[],
    substance: Substance,
    onProgress?: (done: number) => void,
  ): Result<void>
  /** The same in slices: yields the share done after each march, so that a worker can answer in between. */
  prepareSlices(mark: SpillMark, dams: readonly DamMark[], substance: Substance): Result<Generator<number, void>>
  /** Radius, rings and probabilities of one spill. Refuses a spill off the board and a substance without its figures. */
  reach(mark: SpillMark, dams: readonly DamMark[], substance: Substance): Result<ReachResult>
  /** The same spill as a set of hypotheses for inference. `areas` index as they are handed in. */
  hypotheses(
    mark: SpillMark,
    dams: readonly DamMark[],
    substance: Substance,
    areas: readonly AreaMark[],
  ): Result<SpillHypotheses>
  /** A spill that nobody reported, anywhere on one side: does not depend on any spill mark. */
  unreportedHypotheses(question: UnreportedQuestion): SpillHypotheses
}

interface Ground {
  readonly site: Site
  readonly bench: TrialBench
  readonly trials: TrialStore
}

const KEPT_GROUNDS = 4
const KEPT_ANSWERS = 8
const DEFAULT_SUBSTANCE = 'coolant-eg'

/**
 * A reach engine for one board. Marches, trials and answers are kept by the marks that they hang on, the last used of
 * each.
 */
export function createReachEngine(model: BoardModel, options: ReachEngineOptions = {}): ReachEngine {
  const cellMm = options.cellMm ?? 1
  const targets = targetsOf(model)
  const grounds = createShelf<Ground>(KEPT_GROUNDS)
  const spreads = createShelf<Result<Spread>>(KEPT_ANSWERS)
  const unreported = createShelf<SpillHypotheses>(KEPT_ANSWERS)
  /** Marched without regard to area marks, so that a new look costs no march. */
  const unreportedSpreads = createShelf<Spread>(KEPT_GROUNDS)

  const groundFor = (sides: readonly Side[], behaviour: Behaviour, dams: readonly DamMark[]): Ground =>
    grounds.get(JSON.stringify([sides, behaviour, dams]), () => {
      const site = buildSite(model, { sides, behaviour, dams }, cellMm)
      const bench = createTrialBench(model, site, targets)
      return { site, bench, trials: createTrialStore(site, bench) }
    })
  const groundOf = (mark: SpillMark, dams: readonly DamMark[], substance: Substance): Result<Ground> => {
    const behaviour = checkSpill(mark, dams, substance, model.core?.side ?? 'top')
    if (!behaviour.ok) return behaviour
    const ground = groundFor(sidesOf(mark), behaviour.value, dams)
    return lands(ground.site.terrain, mark.at) ? good(ground) : bad(offBoard(mark))
  }
  const spreadFor = (ground: Ground, mark: SpillMark, dams: readonly DamMark[], substance: Substance) =>
    spreads.get(JSON.stringify([mark, dams, substance]), () => spreadOf(ground.trials, ground.site, mark, substance))

  const reach: ReachEngine['reach'] = (mark, dams, substance) => {
    const ground = groundOf(mark, dams, substance)
    if (!ground.ok) return ground
    const { site } = ground.value
    const load = loadOf(mark.amount, substance, site.behaviour)
    if (!load.ok) return load
    const spread = spreadFor(ground.value, mark, dams, substance)
    if (!spread.ok) return spread
    const direct = directReach(site, mark, substance, load.value)
    const noted = { model, site, mark, substance, load: load.value, direct }
    const probability = probabilitiesOf(spread.value, targets.list.length + model.parts.length)
    return good({
      radiusMm: direct.radiusMm,
      areaMm2: direct.areaMm2,
      unplacedMl: direct.unplacedMm3 / 1000,
      fields: direct.fields,
      parts: partProbabilities(targets, site, probability),
      regions: model.regions.map(({ id }, i) => ({ id, probability: probability[i] ?? 0 })),
      corridors: model.corridors.map(({ lane }, i) => ({ lane, probability: probability[targets.regions + i] ?? 0 })),
      extent: extentWords(noted),
      notes: notesOn(noted),
    })
  }

  const hypotheses: ReachEngine['hypotheses'] = (mark, dams, substance, areas) => {
    const ground = groundOf(mark, dams, substance)
    if (!ground.ok) return ground
    const spread = spreadFor(ground.value, mark, dams, substance)
    if (!spread.ok) return spread
    const reached = areas.map((area) => reachesArea(ground.value.site, spread.value, area))
    return good(mergeHypotheses(spread.value, reached, targets, mark.side))
  }

  const unreportedHypotheses: ReachEngine['unreportedHypotheses'] = ({ side, substance, areas, dams }) => {
    const behaviour = defaultBehaviour(substance)
    return unreported.get(JSON.stringify([side, behaviour, areas, dams]), () => {
      const { site, bench } = groundFor([side], behaviour, dams)
      const key = JSON.stringify([side, behaviour, dams])
      const spread = unreportedSpreads.get(key, () => unreportedSpread(site, bench, model))
      return mergeHypotheses(
        spread,
        areas.map((area) => reachesArea(site, spread, area)),
        targets,
        side,
      )
    })
  }

  const prepareSlices: ReachEngine['prepareSlices'] = (mark, dams, substance) => {
    const ground = groundOf(mark, dams, substance)
    return ground.ok ? ground.value.trials.prepareSteps(mark, substance) : ground
  }
  const prepare: ReachEngine['prepare'] = (mark, dams, substance, onProgress) => {
    const slices = prepareSlices(mark, dams, substance)
    if (!slices.ok) return slices
    for (const done of slices.value) onProgress?.(done)
    return good(undefined)
  }
  return { prepare, prepareSlices, reach, hypotheses, unreportedHypotheses }
}

/** Parts with regions always, so that a 0 can be told from a part that is not there; of the others those that are reached. */
function partProbabilities(targets: BoardTargets, { terrain }: Site, probability: Float64Array): ReachResult['parts'] {
  const first = targets.regions + targets.corridors
  return targets.parts
    .map(({ ref, side, hasRegions }, i) => ({ ref, side, hasRegions, probability: probability[first + i] ?? 0 }))
    .filter((part) => part.hasRegions || (part.probability > 0 && terrain.sides.includes(part.side)))
    .map((part) => ({ ref: part.ref, probability: part.probability }))
    .toSorted((a, b) => b.probability - a.probability)
}

function sidesOf(mark: SpillMark): Side[] {
  if (!mark.reachesOtherSide) return [mark.side]
  return mark.side === 'top' ? ['top', 'bottom'] : ['bottom', 'top']
}

/** The substance's behaviour, or that of shipped coolant where none is given or its figures are missing. */
function defaultBehaviour(substance: Substance | undefined): Behaviour {
  const known = [substance, substances.find(({ id }) => id === DEFAULT_SUBSTANCE), ...substances]
  for (const candidate of known) {
    const behaviour = candidate === undefined ? undefined : behaviourOf(candidate)
    if (behaviour?.ok) return behaviour.value
  }
  return { bodies: 'entered', filmMm: 1, liquid: undefined }
}
