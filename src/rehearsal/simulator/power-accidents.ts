/** What goes wrong with power: rails, branches and stages with a severity, against a margin of each package; slips. */
import { distance, distanceToSegment, type Point, type Random } from '../../base/index.ts'
import type { BoardModel, Lane, PlacedPart, Rail, Side } from '../../board/index.ts'
import { between, chance, lasting, pick } from './draw.ts'
import { faultOf, lanesOfPart, sparseFault, wholeFault } from './faults.ts'
import type { Accident, Scene } from './scene.ts'
import type { Damage, LaneFault } from './types.ts'

type Line = Damage['lines'][number]

/** Margin of a lane on one card, from 0 to 1: of its package, with a little of its own. */
function marginOf(scene: Scene, lane: Lane, coreAlone: boolean): number {
  const of = coreAlone ? `core ${lane.channel}` : lane.part
  const shared = lasting(scene.seed, `margin ${of}`)
  const own = lasting(scene.seed, `margin ${lane.id}`) - 0.5
  return (coreAlone ? 0.35 : 0.1) + (coreAlone ? 0.65 : 0.85) * shared + 0.12 * own
}

/** What too little voltage does to the lanes that are fed: the nearer to the margin, the sparser. */
function starved(scene: Scene, feeds: readonly string[], severity: number): LaneFault[] {
  const { model, random } = scene
  const memory = feeds.flatMap((ref) => lanesOfPart(model, ref))
  const coreAlone = memory.length === 0 && model.core !== undefined && feeds.includes(model.core.ref)
  const lanes = coreAlone ? model.lanes : memory
  return lanes.flatMap((lane) => {
    const excess = severity - marginOf(scene, lane, coreAlone)
    if (excess <= 0) return []
    return excess < 0.2 || chance(random, 0.2) ? [sparseFault(lane, random)] : [wholeFault(lane, random)]
  })
}

const feedsMemory = (model: BoardModel, rail: Rail): boolean =>
  rail.feeds.some((ref) => model.partByRef.get(ref)?.kind === 'memory')

/** Rails that matter to the memory come up three times as often as those of the core alone; others never. */
function drawRail({ model, random }: Scene): Rail | undefined {
  const core = model.core?.ref ?? ''
  const entries = model.rails.flatMap((rail) =>
    feedsMemory(model, rail) ? [rail, rail, rail] : rail.feeds.includes(core) && rail.stages.length > 0 ? [rail] : [],
  )
  return pick(random, entries)
}

/** Cold readings show a leak; a fault that is there under load only reads well. */
const railLine = (random: Random, name: string, severity: number, shows: number): Line[] =>
  chance(random, shows) ? [{ kind: 'rail', name, severity }] : []

/** A rail that is off with a severity from 0.15 to 1; three times of four it shows when measured. */
export function railAccident(scene: Scene): Accident {
  const severity = between(scene.random, 0.15, 1)
  const rail = drawRail(scene)
  const name = rail?.name ?? ''
  const lanes = starved(scene, rail?.feeds ?? [], severity)
  const lines = railLine(scene.random, name, severity, 0.75)
  const at = `rail ${name}`
  return { cause: { kind: 'rail', at, severity }, damages: [{ kind: 'rail', at, ref: undefined, lanes, lines }] }
}

/**
 * A branch of a rail that is off; shows less clearly when measured, as the rail is read before it. Without any branch
 * on the board it is a branch without a name that starves nothing.
 */
export function branchAccident(scene: Scene): Accident {
  const { model, random } = scene
  const severity = between(random, 0.15, 1)
  const rail =
    pick(
      random,
      model.rails.filter(({ branches }) => branches.length > 0),
    ) ?? drawRail(scene)
  const branch = pick(random, rail?.branches ?? [])
  const at = `branch ${branch?.name ?? ''} of rail ${rail?.name ?? ''}`
  const lanes = starved(scene, branch?.feeds ?? [], severity)
  const lines = railLine(random, rail?.name ?? '', severity * 0.7, 0.45)
  return {
    cause: { kind: 'rail-branch', at, severity },
    damages: [{ kind: 'rail-branch', at, ref: undefined, lanes, lines }],
  }
}

/** One stage of a rail, damaged with a severity from 0.15 to 1. */
export function stageAccident(scene: Scene): Accident {
  const rail = drawRail(scene)
  const ref = pick(scene.random, rail?.stages ?? []) ?? ''
  const severity = between(scene.random, 0.15, 1)
  return { cause: { kind: 'power-stage', at: ref, severity }, damages: [badStage(scene, ref, severity)] }
}

function badStage(scene: Scene, ref: string, severity: number): Omit<Damage, 'cause'> {
  const { model, random } = scene
  const rails = model.rails.filter(({ stages }) => stages.includes(ref))
  const lanes = new Map<string, LaneFault>()
  for (const rail of rails) {
    const shared = rail.stages.length > 2 ? 0.8 : 1
    for (const fault of starved(scene, rail.feeds, severity * shared)) lanes.set(fault.lane, fault)
  }
  const shorted = chance(random, 0.7)
  const lines: Line[] = [
    ...(chance(random, 0.7) ? [{ kind: 'stage', name: ref, severity } as const] : []),
    ...(shorted ? rails.flatMap(({ name }) => railLine(random, name, severity * 0.8, 0.8)) : []),
  ]
  return { kind: 'power-stage', at: ref, ref, lanes: [...lanes.values()], lines }
}

/** A tool slipped: what lies in its disc is cut, nudged or knocked off; nothing else. */
export function slipAccident(scene: Scene): Accident {
  const { model, random } = scene
  const slip = drawSlip(model, random)
  const damages: Omit<Damage, 'cause'>[] = []
  for (const corridor of model.corridors) {
    if (corridor.side !== slip.side || gapToPath(corridor.path, slip.at) > slip.radiusMm + corridor.widthMm / 2)
      continue
    const lane = model.laneById.get(corridor.lane)
    if (lane === undefined || !chance(random, 0.5)) continue
    const lanes = [faultOf(lane, { whole: 0.45, line: 0.5, sparse: 0.05 }, random)]
    damages.push({ kind: 'slip', at: lane.id, ref: undefined, lanes, lines: [] })
  }
  for (const part of model.parts) {
    if (part.side !== slip.side || gapToBody(part, slip.at) > slip.radiusMm) continue
    if (part.kind === 'power-stage' && chance(random, 0.4))
      damages.push({ ...badStage(scene, part.ref, between(random, 0.3, 1)), kind: 'slip' })
    if (part.kind === 'capacitor' && chance(random, 0.3)) damages.push(...knockedCapacitor(model, part, random))
  }
  return { cause: { kind: 'slip', at: `slip`, slip }, damages }
}

const NEAR_MM = 8

/** A capacitor that is gone weakens the package it stands beside, now and then. */
function knockedCapacitor(model: BoardModel, part: PlacedPart, random: Random): Omit<Damage, 'cause'>[] {
  const beside = model.memories.find((memory) => gapToBody(memory, part.placement.at) <= NEAR_MM)
  if (beside === undefined || !chance(random, 0.5)) return []
  const lanes = lanesOfPart(model, beside.ref).flatMap((lane) =>
    chance(random, 0.5) ? [sparseFault(lane, random)] : [],
  )
  return [{ kind: 'slip', at: part.ref, ref: undefined, lanes, lines: [] }]
}

/**
 * Where a tool slipped and how wide, mm: mostly near a track, else near a stage or memory, nine times of ten on top.
 * The point may lie off the board.
 */
export function drawSlip(model: BoardModel, random: Random): { at: Point; side: Side; radiusMm: number } {
  const radiusMm = between(random, 0.8, 3.5)
  const corridor = pick(random, model.corridors)
  const part = pick(
    random,
    model.parts.filter(({ kind }) => kind === 'power-stage' || kind === 'memory'),
  )
  const near = chance(random, 0.65) ? pointOn(corridor?.path ?? [], random) : part?.placement.at
  const side = chance(random, 0.9) ? 'top' : 'bottom'
  const { x, y } = near ?? { x: model.box.minX, y: model.box.minY }
  return { at: { x: x + 2 * random.normal(), y: y + 2 * random.normal() }, side, radiusMm }
}

function pointOn(path: readonly Point[], random: Random): Point | undefined {
  const index = random.whole(Math.max(1, path.length - 1))
  const a = path[index]
  const b = path[index + 1]
  if (a === undefined || b === undefined) return a
  const share = random.next()
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }
}

function gapToPath(path: readonly Point[], at: Point): number {
  let gap = Infinity
  for (let i = 1; i < path.length; i++) {
    const a = path[i - 1]
    const b = path[i]
    if (a !== undefined && b !== undefined) gap = Math.min(gap, distanceToSegment(at, a, b))
  }
  return gap
}

function gapToBody({ box }: PlacedPart, at: Point): number {
  const nearest = {
    x: Math.min(box.maxX, Math.max(box.minX, at.x)),
    y: Math.min(box.maxY, Math.max(box.minY, at.y)),
  }
  return distance(nearest, at)
}
