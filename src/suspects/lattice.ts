/**
 * Kernels on the lattice of explained sets. A distribution over the subsets of n bad findings is a Float64Array of 2^n,
 * indexed by bit mask: the probability that exactly these findings have been made bad by the causes handled so far.
 * Everything is a sum of positive terms, so that nothing cancels.
 */

/** Findings that a cause in some state can make bad: bit numbers and probabilities, of equal length. */
export interface Firing {
  readonly bits: Uint8Array
  readonly q: Float64Array
}

/** In place: the cause is there, so each of its findings becomes bad with its q. */
export function fire(distribution: Float64Array, firing: Firing): void {
  const size = distribution.length
  for (let i = 0; i < firing.bits.length; i++) {
    const bit = 1 << (firing.bits[i] ?? 0)
    const q = firing.q[i] ?? 0
    for (let high = 0; high < size; high += bit << 1) {
      for (let set = high; set < high + bit; set++) {
        const mass = distribution[set] ?? 0
        distribution[set] = mass * (1 - q)
        distribution[set + bit] = (distribution[set + bit] ?? 0) + mass * q
      }
    }
  }
}

/** In place: transpose of `fire`, for values of what is still to come. */
export function fireBack(values: Float64Array, firing: Firing): void {
  const size = values.length
  for (let i = 0; i < firing.bits.length; i++) {
    const bit = 1 << (firing.bits[i] ?? 0)
    const q = firing.q[i] ?? 0
    for (let high = 0; high < size; high += bit << 1) {
      for (let set = high; set < high + bit; set++) {
        values[set] = (1 - q) * (values[set] ?? 0) + q * (values[set + bit] ?? 0)
      }
    }
  }
}

/** `target += weight · source`. */
export function addScaled(target: Float64Array, source: Float64Array, weight: number): void {
  for (let set = 0; set < target.length; set++) target[set] = (target[set] ?? 0) + weight * (source[set] ?? 0)
}

/** `values *= weight`. */
export function scale(values: Float64Array, weight: number): void {
  for (let set = 0; set < values.length; set++) values[set] = (values[set] ?? 0) * weight
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let set = 0; set < a.length; set++) sum += (a[set] ?? 0) * (b[set] ?? 0)
  return sum
}

/** Walks the sets that a firing can complete: all but a subset of its own bits. Scratch arrays of 2^(its bits). */
export interface CoverScratch {
  readonly sets: Uint32Array
  readonly values: Float64Array
}

export const coverScratch = (n: number): CoverScratch => ({
  sets: new Uint32Array(1 << n),
  values: new Float64Array(1 << n),
})

/**
 * For every subset s of the firing's bits: the set `full` without s, and the probability Π q over s that the firing
 * makes (at least) all of s bad.
 * @returns how many entries of the scratch were filled
 */
export function coverInto(scratch: CoverScratch, full: number, firing: Firing): number {
  const { sets, values } = scratch
  sets[0] = full
  values[0] = 1
  let count = 1
  for (let i = 0; i < firing.bits.length; i++) {
    const bit = 1 << (firing.bits[i] ?? 0)
    const q = firing.q[i] ?? 0
    for (let entry = 0; entry < count; entry++) {
      sets[count + entry] = (sets[entry] ?? 0) & ~bit
      values[count + entry] = (values[entry] ?? 0) * q
    }
    count *= 2
  }
  return count
}

/**
 * For every subset of the firing's bits: the probability that exactly these are made bad.
 * @returns how many entries of the scratch were filled
 */
export function firedInto(scratch: CoverScratch, firing: Firing): number {
  const { sets, values } = scratch
  sets[0] = 0
  values[0] = 1
  let count = 1
  for (let i = 0; i < firing.bits.length; i++) {
    const bit = 1 << (firing.bits[i] ?? 0)
    const q = firing.q[i] ?? 0
    for (let entry = 0; entry < count; entry++) {
      const value = values[entry] ?? 0
      sets[count + entry] = (sets[entry] ?? 0) | bit
      values[count + entry] = value * q
      values[entry] = value * (1 - q)
    }
    count *= 2
  }
  return count
}
