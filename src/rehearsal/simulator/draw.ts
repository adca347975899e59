/** Draws that the simulator needs beside the uniform and the normal one: ranges, weights, gamma and Dirichlet. */
import type { Random } from '../../base/index.ts'

/** True with this probability; uses one draw whatever comes of it. */
export const chance = (random: Random, probability: number): boolean => random.next() < probability

/** Uniform from `low` up to, not including, `high`. */
export const between = (random: Random, low: number, high: number): number => low + (high - low) * random.next()

/** Log-normal about a median; `sdLog` is the standard deviation of the natural logarithm. */
export const logNormal = (random: Random, median: number, sdLog: number): number =>
  median * Math.exp(sdLog * random.normal())

/** Any item, each with the same chance; undefined of an empty list. */
export function pick<T>(random: Random, items: readonly T[]): T | undefined {
  return items[random.whole(items.length)]
}

/** Key of one entry, drawn by weight; weights need not sum to one. */
export function pickWeighted<K extends string>(random: Random, weights: Readonly<Record<K, number>>): K {
  const keys = keysOf(weights)
  const total = keys.reduce((sum, key) => sum + weights[key], 0)
  let left = random.next() * total
  for (const key of keys) {
    left -= weights[key]
    if (left < 0) return key
  }
  const last = keys.at(-1)
  if (last === undefined) throw new Error('nothing to draw from')
  return last
}

function keysOf<K extends string>(record: Readonly<Record<K, number>>): K[] {
  const keys: K[] = []
  for (const key in record) keys.push(key)
  return keys
}

/** `count` different items in random order, or all of them. */
export function pickSome<T>(random: Random, items: readonly T[], count: number): T[] {
  const left = [...items]
  const chosen: T[] = []
  while (chosen.length < count && left.length > 0) chosen.push(...left.splice(random.whole(left.length), 1))
  return chosen
}

/** Gamma with scale 1: Marsaglia and Tsang, A simple method for generating gamma variables, ACM TOMS 26(3), 2000. */
export function gamma(random: Random, shape: number): number {
  if (shape < 1) return gamma(random, shape + 1) * (1 - random.next()) ** (1 / shape)
  const d = shape - 1 / 3
  const c = 1 / Math.sqrt(9 * d)
  for (;;) {
    const x = random.normal()
    const v = (1 + c * x) ** 3
    if (v <= 0) continue
    if (Math.log(1 - random.next()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v
  }
}

/** Weights around `means` that sum to one; the larger the concentration the nearer to them. */
export function dirichlet<K extends string>(
  random: Random,
  means: Readonly<Record<K, number>>,
  concentration: number,
): Record<K, number> {
  const drawn: Record<K, number> = { ...means }
  const keys = keysOf(means)
  const total = keys.reduce((sum, key) => sum + means[key], 0)
  let sum = 0
  for (const key of keys) {
    drawn[key] = means[key] > 0 ? gamma(random, (concentration * means[key]) / total) : 0
    sum += drawn[key]
  }
  for (const key of keys) drawn[key] /= sum
  return drawn
}

/** A number in [0, 1) that belongs to a seed and some words: asked again, it is the same. */
export function lasting(seed: number, words: string): number {
  let hash = (seed ^ 0x811c9dc5) >>> 0
  for (let i = 0; i < words.length; i++) hash = Math.imul(hash ^ words.charCodeAt(i), 0x01000193) >>> 0
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b) >>> 0
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35) >>> 0
  return ((hash ^ (hash >>> 16)) >>> 0) / 0x1_0000_0000
}
