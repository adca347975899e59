/** What comes of a spill at one place, level by level: marched from there, no symmetry and no interpolation. */
import { distance, type Point } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type Arrivals, createArrivals } from '../ground/arrivals.ts'
import { closeVolume, curveEndMm, marchVolume } from '../flow/curve.ts'
import type { Load } from '../flow/film.ts'
import { createGaps, type Gaps } from '../ground/gaps.ts'
import { boundOf, type Level } from '../flow/levels.ts'
import type { Marcher, Seeds } from '../ground/march.ts'
import { pointSeeds, streakSeeds } from '../ground/seeds.ts'
import type { Site } from '../flow/site.ts'
import { streakEnd, streakLengthMm, streakStart } from '../flow/streak.ts'
import { targetCellsOf } from '../ground/target-cells.ts'
import type { BoardTargets } from '../ground/targets.ts'
import { targetKeys, wrapped } from '../ground/target-keys.ts'
import type { Terrain } from '../ground/terrain.ts'

/** One entry a level. */
export interface Trial {
  /** Effort radius in mm, without any push. */
  readonly radiusMm: Float64Array
  /** Length in mm of the streak, 0 where none runs. */
  readonly streakMm: Float64Array
  /** Which of the pushes it had. */
  readonly push: Uint8Array
  /** Numbers of the targets that were reached, ascending; a part with regions is there when one of them is. */
  readonly reached: readonly Uint16Array[]
  /** A number for the set of regions and corridors that was reached. */
  readonly key: Float64Array
}

/** Which place of the lattice it is: its draws hang on that. */
export interface TrialPlace {
  readonly at: Point
  readonly column: number
  readonly row: number
}

export interface TrialBench {
  /** What a point comes to whose radii are given: nothing runs and nothing is pushed. */
  within(place: TrialPlace, radiusMm: Float64Array): Trial
  run(place: TrialPlace, levels: readonly Level[], downDeg: number | undefined, pushesMm: readonly number[]): Trial
}

/**
 * A bench on which spills are tried at one place after another, over the same ground and targets. It marches with the
 * site's own marchers, whose last run it overwrites.
 */
export function createTrialBench(model: BoardModel, site: Site, targets: BoardTargets): TrialBench {
  const { terrain, behaviour } = site
  const open = arrivalsOn(terrain, targets)
  const keys = targetKeys(targets.regions + targets.corridors)
  const gaps = behaviour.bodies === 'wicked' ? createGaps(model, terrain, targets.bodies) : undefined
  let pushed: Arrivals | undefined
  const underPush = (still: LevelOutcome, pushMm: number): Uint16Array => {
    pushed ??= arrivalsOn(site.pressed().terrain, targets)
    return reachedByPush(site, still, pushMm, pushed)
  }
  const finish = ({ radiusMm, streakMm, reached }: LevelOutcome): LevelOutcome => ({
    radiusMm,
    streakMm,
    reached: withParts(reached, targets, gaps),
  })
  const trialOf = (outcomes: readonly LevelOutcome[], push: Uint8Array): Trial => ({
    radiusMm: Float64Array.from(outcomes, ({ radiusMm }) => radiusMm),
    streakMm: Float64Array.from(outcomes, ({ streakMm }) => streakMm),
    push,
    reached: outcomes.map(({ reached }) => reached),
    key: Float64Array.from(outcomes, ({ reached }) => keyOf(reached, keys)),
  })
  return {
    within: ({ at, column, row }, radiusMm) => {
      gaps?.draw(column, row, 0)
      const outcomes = levelsWithin(site, at, radiusMm, open).map(finish)
      gaps?.open()
      return trialOf(outcomes, new Uint8Array(radiusMm.length))
    },
    run: ({ at, column, row }, levels, downDeg, pushesMm) => {
      gaps?.draw(column, row, 0)
      const flat = downDeg === undefined ? levelsFromPoint(site, at, levels, open) : undefined
      const outcomes = levels.map(({ load, push }, level) => {
        if (level > 0 && flat === undefined) gaps?.draw(column, row, level)
        const still = flat?.[level] ?? levelFromStreak(site, at, load, downDeg ?? 0, open)
        const pushMm = pushesMm[push] ?? 0
        return finish(pushMm === 0 ? still : { ...still, reached: underPush(still, pushMm) })
      })
      gaps?.open()
      return trialOf(
        outcomes,
        Uint8Array.from(levels, ({ push }) => push),
      )
    },
  }
}

const arrivalsOn = (terrain: Terrain, targets: BoardTargets): Arrivals =>
  createArrivals(targetCellsOf(terrain, targets.list), targets.list.length)

interface LevelOutcome {
  readonly radiusMm: number
  readonly streakMm: number
  readonly reached: Uint16Array
}

/** On a board that lay flat all amounts start from the same point, so that one march serves them all. */
function levelsFromPoint(site: Site, at: Point, levels: readonly Level[], arrivals: Arrivals): LevelOutcome[] {
  const { terrain, marcher } = site
  const curve = marchVolume(terrain, marcher, pointSeeds(terrain, 0, at), boundOf(levels), {
    limitMm: Infinity,
    beyond: 1,
  })
  arrivals.read(marcher, curve.count)
  return levels.map(({ load }) => {
    const radiusMm = closeVolume(curve, load)?.radiusMm ?? curveEndMm(curve)
    return { radiusMm, streakMm: 0, reached: arrivals.within(radiusMm) }
  })
}

function levelsWithin(
  { terrain, marcher }: Site,
  at: Point,
  radiusMm: Float64Array,
  arrivals: Arrivals,
): LevelOutcome[] {
  const farthest = radiusMm.reduce((most, mine) => Math.max(most, mine), 0)
  arrivals.read(marcher, marcher.run(pointSeeds(terrain, 0, at), farthest))
  return Array.from(radiusMm, (mine) => ({ radiusMm: mine, streakMm: 0, reached: arrivals.within(mine) }))
}

function levelFromStreak(site: Site, at: Point, load: Load, downDeg: number, arrivals: Arrivals): LevelOutcome {
  const { terrain, marcher, behaviour } = site
  const from = streakStart(terrain, at)
  const end = streakEnd(terrain, 0, from, downDeg, streakLengthMm(load, behaviour))
  const curve = marchVolume(terrain, marcher, streakSeeds(terrain, 0, from, end), load, {
    limitMm: Infinity,
    beyond: 1,
  })
  const radiusMm = closeVolume(curve, load)?.radiusMm ?? curveEndMm(curve)
  arrivals.read(marcher, curve.count)
  return { radiusMm, streakMm: distance(from, end), reached: arrivals.within(radiusMm) }
}

/** From the rim of what the smear covers, over ground on which bodies no longer keep it out; and all that it covers. */
function reachedByPush(
  site: Site,
  { radiusMm, reached }: LevelOutcome,
  pushMm: number,
  arrivals: Arrivals,
): Uint16Array {
  const { terrain, marcher } = site.pressed()
  const count = marcher.run(rimSeeds(site.marcher, radiusMm, terrain), pushMm)
  arrivals.read(marcher, count)
  const both = new Set(reached)
  for (const target of arrivals.within(pushMm)) both.add(target)
  return Uint16Array.from(both).toSorted()
}

/** Cells that the last march of a marcher has within an effort and that have one beside them which it has not. */
function rimSeeds({ order, effortMm }: Marcher, smearMm: number, { grid, slowness }: Terrain): Seeds {
  const cells: number[] = []
  const isBeyond = (cell: number): boolean => slowness[cell] !== Infinity && (effortMm[cell] ?? Infinity) > smearMm
  for (const cell of order) {
    if (!((effortMm[cell] ?? Infinity) <= smearMm)) break
    const isRim =
      isBeyond(cell - 1) || isBeyond(cell + 1) || isBeyond(cell - grid.columns) || isBeyond(cell + grid.columns)
    if (isRim) cells.push(cell)
  }
  return { cells, effortMm: cells.map(() => 0) }
}

/** Without the regions under bodies whose gap is shut, and with the parts of those that are left. */
function withParts(reached: Uint16Array, targets: BoardTargets, gaps: Gaps | undefined): Uint16Array {
  const kept: number[] = []
  const parts = new Set<number>()
  for (const target of reached) {
    if (target < targets.regions) {
      if (gaps?.isShut(targets.bodyOfRegion[target] ?? 0)) continue
      parts.add(targets.partOfRegion[target] ?? 0)
    }
    kept.push(target)
  }
  return Uint16Array.from([...kept, ...[...parts].toSorted((a, b) => a - b)])
}

function keyOf(reached: Uint16Array, keys: Float64Array): number {
  let key = 0
  for (const target of reached) {
    if (target >= keys.length) break
    key = wrapped(key + (keys[target] ?? 0))
  }
  return key
}
