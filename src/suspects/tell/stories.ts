/**
 * Stories: which causes were there, exactly these and no others of those that touch a bad finding. A shared cause is in a
 * story by the place that its words name; a state that touches nothing bad counts as not being in it. A story's
 * probability is summed over all ways that were kept, so that no story is counted twice.
 */
import type { CauseAt } from '../result.ts'
import type { Bundle } from '../sum/bundle.ts'
import type { OwnStory } from '../sum/own-shares.ts'
import type { Posterior } from '../sum/posterior.ts'
import type { GroupValues } from '../sum/values.ts'

export interface StoryLimits {
  /** Stories below this probability are not listed, nor more than so many. */
  readonly least: number
  readonly most: number
}

const STORY_LIMITS: StoryLimits = { least: 0.002, most: 12 }

export interface RawStory {
  /** Shared causes first. */
  readonly causes: readonly CauseAt[]
  /** By cause of `causes` that is a spill: its variable and label; otherwise undefined. */
  readonly labels: readonly Labelled[]
  readonly probability: number
}

/** A label of a shared variable. */
export interface Labelled {
  readonly variable: number
  readonly label: number
}

interface Entry {
  readonly patterns: Int32Array
  weight: number
}

/**
 * Stories from the likeliest down, within the limits on how many are told and how rare. Probabilities are of the
 * whole card, so that they sum to at most one.
 */
export function findStories(
  posterior: Posterior,
  values: GroupValues,
  limits: StoryLimits = STORY_LIMITS,
): readonly RawStory[] {
  const told = posterior.groups.map(({ group }) => group.told)
  const grounds = new Map<string, { labels: readonly Labelled[]; mass: number; entries: Map<string, Entry> }>()
  const labelled = new Map<Bundle, readonly { labels: readonly Labelled[]; share: number }[]>()
  const labelsOf = (bundle: Bundle) => {
    const known = labelled.get(bundle) ?? labelShares(posterior, bundle, told)
    labelled.set(bundle, known)
    return known
  }
  // First by the places of the shared causes: ways that differ in states but not in words are one ground of a story.
  for (const { probability, rare, likely, patterns } of heaviestOf(posterior)) {
    const ownPatterns = patterns.map((pattern, group) =>
      (posterior.groups[group]?.own.causes.length ?? 0) > 0 ? pattern : 0,
    )
    const name = ownPatterns.join()
    for (const a of labelsOf(rare)) {
      for (const b of labelsOf(likely)) {
        const weight = probability * a.share * b.share
        if (weight < limits.least * 1e-7) continue
        const labels = [...a.labels, ...b.labels]
        const key = labels.map(({ variable, label }) => `${variable}:${label}`).join()
        const ground = grounds.get(key) ?? { labels, mass: 0, entries: new Map<string, Entry>() }
        grounds.set(key, ground)
        ground.mass += weight
        const entry = ground.entries.get(name)
        if (entry === undefined) ground.entries.set(name, { patterns: ownPatterns, weight })
        else entry.weight += weight
      }
    }
  }
  const best = createBest(limits)
  const ownOf = rememberedStories(posterior, values)
  for (const { labels, mass, entries } of [...grounds.values()].toSorted((a, b) => b.mass - a.mass)) {
    // A ground's stories share its mass, so none below the least story that is kept can come in any more.
    if (mass < best.floor()) break
    tellOwn({ posterior, labels, entries: [...entries.values()], ownOf, best })
  }
  return best.stories()
}

/** What is left out of these counts as part of the remainder. */
function heaviestOf({ kept, groups }: Posterior): Posterior['kept'] {
  const few = groups.reduce((product, { own }) => product * own.sets.length, 1) <= IN_FULL
  return few ? kept : kept.slice(0, MOST_WAYS)
}
const IN_FULL = 64
const MOST_WAYS = 150

/** Which labels a bundle's ways have (of states that touch what stories are about), and with which share of its weight. */
function labelShares(posterior: Posterior, bundle: Bundle, told: readonly boolean[]) {
  const shares = new Map<string, { labels: readonly Labelled[]; share: number }>()
  for (const way of bundle.ways) {
    const touching = way.chosen.filter(({ variable, state }) => {
      const patterns = posterior.variables[variable]?.states[state]?.patterns
      return patterns?.some((pattern, group) => pattern !== 0 && told[group] === true) ?? false
    })
    let rows: { labels: readonly Labelled[]; share: number }[] = [{ labels: [], share: way.weight / bundle.weight }]
    for (const { variable, state } of touching) {
      const { labels = [], labelShare } = posterior.variables[variable] ?? {}
      rows = rows.flatMap((row) =>
        labels.flatMap((_, label) => {
          const share = row.share * (labelShare?.(state, label) ?? 0)
          return share > 0 ? [{ labels: [...row.labels, { variable, label }], share }] : []
        }),
      )
    }
    for (const { labels, share } of rows) {
      const ordered = labels.toSorted((a, b) => a.variable - b.variable || a.label - b.label)
      const key = ordered.map(({ variable, label }) => `${variable}:${label}`).join()
      const known = shares.get(key)
      if (known === undefined) shares.set(key, { labels: ordered, share })
      else known.share += share
    }
  }
  return [...shares.values()]
}

type OwnOf = (group: number, pattern: number) => ReadonlyMap<string, OwnStory>

/** Sets of own causes by name, each as a share of the group's value. */
function rememberedStories(posterior: Posterior, values: GroupValues): OwnOf {
  const kept = posterior.groups.map(() => new Map<number, ReadonlyMap<string, OwnStory>>())
  return (group, pattern) => {
    const known = kept[group]?.get(pattern)
    if (known !== undefined) return known
    const whole = values.of(group, pattern).all
    const made = new Map(
      values.stories(group, pattern).map(({ members, mass }) => [members.join(), { members, mass: mass / whole }]),
    )
    kept[group]?.set(pattern, made)
    return made
  }
}

interface OwnWork {
  readonly posterior: Posterior
  readonly labels: readonly Labelled[]
  readonly entries: readonly Entry[]
  readonly ownOf: OwnOf
  readonly best: ReturnType<typeof createBest>
}

/** Goes through the sets of own causes group by group, as long as what is left of the weight is of interest. */
function tellOwn({ posterior, labels, entries, ownOf, best }: OwnWork): void {
  const groups = posterior.groups.flatMap(({ own }, group) => (own.causes.length > 0 ? [group] : []))
  const visit = (depth: number, weights: Float64Array, causes: readonly CauseAt[]): void => {
    const left = weights.reduce((sum, weight) => sum + weight, 0)
    if (left < best.floor() || left <= 0) return
    const group = groups[depth]
    if (group === undefined) {
      const shared = labels.flatMap(({ variable, label }) => posterior.variables[variable]?.labels[label] ?? [])
      best.offer({ causes: [...shared, ...causes], labels, probability: left })
      return
    }
    const own = posterior.groups[group]?.own.causes ?? []
    for (const [name, members] of setsAmong(entries, weights, group, ownOf, best.floor())) {
      const next = weights.map((weight, at) => {
        const share = ownOf(group, entries[at]?.patterns[group] ?? 0).get(name)?.mass ?? 0
        return weight * share
      })
      visit(depth + 1, next, [...causes, ...members.flatMap((index) => own[index]?.cause.at ?? [])])
    }
  }
  visit(
    0,
    Float64Array.from(entries, ({ weight }) => weight),
    [],
  )
}

/** Names and members of the sets that together with these weights may still come to the floor, likeliest first. */
function setsAmong(
  entries: readonly Entry[],
  weights: Float64Array,
  group: number,
  ownOf: OwnOf,
  floor: number,
): [string, readonly number[]][] {
  const masses = new Map<string, { members: readonly number[]; mass: number }>()
  for (const [at, { patterns }] of entries.entries()) {
    const weight = weights[at] ?? 0
    if (weight <= 0) continue
    for (const [name, { members, mass }] of ownOf(group, patterns[group] ?? 0)) {
      const known = masses.get(name)
      if (known === undefined) masses.set(name, { members, mass: weight * mass })
      else known.mass += weight * mass
    }
  }
  return [...masses]
    .filter(([, { mass }]) => mass >= floor)
    .toSorted((a, b) => b[1].mass - a[1].mass)
    .map(([name, { members }]) => [name, members])
}

/** Keeps the likeliest stories; once there are enough, only better ones are of interest. */
function createBest(limits: StoryLimits) {
  let stories: RawStory[] = []
  const floor = (): number =>
    stories.length < limits.most ? limits.least : (stories.at(-1)?.probability ?? limits.least)
  const offer = (story: RawStory): void => {
    if (story.probability < floor() || story.probability <= 0) return
    stories = [...stories, story].toSorted((a, b) => b.probability - a.probability).slice(0, limits.most)
  }
  return { floor, offer, stories: () => stories }
}
