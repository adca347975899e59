/** Effort fields of targets, marched once each and kept: T_R(x) says how hard R is to reach from x, for all x at once. */
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

export interface FieldStore {
  /** The field of a target, good up to `limitMm` of effort at least. */
  of(target: Target, limitMm: number): EffortWindow
}

/** Limits grow in steps, so that a mark that asks for a little more does not march everything again. */
const FIRST_LIMIT_MM = 12
const LIMIT_STEP = 1.5
const MOST_AREAS = 256

interface Kept {
  readonly limitMm: number
  readonly window: EffortWindow
}

/** A store for one terrain. With a push, a target counts from everywhere that the push gets to it from. */
export function createFieldStore(terrain: Terrain, push: Push | undefined): FieldStore {
  const marcher = createMarcher(terrain)
  const board = new Map<string, Kept>()
  const areas = new Map<string, Kept>()
  const marched = (target: Target, limitMm: number): Kept => {
    const layer = terrain.sides.indexOf(target.side)
    if (layer < 0) return { limitMm: Infinity, window: emptyWindow }
    const seeds = push === undefined ? target.seeds(terrain, layer) : pushedSeeds(target, layer, terrain, push)
    const count = marcher.run(seeds, limitMm + 2 * terrain.grid.cellMm)
    return { limitMm, window: windowOf(terrain.grid, terrain.sides.length, marcher, count) }
  }
  return {
    of: (target, neededMm) => {
      const shelf = target.key.startsWith('area') ? areas : board
      const kept = shelf.get(target.key)
      if (kept !== undefined && kept.limitMm >= neededMm) return kept.window
      if (areas.size > MOST_AREAS) areas.clear()
      const fresh = marched(target, roundedLimit(neededMm))
      shelf.set(target.key, fresh)
      return fresh.window
    },
  }
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
