/**
 * Stories: which causes were there, exactly these and no others of those that touch a bad finding. A spatial cause is
 * in a story by the place that its words name; states that touch no bad finding count as not being in it.
 * The likeliest stories are found for certain: the search drops a branch only when even the
 * best that it could still become stays below.
 */
import type { Firing } from './lattice.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedSpatial } from './reduce.ts'
import type { CauseAt } from './result.ts'
import { type Bounds, boundsOf, type Places, placesUnder, shareUnder, waysOf } from './story-places.ts'
import { spatialsOf } from './weighed.ts'

/** Causes by index: into `Problem.points`, and for each spatial cause the label or undefined. */
export interface RawStory {
  readonly points: readonly number[]
  readonly labels: readonly (number | undefined)[]
  readonly probability: number
}

export interface StoryLimits {
  /** Stories below this probability are not listed, nor more than so many. */
  readonly least: number
  readonly most: number
  /** Products over a lane that the search may take. */
  readonly maxWork: number
  readonly maxPlaces: number
}

const STORY_LIMITS: StoryLimits = { least: 0.002, most: 12, maxWork: 6_000_000, maxPlaces: 20_000 }

/** Probability of each label with a state that touches a bad finding. */
function labelProbabilities(spatial: ReducedSpatial, posterior: Float64Array): Float64Array {
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

/**
 * @returns stories, most probable first, and what the search had to leave out, in words
 */
export function findStories(
  problem: Problem,
  posterior: Posterior,
  limits: StoryLimits = STORY_LIMITS,
): { stories: readonly RawStory[]; leftOut: string[] } {
  const spatials = spatialsOf(problem)
  const options = spatials.map((spatial, index) => {
    const shares = labelProbabilities(spatial, posterior.groups[index] ?? new Float64Array(0))
    const likely = [...shares.keys()].filter((label) => (shares[label] ?? 0) >= limits.least)
    const none = Math.max(0, 1 - shares.reduce((sum, share) => sum + share, 0))
    return [{ label: undefined, most: none }, ...likely.map((label) => ({ label, most: shares[label] ?? 0 }))]
  })
  const candidates = [...problem.points.keys()]
    .filter((index) => (posterior.points[index] ?? 0) >= limits.least)
    .toSorted((a, b) => (posterior.points[b] ?? 0) - (posterior.points[a] ?? 0))
  const search = createSearch(problem, candidates, posterior, limits)
  const leftOut: string[] = []
  const ways = options.map((labels, index) => {
    const spatial = spatials[index]
    return labels.map(({ label, most }) => ({
      label,
      most,
      ways: spatial === undefined ? undefined : waysOf(problem.n, spatial, label),
    }))
  })
  const likeliestFirst = combinations(ways).toSorted((a, b) => roughly(b) - roughly(a))
  for (const choice of likeliestFirst) {
    if (choice.some(({ most }) => most < search.floor())) continue
    const chosen = choice.flatMap((option) => (option.ways === undefined ? [] : [option.ways]))
    if (!search.worthwhile(boundsOf(problem, chosen))) continue
    if (chosen.reduce((count, { weight }) => count * weight.length, 1) > limits.maxPlaces) {
      leftOut.push('stories with several spatial causes at once, which are too many to list')
      continue
    }
    search.under(
      choice.map(({ label }) => label),
      placesUnder(problem, chosen, posterior.evidence),
    )
  }
  if (search.cut()) leftOut.push('some of the less probable stories, for want of time')
  return { stories: search.found(), leftOut: [...new Set(leftOut)] }
}

/** As if the spatial causes were independent; for the order of the search only. */
const roughly = (choice: readonly { readonly most: number }[]): number =>
  choice.reduce((product, { most }) => product * most, 1)

function combinations<T>(options: readonly (readonly T[])[]): T[][] {
  return options.reduce<T[][]>((rows, option) => rows.flatMap((row) => option.map((value) => [...row, value])), [[]])
}

interface Search {
  /** Whether any story under such places can still be of interest. */
  readonly worthwhile: (bounds: Bounds) => boolean
  readonly under: (labels: readonly (number | undefined)[], places: Places) => void
  readonly found: () => readonly RawStory[]
  /** Below this probability a story is of no interest any more. */
  readonly floor: () => number
  /** True when the search stopped for want of time. */
  readonly cut: () => boolean
}

/** Goes through sets of candidates, each next one after the last taken, so that every set is met once. */
function createSearch(
  problem: Problem,
  candidates: readonly number[],
  posterior: Posterior,
  limits: StoryLimits,
): Search {
  const { n } = problem
  const { evidence } = posterior
  const marginal = candidates.map((index) => posterior.points[index] ?? 0)
  const k = candidates.length
  const chosen = new Set(candidates)
  let othersAbsent = 1
  for (const [index, point] of problem.points.entries()) if (!chosen.has(index)) othersAbsent *= 1 - point.probability
  const firings = candidates.map((index) => problem.points[index]?.firing)
  const probability = candidates.map((index) => problem.points[index]?.probability ?? 0)
  const restGood = restGoodBy(n, firings)
  const restAbsent = new Float64Array(k + 1).fill(1)
  const restWeight = new Float64Array(k + 1).fill(1)
  for (let i = k - 1; i >= 0; i--) {
    const p = probability[i] ?? 0
    restAbsent[i] = (restAbsent[i + 1] ?? 1) * (1 - p)
    restWeight[i] = (restWeight[i + 1] ?? 1) * Math.max(p, 1 - p)
  }
  const good = new Float64Array((k + 1) * n)
  const taken: number[] = []
  const best = createBest(limits)
  let work = 0

  const visit = (from: number, weight: number, labels: readonly (number | undefined)[], places: Places): void => {
    if (work > limits.maxWork) return
    const row = taken.length * n
    work += n * places.weight.length
    const alone = weight * (restAbsent[from] ?? 1)
    const share = alone === 0 ? 0 : (alone * likelihood(places, good, row, n)) / evidence
    best.offer(share, () => ({ points: [...taken], labels, probability: share }))
    let before = weight
    for (let next = from; next < k; next++) {
      if ((marginal[next] ?? 0) < best.floor()) return
      const p = probability[next] ?? 0
      const most = before * p * (restWeight[next + 1] ?? 1) * places.totalWeight
      take(good, row, n, firings[next])
      work += n
      if (most * mostLikely(places, good, row + n, restGood, (next + 1) * n, n) >= best.floor() * evidence) {
        taken.push(candidates[next] ?? 0)
        visit(next + 1, before * p, labels, places)
        taken.pop()
      }
      before *= 1 - p
      if (before * (restWeight[next + 1] ?? 1) * places.totalWeight < best.floor() * evidence) return
    }
  }
  const worthwhile = (bounds: Bounds): boolean => {
    good.fill(1, 0, n)
    const most = othersAbsent * (restWeight[0] ?? 1) * bounds.totalWeight
    return most * mostLikely(bounds, good, 0, restGood, 0, n) >= best.floor() * evidence
  }
  return {
    worthwhile,
    under: (labels, places) => {
      if (worthwhile(places)) visit(0, othersAbsent, labels, places)
    },
    found: best.stories,
    floor: best.floor,
    cut: () => work > limits.maxWork,
  }
}

/** Keeps the likeliest stories; once there are enough, only better ones are of interest. */
function createBest(limits: StoryLimits) {
  let stories: RawStory[] = []
  const floor = (): number =>
    stories.length < limits.most ? limits.least : (stories.at(-1)?.probability ?? limits.least)
  const offer = (share: number, make: () => RawStory): void => {
    if (share < floor() || share <= 0) return
    stories.push(make())
    stories = stories.toSorted((a, b) => b.probability - a.probability).slice(0, limits.most)
  }
  return { floor, offer, stories: () => stories }
}

/** Writes what the set in row `at` leaves good, with one more cause, into the next row. */
function take(good: Float64Array, at: number, n: number, firing: Firing | undefined): void {
  good.copyWithin(at + n, at, at + n)
  if (firing === undefined) return
  for (let i = 0; i < firing.bits.length; i++) {
    const cell = at + n + (firing.bits[i] ?? 0)
    good[cell] = (good[cell] ?? 1) * (1 - (firing.q[i] ?? 0))
  }
}

/** Likelihood if all candidates that may still be taken were there, and the spatial causes where they explain most. */
function mostLikely(
  places: Bounds,
  good: Float64Array,
  at: number,
  restGood: Float64Array,
  restAt: number,
  n: number,
): number {
  let product = 1
  for (let bit = 0; bit < n; bit++) {
    product *= 1 - (good[at + bit] ?? 1) * (restGood[restAt + bit] ?? 1) * (places.leastGood[bit] ?? 1)
  }
  return product
}

/** Row by depth: what stays good if every candidate from there on is there. */
function restGoodBy(n: number, firings: readonly (Firing | undefined)[]): Float64Array {
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
