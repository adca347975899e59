/** Probability of each own cause that touches something bad, over all ways that were kept. */
import type { OwnCause } from '../network/cause.ts'
import type { Posterior } from './posterior.ts'
import type { GroupValues } from './values.ts'

/** Patterns that together hold less than this share are passed over. */
const PASSED_OVER = 0.005

/**
 * One entry for each own cause, group by group. The rarest patterns, half a percent in all, are passed over and the
 * others scaled to one.
 */
export function ownMarginals(posterior: Posterior, values: GroupValues): { cause: OwnCause; probability: number }[] {
  return posterior.groups.flatMap((sum, group) => {
    const probability = new Float64Array(sum.own.causes.length)
    if (probability.length === 0) return []
    for (const [pattern, mass] of heavyPatterns(posterior, group)) {
      const stories = values.stories(group, pattern)
      const whole = stories.reduce((total, story) => total + story.mass, 0)
      if (whole <= 0) continue
      for (const { members, mass: own } of stories) {
        for (const index of members) probability[index] = (probability[index] ?? 0) + (mass * own) / whole
      }
    }
    return sum.own.causes.map(({ cause }, index) => ({ cause, probability: probability[index] ?? 0 }))
  })
}

/** Patterns of a group with their probability, heaviest first, until hardly anything is left. */
export function heavyPatterns({ kept }: Posterior, group: number): [number, number][] {
  const masses = new Map<number, number>()
  for (const { patterns, probability } of kept) {
    const pattern = patterns[group] ?? 0
    masses.set(pattern, (masses.get(pattern) ?? 0) + probability)
  }
  const order = [...masses].toSorted((a, b) => b[1] - a[1])
  let held = 0
  const heavy: [number, number][] = []
  for (const entry of order) {
    if (held > 1 - PASSED_OVER) break
    heavy.push(entry)
    held += entry[1]
  }
  return heavy.map(([pattern, mass]) => [pattern, mass / held])
}
