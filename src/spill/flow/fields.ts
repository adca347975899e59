/** Effort fields of area marks, marched once each and kept: T(x) says how hard the area is to reach from x, for all x at once. */
import { createMarcher, type Seeds } from '../ground/march.ts'
import { noSeeds } from '../ground/seeds.ts'
import type { Pressed } from './site.ts'
import type { Target } from '../ground/targets.ts'
import type { Terrain } from '../ground/terrain.ts'
import { type EffortWindow, windowOf } from '../ground/window.ts'

export interface AreaFields {
  /** The field of an area, good up to `limitMm`. With a push it counts from everywhere that the push gets to it from. */
  of(target: Target, pushMm: number, limitMm: number): EffortWindow
}

/** Limits grow in steps, so that a mark that asks for a little more does not march everything again. */
const FIRST_LIMIT_MM = 12
const LIMIT_STEP = 1.5
const MOST_FIELDS = 512

/**
 * Fields over one terrain, none marched yet. `pressed` is the ground over which a push goes, asked for only when an
 * area has one.
 */
export function createAreaFields(terrain: Terrain, pressed: () => Pressed): AreaFields {
  const marcher = createMarcher(terrain)
  const kept = new Map<string, EffortWindow>()
  return {
    of: (target, pushMm, limitMm) => {
      const key = `${pushMm} ${target.key}`
      const before = kept.get(key)
      if (before !== undefined && before.limitMm >= limitMm) return before
      const goodTo = roundedLimit(limitMm)
      const layer = terrain.sides.indexOf(target.side)
      const seeds =
        layer < 0
          ? noSeeds
          : pushMm > 0
            ? pushedSeeds(target, layer, terrain, pressed(), pushMm)
            : target.seeds(terrain, layer)
      const count = marcher.run(seeds, goodTo + 2 * terrain.grid.cellMm)
      const window = windowOf(terrain.grid, marcher, count, goodTo)
      if (kept.size >= MOST_FIELDS) kept.clear()
      kept.set(key, window)
      return window
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
function pushedSeeds(
  target: Target,
  layer: number,
  open: Terrain,
  { terrain, marcher }: Pressed,
  pushMm: number,
): Seeds {
  const count = marcher.run(target.seeds(terrain, layer), pushMm)
  const cells: number[] = []
  for (let i = 0; i < count; i++) {
    const cell = marcher.order[i] ?? 0
    if (open.slowness[cell] !== Infinity) cells.push(cell)
  }
  return { cells, effortMm: cells.map(() => 0) }
}
