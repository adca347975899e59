/** Fair samples of bounded size from a stream of unknown length, one reservoir a channel. */
import { seededRandom } from '../../base/index.ts'

/** Failing addresses kept of each channel. The standard error of a share found from 2048 of them is at most 0.011. */
export const RESERVOIR_SIZE = 2048

/** A seed of our own: which rows are looked at must not change from one reading to the next. */
const SEED = 1

/**
 * One reservoir a channel, each holding a uniform sample without replacement of the addresses offered to it
 * (algorithm L: Li, "Reservoir-sampling algorithms of time complexity O(n(1+log(N/n)))", ACM TOMS 20 (1994) 481–493).
 * All addresses are kept while there are no more than 2048.
 */
export interface Reservoirs {
  /** Addresses offered so far, by channel: whoever offers one adds it up here… */
  readonly offered: Float64Array
  /** …and hands it to `take` if the sum has reached this: nearly all are let go without a call. */
  readonly nextTaken: Float64Array
  /** Keeps the address that was offered last. */
  take(channel: number, address: number): void
  sample(channel: number): Float64Array
}

/**
 * One empty reservoir for each channel, with the same seed each time: a second reading of the same text keeps the
 * same addresses.
 */
export function newReservoirs(channels: number): Reservoirs {
  const random = seededRandom(SEED)
  const offered = new Float64Array(channels)
  const nextTaken = new Float64Array(channels).fill(1)
  const weight = new Float64Array(channels).fill(1)
  const kept: (Float64Array | undefined)[] = Array.from({ length: channels }, () => undefined)

  const skipOn = (channel: number, from: number): void => {
    const w = (weight[channel] ?? 1) * (1 - random.next()) ** (1 / RESERVOIR_SIZE)
    weight[channel] = w
    nextTaken[channel] = from + Math.floor(Math.log(1 - random.next()) / Math.log(1 - w)) + 1
  }
  return {
    offered,
    nextTaken,
    take: (channel, address) => {
      const n = offered[channel] ?? 0
      const sample = (kept[channel] ??= new Float64Array(RESERVOIR_SIZE))
      sample[n <= RESERVOIR_SIZE ? n - 1 : random.whole(RESERVOIR_SIZE)] = address
      if (n < RESERVOIR_SIZE) nextTaken[channel] = n + 1
      else skipOn(channel, n)
    },
    sample: (channel) =>
      (kept[channel] ?? new Float64Array(0)).subarray(0, Math.min(RESERVOIR_SIZE, offered[channel] ?? 0)),
  }
}
