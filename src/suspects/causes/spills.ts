/** Spills as variables: reported ones, and one that nobody reported; what covering a region, corridor or area mark does. */
import { say } from '../../base/index.ts'
import { type BoardModel, type Region, standsOnBoard } from '../../board/index.ts'
import { type SpillHypotheses, type SpillMark, type Substance, waysOfMoving } from '../../spill/index.ts'
import { type Assumptions, BITES } from '../assumptions.ts'
import { checkTouches } from '../checks/check-scope.ts'
import type { Covered, Item, SharedTouch, SpillItems, SpillVariable } from '../network/cause.ts'
import { NEVER } from '../network/observations.ts'
import type { CauseAt } from '../result.ts'
import { uncuredBy } from '../remedies/figures.ts'
import { type CauseContext, lasting, laneTouches, versionsOf } from './context.ts'
import { placeWords } from './places.ts'

/** What kind of harm a substance does: it conducts like metal, like a liquid, or as a dried crust. */
export type Harm = 'metal' | 'liquid' | 'crust'
const METAL_OHM_M = 1e-3

/** Conducts like metal by its resistivity; what dried where it stood is a crust; all else counts as a liquid does. */
export function harmOf({ resistivityOhmM, moves }: Pick<Substance, 'resistivityOhmM' | 'moves'>): Harm {
  if (resistivityOhmM !== undefined && resistivityOhmM.value < METAL_OHM_M) return 'metal'
  return waysOfMoving[moves].harm
}

const FIGURES = { metal: 'metal', liquid: 'spill', crust: 'crust' } as const

/**
 * What covering each region, corridor and area does with this substance, in the board's order. A command field harms
 * by the share of its area, so that q over all of it is the stated figure.
 */
export function spillItems(context: CauseContext, harm: Harm): SpillItems {
  const { model, assumptions, observed } = context
  const { fails, evidence } = assumptions
  const { residueWhereReached, cleanOverlooksReached } = evidence
  const uncured = uncuredBy(assumptions).beneath[harm]
  const commandMm2 = commandAreas(model)
  // sealed, and above the board: nothing that flows on it gets there
  const onSubstrate = new Set(model.parts.flatMap((part) => (standsOnBoard(part) ? [] : [part.ref])))
  const atMemory = fails[`${FIGURES[harm]}-at-memory`]
  const qOf = (region: Region): number => {
    if (region.role === 'power') return fails['power-region']
    if (region.part === model.core?.ref) return fails[`${FIGURES[harm]}-at-core`]
    if (region.role !== 'command') return atMemory
    return 1 - (1 - atMemory) ** (region.areaMm2 / (commandMm2.get(region.part) ?? region.areaMm2))
  }
  return {
    regions: model.regions.map((region): Item => {
      if (onSubstrate.has(region.part)) return { harm: [], shows: [] }
      const end = region.part === model.core?.ref ? 'core' : 'memory'
      const versions = versionsOf(observed.rightBefore(region.part), uncured)
      const place = { kind: 'spill', parts: [region.part], lanes: region.lanes, side: region.side } as const
      return {
        harm: versions.flatMap(({ share, rightFrom }) =>
          laneTouches(context, region.lanes, qOf(region) * share).map(
            (touch): SharedTouch => ({ ...touch, end: rightFrom === NEVER ? end : 'other', rightFrom }),
          ),
        ),
        shows: checkTouches(observed.checks, place).map(lasting),
      }
    }),
    corridors: model.corridors.map(({ lane }): Item => {
      const rightFrom = observed.trackCleanFrom(lane)
      const touches = laneTouches(context, [lane], fails['spill-on-corridor'])
      return { harm: touches.map((touch): SharedTouch => ({ ...touch, end: 'other', rightFrom })), shows: [] }
    }),
    areas: [
      ...observed.areas.map((finding): Item => {
        const bad = (observed.list[finding]?.goodIn ?? NEVER) === NEVER
        return { harm: [], shows: [lasting({ finding, q: bad ? residueWhereReached : 1 - cleanOverlooksReached })] }
      }),
      ...observed.askedAreas.map(
        ({ seen, clean }): Item => ({
          harm: [],
          shows: [
            lasting({ finding: seen, q: residueWhereReached }),
            lasting({ finding: clean, q: 1 - cleanOverlooksReached }),
          ],
        }),
      ),
    ],
  }
}

/** A package's command field counts as one region, however finely the board divides it: by part, its area in mm². */
function commandAreas(model: BoardModel): Map<string, number> {
  const areas = new Map<string, number>()
  for (const { part, role, areaMm2 } of model.regions) {
    if (role === 'command') areas.set(part, (areas.get(part) ?? 0) + areaMm2)
  }
  return areas
}

const STRENGTH = { none: 0, some: 0.5, full: 1 } as const

function bitesOf({ bite }: Assumptions): SpillVariable['bites'] {
  const total = BITES.reduce((sum, each) => sum + bite[each], 0)
  const shares = BITES.map((each) => ({ share: total > 0 ? bite[each] / total : 1 / 3, strength: STRENGTH[each] }))
  return shares.filter(({ share }) => share > 0)
}

/** The variable of one reported spill; its states are the groups of the hypotheses, with their weights. */
export function reportedSpill(
  context: CauseContext,
  items: SpillItems,
  mark: SpillMark,
  hypotheses: SpillHypotheses,
): SpillVariable {
  return {
    kind: 'spill',
    prior: context.assumptions.prior.spill,
    states: hypotheses.groups,
    items,
    bites: bitesOf(context.assumptions),
    labels: [{ kind: 'spill', at: placeWords(context.model, mark.at, mark.side), refs: [] }],
    labelShare: new Float64Array(hypotheses.groups.length).fill(1),
  }
}

/** States and places of a spill that nobody reported: each board side's hypotheses with an equal share. */
export interface UnreportedStates {
  readonly states: readonly Covered[]
  readonly labels: readonly CauseAt[]
  readonly labelShare: Float64Array
}

/**
 * The states of both sides one after the other, each side alike, with the part of the board where each state's
 * members lie, as shares. A board without members has one label.
 */
export function unreportedStates(model: BoardModel, sides: readonly SpillHypotheses[]): UnreportedStates {
  const labels: CauseAt[] = []
  const numberOf = new Map<string, number>()
  const states: Covered[] = []
  const rows: Map<number, number>[] = []
  for (const hypotheses of sides) {
    const offset = states.length
    for (const group of hypotheses.groups) {
      states.push({ ...group, weight: group.weight / sides.length })
      rows.push(new Map())
    }
    const { xMm, yMm, weight, group } = hypotheses.members
    for (let i = 0; i < group.length; i++) {
      const at = placeWords(model, { x: xMm[i] ?? 0, y: yMm[i] ?? 0 }, hypotheses.side)
      const label = numberOf.get(at) ?? labels.push({ kind: 'unreported-spill', at, refs: [] }) - 1
      numberOf.set(at, label)
      const row = rows[offset + (group[i] ?? 0)]
      row?.set(label, (row.get(label) ?? 0) + (weight[i] ?? 0))
    }
  }
  if (labels.length === 0) labels.push({ kind: 'unreported-spill', at: say('on the board'), refs: [] })
  return { states, labels, labelShare: sharesOf(rows, labels.length) }
}

function sharesOf(rows: readonly ReadonlyMap<number, number>[], labels: number): Float64Array {
  const share = new Float64Array(rows.length * labels)
  for (const [state, row] of rows.entries()) {
    let total = 0
    for (const weight of row.values()) total += weight
    if (total > 0) for (const [label, weight] of row) share[state * labels + label] = weight / total
    else share[state * labels] = 1
  }
  return share
}

/** @param times how many times its prior counts, by what the owner says and by what was reported */
export function unreportedSpill(
  context: CauseContext,
  items: SpillItems,
  unreported: UnreportedStates,
  times: number,
): SpillVariable {
  const prior = Math.min(1, context.assumptions.prior['unreported-spill'] * times)
  return { kind: 'unreported-spill', prior, ...unreported, items, bites: bitesOf(context.assumptions) }
}
