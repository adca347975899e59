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

/** Ways that together weigh less than this share of the evidence are dropped. */
const NEGLIGIBLE = 1e-11

function placesUnder(problem: Problem, options: readonly Ways[], evidence: number): Places {
  const { n, leak } = problem
  let ways: Ways = { weight: Float64Array.of(1), good: leak.map((value) => 1 - value) }
  for (const option of options) ways = product(n, ways, option, evidence)
  const leastGood = new Float64Array(n).fill(1)
  let totalWeight = 0
  for (let way = 0; way < ways.weight.length; way++) {
    totalWeight += ways.weight[way] ?? 0
    for (let bit = 0; bit < n; bit++) leastGood[bit] = Math.min(leastGood[bit] ?? 1, ways.good[way * n + bit] ?? 1)
  }
  return { ...ways, totalWeight, leastGood }
}

/** Weight by way; row by way and column by bit: what stays good. */
interface Ways {
  readonly weight: Float64Array
  readonly good: Float64Array
}

function product(n: number, first: Ways, second: Ways, evidence: number): Ways {
  const most = first.weight.length * second.weight.length
  const weight = new Float64Array(most)
  const good = new Float64Array(most * n)
  const floor = (NEGLIGIBLE * evidence) / most
  let count = 0
  for (let a = 0; a < first.weight.length; a++) {
    for (let b = 0; b < second.weight.length; b++) {
      const both = (first.weight[a] ?? 0) * (second.weight[b] ?? 0)
      if (both <= floor) continue
      weight[count] = both
      for (let bit = 0; bit < n; bit++) {
        good[count * n + bit] = (first.good[a * n + bit] ?? 1) * (second.good[b * n + bit] ?? 1)
      }
      count++
    }
  }
  return { weight: weight.subarray(0, count), good: good.subarray(0, count * n) }
}

/** The ways of one spatial cause under a label, or of touching nothing where there is none. */
function waysOf(n: number, spatial: ReducedSpatial, label: number | undefined): Ways {
  if (label === undefined) {
    return { weight: Float64Array.of(weightUntouching(spatial)), good: new Float64Array(n).fill(1) }
  }
  const weight = new Float64Array(spatial.groups.length)
  const good = new Float64Array(spatial.groups.length * n).fill(1)
  let count = 0
  for (const [index, group] of spatial.groups.entries()) {
    const share = shareUnder(spatial, index, label)
    const { bits, q } = group.firing
    if (bits.length === 0 || share === 0) continue
    weight[count] = share
    for (let i = 0; i < bits.length; i++) good[count * n + (bits[i] ?? 0)] = 1 - (q[i] ?? 0)
    count++
  }
  return { weight: weight.subarray(0, count), good: good.subarray(0, count * n) }
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
  const ways = options.map((labels, index) => {
    const spatial = spatials[index]
    return labels.map((label) => ({
      label,
      ways: spatial === undefined ? undefined : waysOf(problem.n, spatial, label),
    }))
  })
  for (const choice of combinations(ways)) {
    const chosen = choice.flatMap((option) => (option.ways === undefined ? [] : [option.ways]))
    if (chosen.reduce((count, { weight }) => count * weight.length, 1) > limits.maxPlaces) {
      leftOut.push('stories with several spatial causes at once, which are too many to list')
      continue
    }
    search.under(
      choice.map(({ label }) => label),
      placesUnder(problem, chosen, posterior.evidence),
    )
  }
  if (search.nodes() > limits.maxNodes) leftOut.push('some of the less probable stories, for want of time')
  const stories = search.found().sort((a, b) => b.probability - a.probability)
  return { stories, leftOut: [...new Set(leftOut)] }
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
