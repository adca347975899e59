/** All ways in which a spill may have gone, merged by what they reached. */
import { seededRandom } from '../base/index.ts'
import type { Side } from '../board/index.ts'
import type { Spread } from './arrivals.ts'
import type { SpillHypotheses } from './result.ts'

/** First levels (see `firstLevels`) of each target, kind by kind. */
export interface Arrivals {
  readonly regions: readonly Uint8Array[]
  readonly corridors: readonly Uint8Array[]
  readonly areas: readonly Uint8Array[]
}

const KEY_SEED = 20_251
const KEY_HALF = 2 ** 26

/**
 * Groups and members of a spread. Sets are told apart by a 52-bit sum of random keys, one a target (Zobrist 1970): two
 * different sets among a thousand fall together with a probability below 1e-9.
 */
export function mergeHypotheses(spread: Spread, arrivals: Arrivals, side: Side): SpillHypotheses {
  const kinds = [arrivals.regions, arrivals.corridors, arrivals.areas]
  const levels = spread.levelWeights.length
  const table = firstsByPlace(kinds.flat(), spread.places.list.length)
  const count = spread.places.list.length * levels
  const members = {
    xMm: new Float32Array(count),
    yMm: new Float32Array(count),
    weight: new Float32Array(count),
    group: new Uint32Array(count),
  }
  const groupOf = new Map<number, number>()
  const groups: { weight: number; place: number; level: number }[] = []
  const keys = new Float64Array(levels)
  for (const [place, { at, weight }] of spread.places.list.entries()) {
    keysByLevel(table, place, keys)
    for (let level = 0; level < levels; level++) {
      const member = place * levels + level
      const memberWeight = weight * (spread.levelWeights[level] ?? 0)
      let index = groupOf.get(keys[level] ?? 0)
      if (index === undefined) {
        index = groups.push({ weight: 0, place, level }) - 1
        groupOf.set(keys[level] ?? 0, index)
      }
      const group = groups[index]
      if (group) group.weight += memberWeight
      members.xMm[member] = at.x
      members.yMm[member] = at.y
      members.weight[member] = memberWeight
      members.group[member] = index
    }
  }
  const [regions, corridors] = [arrivals.regions.length, arrivals.corridors.length]
  return {
    groups: groups.map(({ weight, place, level }) => ({
      weight,
      regions: reachedBy(table, place, level, 0, regions),
      corridors: reachedBy(table, place, level, regions, corridors),
      areas: reachedBy(table, place, level, regions + corridors, arrivals.areas.length),
    })),
    members,
    side,
    grid: spread.places.grid,
  }
}

/** First levels turned round: entry place · targets + target. */
interface FirstsByPlace {
  readonly targets: number
  readonly first: Uint8Array
  /** A random key a target, below 2^52. */
  readonly keys: Float64Array
  readonly scratch: Uint16Array
}

function firstsByPlace(firsts: readonly Uint8Array[], places: number): FirstsByPlace {
  const targets = firsts.length
  const first = new Uint8Array(targets * places)
  for (const [target, mine] of firsts.entries()) {
    for (let place = 0; place < places; place++) first[place * targets + target] = mine[place] ?? 0
  }
  return { targets, first, keys: randomKeys(targets), scratch: new Uint16Array(targets) }
}

/** Fills in, for each level, the key of the set of targets that the place reaches with it. */
function keysByLevel(table: FirstsByPlace, place: number, keys: Float64Array): void {
  const levels = keys.length
  const from = place * table.targets
  keys.fill(0)
  for (let target = 0; target < table.targets; target++) {
    const first = table.first[from + target] ?? levels
    if (first < levels) keys[first] = wrapped((keys[first] ?? 0) + (table.keys[target] ?? 0))
  }
  for (let level = 1; level < levels; level++) keys[level] = wrapped((keys[level] ?? 0) + (keys[level - 1] ?? 0))
}

const wrapped = (sum: number): number => (sum >= KEY_HALF * KEY_HALF ? sum - KEY_HALF * KEY_HALF : sum)

function randomKeys(count: number): Float64Array {
  const random = seededRandom(KEY_SEED)
  return Float64Array.from({ length: count }, () => random.whole(KEY_HALF) * KEY_HALF + random.whole(KEY_HALF))
}

/** The targets of one kind (`count` of them, after `from` others) that a place reaches with a level. */
function reachedBy(table: FirstsByPlace, place: number, level: number, from: number, count: number): Uint16Array {
  const { first, scratch } = table
  const start = place * table.targets + from
  let found = 0
  for (let i = 0; i < count; i++) if ((first[start + i] ?? 0) <= level) scratch[found++] = i
  return found === 0 ? nothing : scratch.slice(0, found)
}

const nothing = new Uint16Array(0)
