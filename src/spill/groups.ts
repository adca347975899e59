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
  const targets = [...arrivals.regions, ...arrivals.corridors, ...arrivals.areas]
  const keys = randomKeys(targets.length)
  const levels = spread.levelWeights.length
  const count = spread.places.list.length * levels
  const members = {
    xMm: new Float32Array(count),
    yMm: new Float32Array(count),
    weight: new Float32Array(count),
    group: new Uint32Array(count),
  }
  const groupOf = new Map<number, number>()
  const groups: { weight: number; place: number; level: number }[] = []
  const added = new Float64Array(levels)
  for (const [place, { at, weight }] of spread.places.list.entries()) {
    added.fill(0)
    for (let target = 0; target < targets.length; target++) {
      const first = targets[target]?.[place] ?? levels
      if (first < levels) added[first] = wrapped((added[first] ?? 0) + (keys[target] ?? 0))
    }
    let key = 0
    for (let level = 0; level < levels; level++) {
      key = wrapped(key + (added[level] ?? 0))
      const member = place * levels + level
      const memberWeight = weight * (spread.levelWeights[level] ?? 0)
      let index = groupOf.get(key)
      if (index === undefined) {
        index = groups.push({ weight: 0, place, level }) - 1
        groupOf.set(key, index)
      }
      const group = groups[index]
      if (group) group.weight += memberWeight
      members.xMm[member] = at.x
      members.yMm[member] = at.y
      members.weight[member] = memberWeight
      members.group[member] = index
    }
  }
  return {
    groups: groups.map(({ weight, place, level }) => ({
      weight,
      regions: reachedBy(arrivals.regions, place, level),
      corridors: reachedBy(arrivals.corridors, place, level),
      areas: reachedBy(arrivals.areas, place, level),
    })),
    members,
    side,
    grid: spread.places.grid,
  }
}

const wrapped = (sum: number): number => (sum >= KEY_HALF * KEY_HALF ? sum - KEY_HALF * KEY_HALF : sum)

function randomKeys(count: number): Float64Array {
  const random = seededRandom(KEY_SEED)
  return Float64Array.from({ length: count }, () => random.whole(KEY_HALF) * KEY_HALF + random.whole(KEY_HALF))
}

function reachedBy(firsts: readonly Uint8Array[], place: number, level: number): Uint16Array {
  const reached: number[] = []
  for (const [index, first] of firsts.entries()) if ((first[place] ?? 255) <= level) reached.push(index)
  return Uint16Array.from(reached)
}
