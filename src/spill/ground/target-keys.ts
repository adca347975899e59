/**
 * Sets of targets as numbers: 52-bit sums of random keys, one a target (Zobrist 1970). Two different sets among ten
 * thousand fall together with a probability below 1e-7.
 */
import { seededRandom } from '../../base/index.ts'

const KEY_SEED = 20_251
const KEY_HALF = 2 ** 26

/**
 * One random key below 2^52 for each target. The same seed gives the same keys, so that sets can be told apart
 * between trials.
 */
export function targetKeys(count: number, seed = KEY_SEED): Float64Array {
  const random = seededRandom(seed)
  return Float64Array.from({ length: count }, () => random.whole(KEY_HALF) * KEY_HALF + random.whole(KEY_HALF))
}

/** Sums stay below 2^52, where every whole number has a float of its own. */
export const wrapped = (sum: number): number => (sum >= KEY_HALF * KEY_HALF ? sum - KEY_HALF * KEY_HALF : sum)
