/** The causes that have a place and a size: a patch of the core's ball field, reported spills, an unreported one. */
import { type Point, polygonContains } from '../base/index.ts'
import type { BoardModel, Region } from '../board/index.ts'
import type { SpillHypotheses, SpillMark } from '../spill/index.ts'
import { type CauseContext, laneTouches } from './causes.ts'
import { checkTouches } from './check-scope.ts'
import type { Item, SpatialCause, SpatialState } from './network.ts'
import { placeWithin, placeWords } from './places.ts'
import type { CauseAt } from './result.ts'

const NOTHING = new Uint16Array(0)

export interface PatchStates {
  readonly states: readonly SpatialState[]
  readonly labels: readonly CauseAt[]
  /** Label of each state. */
  readonly label: readonly number[]
}

/**
 * Discs whose centres lie on a grid over the core's body, each radius as likely as the others. A disc covers a region
 * whose centre of area it holds. Discs that cover nothing are no hypothesis; equal ones under the same word merge.
 */
export function patchStates(model: BoardModel, radiiMm: readonly number[], stepMm: number): PatchStates {
  const core = model.core
  const coreRegions = model.regions.flatMap((region, index) =>
    core !== undefined && region.part === core.ref && region.lanes.length > 0 ? [{ region, index }] : [],
  )
  if (core === undefined || coreRegions.length === 0) return { states: [], labels: [], label: [] }
  const labels: CauseAt[] = []
  const weights = new Map<string, { weight: number; regions: number[]; label: number }>()
  let total = 0
  for (const centre of centresOver(core.box, stepMm)) {
    if (!polygonContains(core.outline, centre)) continue
    const label = labelFor(labels, { kind: 'core-patch', at: placeWithin(core, centre), refs: [core.ref] })
    for (const radiusMm of radiiMm) {
      const regions = coreRegions.filter(({ region }) => discHolds(centre, radiusMm, region)).map(({ index }) => index)
      if (regions.length === 0) continue
      total++
      const key = `${label}:${regions.join()}`
      const known = weights.get(key)
      if (known === undefined) weights.set(key, { weight: 1, regions, label })
      else known.weight++
    }
  }
  const merged = [...weights.values()]
  return {
    states: merged.map(({ weight, regions }) => ({
      weight: weight / total,
      regions: Uint16Array.from(regions),
      corridors: NOTHING,
      areas: NOTHING,
    })),
    labels,
    label: merged.map(({ label }) => label),
  }
}

function* centresOver(
  box: { minX: number; minY: number; maxX: number; maxY: number },
  stepMm: number,
): Generator<Point> {
  for (let y = box.minY + stepMm / 2; y < box.maxY; y += stepMm) {
    for (let x = box.minX + stepMm / 2; x < box.maxX; x += stepMm) yield { x, y }
  }
}

const discHolds = (centre: Point, radiusMm: number, region: Region): boolean =>
  Math.hypot(region.centre.x - centre.x, region.centre.y - centre.y) <= radiusMm

function labelFor(labels: CauseAt[], wanted: CauseAt): number {
  const known = labels.findIndex((label) => label.at === wanted.at)
  return known >= 0 ? known : labels.push(wanted) - 1
}

export function patchCause(context: CauseContext, patch: PatchStates): SpatialCause {
  const { assumptions, model } = context
  const q = assumptions.fails['core-patch']
  return {
    kind: 'core-patch',
    prior: patch.states.length === 0 ? 0 : assumptions.prior['core-patch'],
    states: patch.states,
    labels: patch.labels,
    labelShare: oneHot(patch.label, patch.labels.length),
    regionItems: model.regions.map((region) => regionItem(context, region, 'core-patch', q)),
    corridorItems: [],
    areaItems: [],
  }
}

function oneHot(label: readonly number[], labels: number): Float64Array {
  const share = new Float64Array(label.length * labels)
  for (const [state, chosen] of label.entries()) share[state * labels + chosen] = 1
  return share
}

function regionItem(context: CauseContext, region: Region, kind: 'core-patch' | 'spill', signalQ: number): Item {
  const q = region.role === 'power' ? context.assumptions.fails['power-region'] : signalQ
  const { evidence } = context
  const place = { kind, parts: [region.part], lanes: region.lanes, side: region.side }
  const touches = [...laneTouches(evidence, region.lanes, q), ...checkTouches(evidence.checkFindings, place)]
  return { touches, part: context.partIndex(region.part) }
}

/** A package's command field counts as one region, however finely the board divides it: by part, its area in mm². */
function commandAreas(model: BoardModel): Map<string, number> {
  const areas = new Map<string, number>()
  for (const { part, role, areaMm2 } of model.regions) {
    if (role === 'command') areas.set(part, (areas.get(part) ?? 0) + areaMm2)
  }
  return areas
}

/** What reaching each region, corridor and area mark does. */
export interface SpillItems {
  readonly regionItems: readonly Item[]
  readonly corridorItems: readonly Item[]
  readonly areaItems: readonly Item[]
}

export function spillItems(context: CauseContext): SpillItems {
  const { assumptions, model, evidence } = context
  const { fails } = assumptions
  const { residueWhereReached, cleanOverlooksReached } = assumptions.evidence
  const commandMm2 = commandAreas(model)
  const atMemory = (region: Region): number =>
    1 -
    (1 - fails['spill-at-memory']) **
      (region.role === 'command' ? region.areaMm2 / (commandMm2.get(region.part) ?? 1) : 1)
  return {
    regionItems: model.regions.map((region) =>
      regionItem(context, region, 'spill', region.part === model.core?.ref ? fails['spill-at-core'] : atMemory(region)),
    ),
    corridorItems: model.corridors.map(({ lane }) => ({
      touches: laneTouches(evidence, [lane], fails['spill-on-corridor']),
      part: -1,
    })),
    areaItems: [
      ...evidence.areaFinding.map((finding) => {
        const bad = evidence.findings[finding]?.bad ?? false
        return { touches: [{ finding, q: bad ? residueWhereReached : 1 - cleanOverlooksReached }], part: -1 }
      }),
      ...evidence.askedAreas.map(({ seen, clean }) => ({
        touches: [
          { finding: seen, q: residueWhereReached },
          { finding: clean, q: 1 - cleanOverlooksReached },
        ],
        part: -1,
      })),
    ],
  }
}

export function reportedSpill(
  context: CauseContext,
  items: SpillItems,
  mark: SpillMark,
  hypotheses: SpillHypotheses,
): SpatialCause {
  return {
    kind: 'spill',
    prior: context.assumptions.prior.spill,
    states: hypotheses.groups,
    labels: [{ kind: 'spill', at: placeWords(context.model, mark.at, mark.side), refs: [] }],
    labelShare: new Float64Array(hypotheses.groups.length).fill(1),
    ...items,
  }
}

/** States and places of a spill that nobody reported: each board side's hypotheses with an equal share. */
export interface UnreportedStates {
  readonly states: readonly SpatialState[]
  readonly labels: readonly CauseAt[]
  readonly labelShare: Float64Array
}

export function unreportedStates(model: BoardModel, sides: readonly SpillHypotheses[]): UnreportedStates {
  const labels: CauseAt[] = []
  const states: SpatialState[] = []
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
      const label = labelFor(labels, { kind: 'unreported-spill', at, refs: [] })
      const row = rows[offset + (group[i] ?? 0)]
      row?.set(label, (row.get(label) ?? 0) + (weight[i] ?? 0))
    }
  }
  if (labels.length === 0) labels.push({ kind: 'unreported-spill', at: 'on the board', refs: [] })
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

export function unreportedSpill(context: CauseContext, items: SpillItems, unreported: UnreportedStates): SpatialCause {
  return { kind: 'unreported-spill', prior: context.assumptions.prior['unreported-spill'], ...unreported, ...items }
}
