/** Ways with the same patterns, put together: the groups can't tell them apart. */
import type { Way } from './ways.ts'

export interface Bundle {
  readonly patterns: Int32Array
  readonly weight: number
  readonly ways: readonly Way[]
}

/** Ways by their patterns, in order of their first, with the sum of their weights. */
export function bundled(ways: readonly Way[]): Bundle[] {
  const byPattern = new Map<string, { patterns: Int32Array; weight: number; ways: Way[] }>()
  for (const way of ways) {
    const key = way.patterns.join()
    const known = byPattern.get(key)
    if (known === undefined) byPattern.set(key, { patterns: way.patterns, weight: way.weight, ways: [way] })
    else {
      known.weight += way.weight
      known.ways.push(way)
    }
  }
  return [...byPattern.values()]
}
