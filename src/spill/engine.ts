/** The reach engine of one board: everything that is marched once is kept, so that moving a mark is a lookup. */
import { bad, good, type Result } from '../base/index.ts'
import type { BoardModel, Side } from '../board/index.ts'
import { amountLevels } from './amounts.ts'
import { type Spread, firstLevels, leastLevels, probabilityOf } from './arrivals.ts'
import { checkSpill } from './checks.ts'
import { directReach } from './direct.ts'
import { type Behaviour, behaviourOf, loadOf } from './film.ts'
import { mergeHypotheses } from './groups.ts'
import type { AreaMark, DamMark, SpillMark } from './marks.ts'
import { notesOn } from './notes.ts'
import { prepareSteps } from './prepare.ts'
import type { ReachResult, SpillHypotheses } from './result.ts'
import { createShelf } from './shelf.ts'
import { buildSite, type Site } from './site.ts'
import { spotOf } from './spot.ts'
import { offBoard, spreadOf } from './spread.ts'
import type { Substance } from './substance.ts'
import { substances } from './substances.ts'
import { areaTarget, type Target, targetsOf } from './targets.ts'
import { unreportedSpread } from './unreported.ts'

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

interface Evaluated {
  readonly spread: Spread
  readonly regions: readonly Uint8Array[]
  readonly corridors: readonly Uint8Array[]
}

const KEPT_SITES = 4
const KEPT_ANSWERS = 8
const DEFAULT_SUBSTANCE = 'coolant-eg'

export function createReachEngine(model: BoardModel, options: ReachEngineOptions = {}): ReachEngine {
  const cellMm = options.cellMm ?? 1
  const targets = targetsOf(model)
  const sites = createShelf<Site>(KEPT_SITES)
  const evaluations = createShelf<Result<Evaluated>>(KEPT_ANSWERS)
  const unreported = createShelf<SpillHypotheses>(KEPT_ANSWERS)

  const siteFor = (sides: readonly Side[], behaviour: Behaviour, dams: readonly DamMark[], pushMm: number): Site => {
    const order = { sides, behaviour, dams, pushMm: behaviour.bodies === 'kept-out' ? pushMm : 0 }
    return sites.get(JSON.stringify(order), () => buildSite(model, order, cellMm))
  }
  const siteOf = (mark: SpillMark, dams: readonly DamMark[], substance: Substance): Result<Site> => {
    const behaviour = checkSpill(mark, dams, substance)
    if (!behaviour.ok) return behaviour
    const site = siteFor(sidesOf(mark), behaviour.value, dams, mark.pushMm)
    return spotOf(site.terrain, mark.at) === undefined ? bad(offBoard(mark)) : good(site)
  }
  const evaluate = (site: Site, mark: SpillMark, dams: readonly DamMark[], substance: Substance): Result<Evaluated> =>
    evaluations.get(JSON.stringify([mark, dams, substance]), () => {
      const spread = spreadOf(site, mark, substance)
      if (!spread.ok) return spread
      return good(arriveAt(site, spread.value, targets.regions, targets.corridors))
    })

  const reach: ReachEngine['reach'] = (mark, dams, substance) => {
    const site = siteOf(mark, dams, substance)
    if (!site.ok) return site
    const load = loadOf(mark.amount, substance, site.value.behaviour)
    if (!load.ok) return load
    const evaluated = evaluate(site.value, mark, dams, substance)
    if (!evaluated.ok) return evaluated
    const direct = directReach(site.value, mark, load.value)
    const { spread, regions, corridors } = evaluated.value
    return good({
      radiusMm: direct.radiusMm,
      areaMm2: direct.areaMm2,
      unplacedMl: direct.unplacedMm3 / 1000,
      fields: direct.fields,
      parts: partProbabilities(site.value, spread, regions),
      regions: model.regions.map(({ id }, i) => ({ id, probability: chance(regions[i], spread) })),
      corridors: model.corridors.map(({ lane }, i) => ({ lane, probability: chance(corridors[i], spread) })),
      notes: notesOn(model, site.value, mark, substance, load.value, direct.unplacedMm3),
    })
  }

  const partProbabilities = (site: Site, spread: Spread, regions: readonly Uint8Array[]): ReachResult['parts'] => {
    const parts: { ref: string; probability: number }[] = []
    for (const [ref, indices] of targets.regionsOfPart) {
      const firsts = indices.flatMap((index) => regions[index] ?? [])
      parts.push({ ref, probability: probabilityOf(leastLevels(firsts), spread) })
    }
    for (const { ref, target } of targets.bodies) {
      if (!site.terrain.sides.includes(target.side)) continue
      const probability = probabilityOf(firstLevels(target, site.fields, spread), spread)
      if (probability > 0) parts.push({ ref, probability })
    }
    return parts.toSorted((a, b) => b.probability - a.probability)
  }

  const hypotheses: ReachEngine['hypotheses'] = (mark, dams, substance, areas) => {
    const site = siteOf(mark, dams, substance)
    if (!site.ok) return site
    const evaluated = evaluate(site.value, mark, dams, substance)
    if (!evaluated.ok) return evaluated
    const { spread, regions, corridors } = evaluated.value
    return good(
      mergeHypotheses(spread, { regions, corridors, areas: arriveAtAreas(site.value, spread, areas) }, mark.side),
    )
  }

  const unreportedHypotheses: ReachEngine['unreportedHypotheses'] = ({ side, substance, areas, dams }) => {
    const behaviour = defaultBehaviour(substance)
    return unreported.get(JSON.stringify([side, behaviour, areas, dams]), () => {
      const site = siteFor([side], behaviour, dams, 0)
      const spread = unreportedSpread(site, model)
      const { regions, corridors } = arriveAt(site, spread, targets.regions, targets.corridors)
      return mergeHypotheses(spread, { regions, corridors, areas: arriveAtAreas(site, spread, areas) }, side)
    })
  }

  const prepareSlices: ReachEngine['prepareSlices'] = (mark, dams, substance) => {
    const site = siteOf(mark, dams, substance)
    if (!site.ok) return site
    const levels = amountLevels(mark, substance, site.value.behaviour)
    return levels.ok ? good(prepareSteps(site.value, mark, levels.value.loads, targets)) : levels
  }
  const prepare: ReachEngine['prepare'] = (mark, dams, substance, onProgress) => {
    const slices = prepareSlices(mark, dams, substance)
    if (!slices.ok) return slices
    for (const done of slices.value) onProgress?.(done)
    return good(undefined)
  }
  return { prepare, prepareSlices, reach, hypotheses, unreportedHypotheses }
}

function arriveAt(site: Site, spread: Spread, regions: readonly Target[], corridors: readonly Target[]): Evaluated {
  const arrive = (target: Target): Uint8Array => firstLevels(target, site.fields, spread)
  return { spread, regions: regions.map(arrive), corridors: corridors.map(arrive) }
}

function arriveAtAreas(site: Site, spread: Spread, areas: readonly AreaMark[]): Uint8Array[] {
  return areas.map((area) => firstLevels(areaTarget(area), site.fields, spread))
}

const chance = (first: Uint8Array | undefined, spread: Spread): number =>
  first === undefined ? 0 : probabilityOf(first, spread)

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
