/** All ways in which a spill may have gone, merged by what they reached. */
import type { Side } from '../../board/index.ts'
import type { SpillHypotheses } from '../result.ts'
import type { Spread } from './spread.ts'
import { targetKeys, wrapped } from '../ground/target-keys.ts'
import type { BoardTargets } from '../ground/targets.ts'

/** The way that a group was first met with. */
interface Group {
  weight: number
  readonly place: number
  readonly level: number
}

const AREA_SEED = 20_253

/**
 * Groups and members of a spread.
 * @param areas for each area mark, which members reached it (see `reachesArea`)
 */
export function mergeHypotheses(
  spread: Spread,
  areas: readonly Uint8Array[],
  targets: BoardTargets,
  side: Side,
): SpillHypotheses {
  const { places, trials, levels } = spread
  const areaKeys = targetKeys(areas.length, AREA_SEED)
  const count = spread.weight.length
  const members = {
    xMm: new Float32Array(count),
    yMm: new Float32Array(count),
    weight: Float32Array.from(spread.weight),
    group: new Uint32Array(count),
  }
  const groupOf = new Map<number, number>()
  const groups: Group[] = []
  for (const [place, { at }] of places.list.entries()) {
    for (let level = 0; level < levels; level++) {
      const member = place * levels + level
      const key = withAreas(trials[place]?.key[level] ?? 0, areas, areaKeys, member)
      const index = groupOf.get(key) ?? groups.push({ weight: 0, place, level }) - 1
      groupOf.set(key, index)
      const group = groups[index]
      if (group) group.weight += spread.weight[member] ?? 0
      members.xMm[member] = at.x
      members.yMm[member] = at.y
      members.group[member] = index
    }
  }
  return { groups: groups.map((group) => saidOf(group, spread, areas, targets)), members, side, grid: places.grid }
}

function withAreas(key: number, areas: readonly Uint8Array[], areaKeys: Float64Array, member: number): number {
  let sum = key
  for (const [area, reached] of areas.entries()) {
    if (reached[member] === 1) sum = wrapped(sum + (areaKeys[area] ?? 0))
  }
  return sum
}

function saidOf(
  { weight, place, level }: Group,
  { trials, levels }: Spread,
  areas: readonly Uint8Array[],
  { regions, corridors }: BoardTargets,
): SpillHypotheses['groups'][number] {
  const reached = trials[place]?.reached[level] ?? nothing
  const firstCorridor = countBelow(reached, regions)
  const firstPart = countBelow(reached, regions + corridors)
  return {
    weight,
    regions: reached.subarray(0, firstCorridor),
    corridors: reached.subarray(firstCorridor, firstPart).map((target) => target - regions),
    areas: reachedAreas(areas, place * levels + level),
  }
}

function reachedAreas(areas: readonly Uint8Array[], member: number): Uint16Array {
  const reached: number[] = []
  for (const [area, members] of areas.entries()) if (members[member] === 1) reached.push(area)
  return reached.length === 0 ? nothing : Uint16Array.from(reached)
}

/** How many of ascending numbers are below a limit. */
function countBelow(ascending: Uint16Array, limit: number): number {
  let count = 0
  while (count < ascending.length && (ascending[count] ?? 0) < limit) count++
  return count
}

const nothing = new Uint16Array(0)
