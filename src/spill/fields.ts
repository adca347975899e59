/** Effort fields of targets, marched once each and kept: T_R(x) says how hard R is to reach from x, for all x at once. */
import type { Load } from './film.ts'
import { createMarcher, type Marcher, type Seeds } from './march.ts'
import { noSeeds } from './seeds.ts'
import type { Target } from './targets.ts'
import type { Terrain } from './terrain.ts'
import { type EffortWindow, windowOf } from './window.ts'

/** How far a substance that bodies keep out has been pushed, and the ground that it was pushed over. */
export interface Push {
  readonly terrain: Terrain
  readonly marcher: Marcher
  readonly pushMm: number
}

/** A load that spreads from a point: flat, or in a streak with this direction down. */
export interface Spreading {
  readonly load: Load
  readonly downDeg: number | undefined
}

/** How far a field has to go: either promise will do. */
export interface Need {
  /** Good up to this effort everywhere. */
  readonly limitMm: number
  /** Good for every point that spreads this; undefined where only the limit counts. */
  readonly spreading: Spreading | undefined
}

export interface FieldStore {
  /** The field of a target that meets the need; marched now where none is kept. */
  of(target: Target, need: Need): EffortWindow
  /**
   * Marches a field for every point that spreads up to this. `radiusMm` says per cell how far anything that passes there
   * gets, and falls by no more than the effort does (see `reach-limits.ts`): beyond a cell that lies further from the
   * target than its own radius nothing reaches the target either, so the march stops there.
   */
  prepare(target: Target, spreading: Spreading, radiusMm: Float32Array): void
}

/** Limits grow in steps, so that a mark that asks for a little more does not march everything again. */
const FIRST_LIMIT_MM = 12
const LIMIT_STEP = 1.5
const MOST_AREAS = 256

interface Kept extends Need {
  readonly window: EffortWindow
}

/** A store for one terrain. With a push, a target counts from everywhere that the push gets to it from. */
export function createFieldStore(terrain: Terrain, push: Push | undefined): FieldStore {
  const marcher = createMarcher(terrain)
  const board = new Map<string, Kept[]>()
  const areas = new Map<string, Kept[]>()
  const layers = terrain.sides

  const keptFor = (target: Target, need: Need): Kept | undefined =>
    (target.isMark ? areas : board).get(target.key)?.find((kept) => meets(kept, need))
  const keep = (target: Target, kept: Kept): EffortWindow => {
    if (areas.size > MOST_AREAS) areas.clear()
    const shelf = target.isMark ? areas : board
    const others = (shelf.get(target.key) ?? []).filter(({ spreading }) => !sameKind(spreading, kept.spreading))
    shelf.set(target.key, [...others, kept])
    return kept.window
  }
  const seedsOf = (target: Target): Seeds => {
    const layer = layers.indexOf(target.side)
    if (layer < 0) return noSeeds
    return push === undefined ? target.seeds(terrain, layer) : pushedSeeds(target, layer, terrain, push)
  }
  return {
    of: (target, need) => {
      const kept = keptFor(target, need)
      if (kept !== undefined) return kept.window
      const limitMm = roundedLimit(need.limitMm)
      const count = marcher.run(seedsOf(target), limitMm + 2 * terrain.grid.cellMm)
      const window = windowOf(terrain.grid, marcher, count, limitMm)
      return keep(target, { limitMm, spreading: undefined, window })
    },
    prepare: (target, spreading, radiusMm) => {
      if (keptFor(target, { limitMm: Infinity, spreading }) !== undefined) return
      const count = marcher.run(seedsOf(target), Infinity, { radiusMm })
      keep(target, { limitMm: 0, spreading, window: windowOf(terrain.grid, marcher, count, 0) })
    },
  }
}

const sameKind = (a: Spreading | undefined, b: Spreading | undefined): boolean =>
  (a === undefined) === (b === undefined) && a?.downDeg === b?.downDeg

/** A load goes no further than another one when it has no more volume and would cover no more bare mask. */
function meets(kept: Need, need: Need): boolean {
  if (kept.limitMm >= need.limitMm) return true
  if (kept.spreading === undefined || need.spreading === undefined) return false
  if (kept.spreading.downDeg !== need.spreading.downDeg) return false
  const [most, load] = [kept.spreading.load, need.spreading.load]
  return load.volumeMm3 <= most.volumeMm3 && load.volumeMm3 / load.maskFilmMm <= most.volumeMm3 / most.maskFilmMm
}

function roundedLimit(neededMm: number): number {
  let limitMm = FIRST_LIMIT_MM
  while (limitMm < neededMm) limitMm *= LIMIT_STEP
  return limitMm
}

/**
 * The open cells from which the push gets to the target. What was pushed reaches it when the smear reaches one of these:
 * exact, because effort is symmetric.
 */
function pushedSeeds(target: Target, layer: number, open: Terrain, push: Push): Seeds {
  const count = push.marcher.run(target.seeds(push.terrain, layer), push.pushMm)
  const cells: number[] = []
  for (let i = 0; i < count; i++) {
    const cell = push.marcher.order[i] ?? 0
    if (open.slowness[cell] !== Infinity) cells.push(cell)
  }
  return { cells, effortMm: cells.map(() => 0) }
}
