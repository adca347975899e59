/**
 * Stories: which causes were there, exactly these and no others of those that touch a bad finding. A spatial cause is
 * in a story by the place that its words name; states that touch no bad finding count as not being in it.
 * Every story with at least the wished share of the evidence is found: the search drops a branch only when even the
 * best that it could still become stays below.
 */
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedSpatial } from './reduce.ts'
import type { CauseAt } from './result.ts'
import { spatialsOf } from './weighed.ts'

/** Causes by index: into `Problem.points`, and for each spatial cause the label or undefined. */
export interface RawStory {
  readonly points: readonly number[]
  readonly labels: readonly (number | undefined)[]
  readonly probability: number
}

export interface StoryLimits {
  /** Stories below this probability are not listed. */
  readonly least: number
  readonly maxNodes: number
  readonly maxPlaces: number
}

export const STORY_LIMITS: StoryLimits = { least: 0.002, maxNodes: 40_000, maxPlaces: 20_000 }

/** Share of a group's weight that lies under a label. */
const shareUnder = (spatial: ReducedSpatial, group: number, label: number): number =>
  spatial.labelWeight[group * spatial.cause.labels.length + label] ?? 0

/** Probability of each label with a state that touches a bad finding. */
export function labelProbabilities(spatial: ReducedSpatial, posterior: Float64Array): Float64Array {
  const sums = new Float64Array(spatial.cause.labels.length)
  for (const [index, group] of spatial.groups.entries()) {
    if (group.firing.bits.length === 0 || group.weight === 0) continue
    const ratio = (posterior[index] ?? 0) / group.weight
    for (let label = 0; label < sums.length; label++) {
      sums[label] = (sums[label] ?? 0) + ratio * shareUnder(spatial, index, label)
    }
  }
  return sums
}

/** Ways in which the spatial causes can be under chosen labels: a weight and, by bit, the share that stays good. */
interface Places {
  readonly weight: Float64Array
  /** Row by way, column by bit. */
  readonly good: Float64Array
  readonly totalWeight: number
  /** By bit, the least over all ways. */
  readonly leastGood: Float64Array
}

function placesUnder(
  problem: Problem,
  spatials: readonly ReducedSpatial[],
  labels: readonly (number | undefined)[],
): Places {
  let ways: { weight: number; good: Float64Array }[] = [{ weight: 1, good: problem.leak.map((leak) => 1 - leak) }]
  for (const [index, spatial] of spatials.entries()) {
    const options = waysOf(problem.n, spatial, labels[index])
    ways = ways.flatMap((way) =>
      options.map((option) => ({
        weight: way.weight * option.weight,
        good: way.good.map((value, bit) => value * (option.good[bit] ?? 1)),
      })),
    )
  }
  const good = new Float64Array(ways.length * problem.n)
  const leastGood = new Float64Array(problem.n).fill(1)
  let totalWeight = 0
  for (const [index, way] of ways.entries()) {
    good.set(way.good, index * problem.n)
    totalWeight += way.weight
    for (let bit = 0; bit < problem.n; bit++) {
      leastGood[bit] = Math.min(leastGood[bit] ?? 1, way.good[bit] ?? 1)
    }
  }
  return { weight: Float64Array.from(ways, (way) => way.weight), good, totalWeight, leastGood }
}

function waysOf(n: number, spatial: ReducedSpatial, label: number | undefined) {
  const untouched = new Float64Array(n).fill(1)
  if (label === undefined) return [{ weight: weightUntouching(spatial), good: untouched }]
  return spatial.groups.flatMap((group, index) => {
    const weight = shareUnder(spatial, index, label)
    if (group.firing.bits.length === 0 || weight === 0) return []
    const good = untouched.slice()
    for (const [i, bit] of group.firing.bits.entries()) good[bit] = 1 - (group.firing.q[i] ?? 0)
    return [{ weight, good }]
  })
}

function weightUntouching(spatial: ReducedSpatial): number {
  let weight = spatial.absent
  for (const group of spatial.groups) if (group.firing.bits.length === 0) weight += group.weight
  return weight
}

/**
 * @returns stories, most probable first, and what the search had to leave out, in words
 */
export function findStories(
  problem: Problem,
  posterior: Posterior,
  limits: StoryLimits = STORY_LIMITS,
): { stories: RawStory[]; leftOut: string[] } {
  const spatials = spatialsOf(problem)
  const options = spatials.map((spatial, index) => {
    const shares = labelProbabilities(spatial, posterior.groups[index] ?? new Float64Array(0))
    return [undefined, ...[...shares.keys()].filter((label) => (shares[label] ?? 0) >= limits.least)]
  })
  const candidates = [...problem.points.keys()]
    .filter((index) => (posterior.points[index] ?? 0) >= limits.least)
    .sort((a, b) => (posterior.points[b] ?? 0) - (posterior.points[a] ?? 0))
  const search = createSearch(problem, candidates, posterior.evidence, limits)
  const leftOut: string[] = []
  for (const labels of combinations(options)) {
    if (countWays(spatials, labels) * problem.n > limits.maxPlaces * 8) {
      leftOut.push('stories with several spatial causes at once, which are too many to list')
      continue
    }
    search.under(labels, placesUnder(problem, spatials, labels))
  }
  if (search.nodes() > limits.maxNodes) leftOut.push('some of the less probable stories, for want of time')
  const stories = search.found().sort((a, b) => b.probability - a.probability)
  return { stories, leftOut: [...new Set(leftOut)] }
}

function countWays(spatials: readonly ReducedSpatial[], labels: readonly (number | undefined)[]): number {
  let count = 1
  for (const [index, spatial] of spatials.entries()) if (labels[index] !== undefined) count *= spatial.groups.length
  return count
}

function combinations<T>(options: readonly (readonly T[])[]): T[][] {
  return options.reduce<T[][]>((rows, option) => rows.flatMap((row) => option.map((value) => [...row, value])), [[]])
}

interface Search {
  readonly under: (labels: readonly (number | undefined)[], places: Places) => void
  readonly found: () => RawStory[]
  readonly nodes: () => number
}

function createSearch(problem: Problem, candidates: readonly number[], evidence: number, limits: StoryLimits): Search {
  const { n } = problem
  const k = candidates.length
  const chosen = new Set(candidates)
  let othersAbsent = 1
  for (const [index, point] of problem.points.entries()) if (!chosen.has(index)) othersAbsent *= 1 - point.probability
  const firings = candidates.map((index) => problem.points[index]?.firing)
  const probability = candidates.map((index) => problem.points[index]?.probability ?? 0)
  const restGood = restGoodBy(n, firings)
  const restWeight = new Float64Array(k + 1).fill(1)
  for (let i = k - 1; i >= 0; i--) {
    const p = probability[i] ?? 0
    restWeight[i] = (restWeight[i + 1] ?? 1) * Math.max(p, 1 - p)
  }
  const good = new Float64Array((k + 1) * n)
  const taken: number[] = []
  const found: RawStory[] = []
  const floor = limits.least * evidence
  let nodes = 0

  const visit = (depth: number, weight: number, labels: readonly (number | undefined)[], places: Places): void => {
    if (++nodes > limits.maxNodes) return
    let bound = weight * (restWeight[depth] ?? 1) * places.totalWeight
    for (let bit = 0; bit < n; bit++) {
      bound *= 1 - (good[depth * n + bit] ?? 1) * (restGood[depth * n + bit] ?? 1) * (places.leastGood[bit] ?? 1)
    }
    if (bound < floor || bound === 0) return
    if (depth === k) {
      const share = (weight * likelihood(places, good, depth * n, n)) / evidence
      if (share >= limits.least) found.push({ points: [...taken], labels, probability: share })
      return
    }
    const p = probability[depth] ?? 0
    const firing = firings[depth]
    const here = depth * n
    const next = here + n
    if (p > 0 && firing !== undefined) {
      good.copyWithin(next, here, next)
      for (let i = 0; i < firing.bits.length; i++) {
        const at = next + (firing.bits[i] ?? 0)
        good[at] = (good[at] ?? 1) * (1 - (firing.q[i] ?? 0))
      }
      taken.push(candidates[depth] ?? 0)
      visit(depth + 1, weight * p, labels, places)
      taken.pop()
    }
    good.copyWithin(next, here, next)
    visit(depth + 1, weight * (1 - p), labels, places)
  }
  return {
    under: (labels, places) => {
      good.fill(1, 0, n)
      visit(0, othersAbsent, labels, places)
    },
    found: () => found,
    nodes: () => nodes,
  }
}

/** Row by depth: what stays good if every candidate from there on is there. */
function restGoodBy(n: number, firings: readonly ({ bits: Uint8Array; q: Float64Array } | undefined)[]): Float64Array {
  const k = firings.length
  const rest = new Float64Array((k + 1) * n).fill(1)
  for (let depth = k - 1; depth >= 0; depth--) {
    rest.copyWithin(depth * n, (depth + 1) * n, (depth + 2) * n)
    const firing = firings[depth]
    for (let i = 0; i < (firing?.bits.length ?? 0); i++) {
      const at = depth * n + (firing?.bits[i] ?? 0)
      rest[at] = (rest[at] ?? 1) * (1 - (firing?.q[i] ?? 0))
    }
  }
  return rest
}

function likelihood(places: Places, good: Float64Array, offset: number, n: number): number {
  let sum = 0
  for (let way = 0; way < places.weight.length; way++) {
    let product = places.weight[way] ?? 0
    for (let bit = 0; bit < n; bit++) product *= 1 - (good[offset + bit] ?? 1) * (places.good[way * n + bit] ?? 1)
    sum += product
  }
  return sum
}

/** The point causes of a story in the words of the board. */
export function causesOf(problem: Problem, story: RawStory): CauseAt[] {
  return story.points.flatMap((index) => {
    const point = problem.points[index]
    return point === undefined ? [] : [point.cause.at]
  })
}
