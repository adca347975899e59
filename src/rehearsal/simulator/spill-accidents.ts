/** Spills: what it was, where and how much, how far it really got, and what it harmed there. */
import type { Point, Random } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import { between, chance, logNormal, pickWeighted } from './draw.ts'
import { faultOf, faultsAlike, lanesCalled, type Looks } from './faults.ts'
import { type Pour, pour, wetShare } from './flow.ts'
import { groundOf } from './ground.ts'
import type { FigureName, Mixture } from './mixture.ts'
import type { Accident, Scene } from './scene.ts'
import type { Damage, TrueSpill, WetCells } from './types.ts'

type Family = 'wet' | 'metal' | 'compound' | 'flux'

const WET = { 'coolant-eg': 0.45, 'coolant-pg': 0.35, water: 0.2 }
const PASTY = {
  'gallium-indium': 0.25,
  'gallium-indium-tin': 0.4,
  'cooling-compound': 0.2,
  'flux-fresh': 0.08,
  'flux-dried': 0.07,
}

const FAMILY: Readonly<Record<keyof typeof WET | keyof typeof PASTY, Family>> = {
  'coolant-eg': 'wet',
  'coolant-pg': 'wet',
  water: 'wet',
  'gallium-indium': 'metal',
  'gallium-indium-tin': 'metal',
  'cooling-compound': 'compound',
  'flux-fresh': 'flux',
  'flux-dried': 'flux',
}

const DAMAGE: Readonly<Record<Family, { memory: FigureName; core: FigureName; track: FigureName }>> = {
  wet: { memory: 'wetDamageMemory', core: 'wetDamageCore', track: 'wetDamageTrack' },
  metal: { memory: 'metalDamageMemory', core: 'metalDamageCore', track: 'metalDamageTrack' },
  compound: { memory: 'compoundDamageMemory', core: 'compoundDamageCore', track: 'compoundDamageTrack' },
  flux: { memory: 'fluxDamageMemory', core: 'fluxDamageCore', track: 'fluxDamageTrack' },
}

const LOOKS: Looks = { whole: 0.65, line: 0.15, sparse: 0.2 }
const REACHED_SHARE = 0.12

/**
 * A liquid: up to 4 ml about a median of 0.22, wherever it landed, thinner and downhill where the card stood upright.
 */
export function wetAccident(scene: Scene): Accident {
  const { random, mixture } = scene
  const substance = pickWeighted(random, WET)
  const side = sideOf(scene)
  const at = nearCoreOrAnywhere(scene.model, random)
  const volumeMl = Math.min(4, logNormal(random, 0.22, 0.9))
  const downDeg = chance(random, mixture.figures.upright) ? random.whole(4) * 90 : undefined
  const thin = downDeg === undefined ? 1 : 0.5
  const flow: Pour = {
    from: [at],
    volumeMm3: volumeMl * 1000,
    bareMm: thin * between(random, 0.9, 2.4),
    gapMm: between(random, 0.25, 0.45),
    underBody: between(random, 0.35, 0.9),
    deepestMm: Infinity,
    downDeg,
    runs: downDeg === undefined ? 0 : between(random, 0.4, 1),
    closed: mixture.figures.bodyClosed,
  }
  return spilt(scene, 'wet-spill', { substance, at, side, volumeMl, downDeg, smear: undefined }, flow)
}

/**
 * Metal, compound or flux: a film that covers up to 2500 mm², metal and compound mostly pressed by a cooler, all of
 * it hardly running.
 */
export function pastyAccident(scene: Scene): Accident {
  const { random, mixture, model } = scene
  const substance = pickWeighted(random, PASTY)
  const family = FAMILY[substance]
  const pressed = (family === 'metal' || family === 'compound') && chance(random, 0.85)
  const side = family === 'flux' ? sideOf(scene) : 'top'
  const bead = pressed ? coreEdge(model, random) : [nearCoreOrAnywhere(model, random)]
  const at = bead[Math.floor(bead.length / 2)] ?? { x: 0, y: 0 }
  const downDeg = chance(random, mixture.figures.upright) ? random.whole(4) * 90 : undefined
  const filmMm = family === 'flux' ? between(random, 0.08, 0.4) : between(random, 0.03, 0.2)
  const far = pressed && chance(random, mixture.figures.pressedFar) ? 3 : 1
  const areaMm2 = Math.min(2500, far * logNormal(random, pressed ? 230 : 120, 0.8))
  const flow: Pour = {
    from: bead,
    volumeMm3: areaMm2 * filmMm,
    bareMm: filmMm,
    gapMm: filmMm * between(random, 1, 3),
    underBody: substance === 'flux-fresh' ? 0.7 : between(random, 1, 3),
    deepestMm: substance === 'flux-fresh' ? Infinity : pressed ? between(random, 1, 8) : between(random, 0, 1.5),
    downDeg,
    runs: downDeg === undefined ? 0 : between(random, 0, 0.25),
    closed: mixture.figures.bodyClosed,
  }
  const volumeMl = (areaMm2 * filmMm) / 1000
  const pushMm = pressed ? flow.deepestMm : 0
  const smear = substance === 'flux-fresh' ? undefined : { areaCm2: areaMm2 / 100, pushMm }
  return spilt(scene, 'pasty-spill', { substance, at, side, volumeMl, downDeg, smear }, flow)
}

function spilt(
  scene: Scene,
  kind: 'wet-spill' | 'pasty-spill',
  told: Omit<TrueSpill, 'wet' | 'regions'> & { readonly substance: keyof typeof FAMILY },
  flow: Pour,
): Accident {
  const wet = pour(groundOf(scene.model, told.side), flow, scene.random)
  const regions = reachedRegions(scene.model, wet)
  const damages = [
    ...regionDamages(scene, FAMILY[told.substance], regions),
    ...trackDamages(scene, FAMILY[told.substance], wet),
  ]
  const spill: TrueSpill = { ...told, wet, regions: regions.map(({ id }) => id) }
  return { cause: { kind, at: told.substance, spill }, damages }
}

interface Reached {
  readonly id: string
  readonly share: number
}

function reachedRegions(model: BoardModel, wet: WetCells): Reached[] {
  return [...groundOf(model, wet.side).regionCells].flatMap(([id, cells]) => {
    const share = wetShare(wet, cells)
    return share >= REACHED_SHARE ? [{ id, share }] : []
  })
}

/** Being reached is not yet harm; the more of a region is wet the likelier it is. Power balls are too many to miss some. */
function regionDamages({ model, mixture, random }: Scene, family: Family, reached: readonly Reached[]) {
  return reached.flatMap(({ id, share }): Omit<Damage, 'cause'>[] => {
    const region = model.regionById.get(id)
    if (region === undefined || region.role === 'power' || region.lanes.length === 0) return []
    const atCore = region.part === model.core?.ref
    if (!chance(random, harmOf(mixture, DAMAGE[family][atCore ? 'core' : 'memory']) * (0.5 + 0.5 * share))) return []
    const lanes = faultsAlike(lanesCalled(model, region.lanes), LOOKS, random)
    return [{ kind: 'spill', at: id, ref: region.part, lanes, lines: [] }]
  })
}

function trackDamages({ model, mixture, random }: Scene, family: Family, wet: WetCells) {
  return [...groundOf(model, wet.side).corridorCells].flatMap(([id, cells]): Omit<Damage, 'cause'>[] => {
    const lane = model.laneById.get(id)
    if (lane === undefined || wetShare(wet, cells) < REACHED_SHARE) return []
    if (!chance(random, harmOf(mixture, DAMAGE[family].track))) return []
    return [{ kind: 'spill', at: id, ref: undefined, lanes: [faultOf(lane, LOOKS, random)], lines: [] }]
  })
}

const harmOf = (mixture: Mixture, name: FigureName): number => mixture.figures[name]

const sideOf = ({ random }: Scene): Side => (chance(random, 0.93) ? 'top' : 'bottom')

/** Fittings, cold plates and hands are about the core; the rest is anywhere. */
function nearCoreOrAnywhere(model: BoardModel, random: Random): Point {
  const middle = model.core?.placement.at
  const { minX, minY, maxX, maxY } = model.box
  if (middle === undefined || chance(random, 0.2))
    return { x: between(random, minX + 2, maxX - 2), y: between(random, minY + 10, maxY - 2) }
  const x = Math.min(maxX - 2, Math.max(minX + 2, middle.x + 26 * random.normal()))
  return { x, y: Math.min(maxY - 2, Math.max(minY + 10, middle.y + 26 * random.normal())) }
}

/** A bead along a stretch of the core's edge, where a cooler pressed it out. */
function coreEdge(model: BoardModel, random: Random): Point[] {
  const corners = model.core?.outline ?? []
  const first = random.whole(Math.max(1, corners.length))
  const a = corners[first]
  const b = corners[(first + 1) % corners.length]
  if (a === undefined || b === undefined) return [nearCoreOrAnywhere(model, random)]
  const edgeMm = Math.hypot(b.x - a.x, b.y - a.y)
  const beadMm = Math.min(edgeMm, between(random, 5, 28))
  const from = between(random, 0, edgeMm - beadMm)
  const count = Math.max(1, Math.ceil(beadMm))
  return Array.from({ length: count }, (_, i) => {
    const share = (from + (i / count) * beadMm) / edgeMm
    return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }
  })
}
