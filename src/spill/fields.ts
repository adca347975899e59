/** Effort fields of targets, marched once each and kept: T_R(x) says how hard R is to reach from x, for all x at once. */
import type { Load } from './film.ts'
import { createMarcher, type Marcher, type Seeds } from './march.ts'
import type { Target } from './targets.ts'
import type { Terrain } from './terrain.ts'
import { type EffortWindow, emptyWindow, windowOf } from './window.ts'

/** How far a substance that bodies keep out has been pushed, and the ground that it was pushed over. */
export interface Push {
  readonly terrain: Terrain
  readonly marcher: Marcher
  readonly pushMm: number
}

/** How far a field has to go: either promise will do. */
export interface Need {
  /** Good up to this effort everywhere. */
  readonly limitMm: number
  /** Good for a point that spreads this load, wherever it lies; undefined where only the limit counts. */
  readonly load: Load | undefined
}

export interface FieldStore {
  /** The field of a target that meets the need; marched now where none is kept. */
  of(target: Target, need: Need): EffortWindow
  /**
   * Marches a field for every point that spreads up to this load. `radiusMm` says per cell how far that gets: beyond a
   * cell that lies further from the target than its own radius, no point reaches the target either, since the radius
   * grows by no more than the effort does. So the march may stop there.
   */
  prepare(target: Target, load: Load, radiusMm: Float32Array): void
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
  const board = new Map<string, Kept>()
  const areas = new Map<string, Kept>()
  const shelfOf = (target: Target): Map<string, Kept> => (target.key.startsWith('area') ? areas : board)
  const seedsOf = (target: Target): Seeds | undefined => {
    const layer = terrain.sides.indexOf(target.side)
    if (layer < 0) return undefined
    return push === undefined ? target.seeds(terrain, layer) : pushedSeeds(target, layer, terrain, push)
  }
  const marched = (target: Target, need: Need, radiusMm?: Float32Array): EffortWindow => {
    const seeds = seedsOf(target)
    const limitMm = radiusMm === undefined ? need.limitMm + 2 * terrain.grid.cellMm : Infinity
    const window =
      seeds === undefined
        ? emptyWindow
        : windowOf(terrain.grid, marcher, marcher.run(seeds, limitMm, radiusMm === undefined ? {} : { radiusMm }))
    const kept = seeds === undefined ? { limitMm: Infinity, load: undefined, window } : { ...need, window }
    if (areas.size > MOST_AREAS) areas.clear()
    shelfOf(target).set(target.key, kept)
    return window
  }
  return {
    of: (target, need) => {
      const kept = shelfOf(target).get(target.key)
      if (kept !== undefined && meets(kept, need)) return kept.window
      return marched(target, { limitMm: roundedLimit(need.limitMm), load: undefined })
    },
    prepare: (target, load, radiusMm) => {
      const kept = shelfOf(target).get(target.key)
      const need = { limitMm: Infinity, load }
      if (kept === undefined || !meets(kept, need)) marched(target, { limitMm: 0, load }, radiusMm)
    },
  }
}

/** A load goes no further than another one when it has no more volume and would cover no more bare mask. */
function meets(kept: Need, need: Need): boolean {
  if (kept.limitMm >= need.limitMm) return true
  if (kept.load === undefined || need.load === undefined) return false
  const { volumeMm3, maskFilmMm } = need.load
  return volumeMm3 <= kept.load.volumeMm3 && volumeMm3 / maskFilmMm <= kept.load.volumeMm3 / kept.load.maskFilmMm
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
