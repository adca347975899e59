/** One step of a robust least-squares fit: few unknowns, many misses, some of them wrong. */

/** One miss: how far off it is, and how it changes with each unknown. */
export interface Miss {
  readonly miss: number
  readonly slopes: readonly number[]
  /** How much it counts, beside how it agrees with the rest. */
  readonly weight: number
}

/** Tukey’s constant for 95 % efficiency, and the factor from median deviation to sigma (Huber, Robust Statistics, 1981; from memory). */
const TUKEY = 4.685
const MAD_TO_SIGMA = 1.4826

/**
 * The change of the unknowns that takes the misses away best, by the normal equations with Tukey’s biweight. `ridge` holds
 * each unknown back: its entry is added to the diagonal, times the sum of weights.
 * @param leastSigma misses smaller than this count as none, in their own unit
 * @returns undefined where the misses leave an unknown open
 */
export function robustStep(
  misses: readonly Miss[],
  ridge: readonly number[],
  leastSigma: number,
): number[] | undefined {
  const sigma = Math.max(leastSigma, MAD_TO_SIGMA * medianOf(misses.map(({ miss }) => Math.abs(miss))))
  const n = ridge.length
  const matrix = Array.from({ length: n }, () => new Float64Array(n))
  const right = new Float64Array(n)
  let total = 0
  for (const { miss, slopes, weight } of misses) {
    const share = miss / (TUKEY * sigma)
    if (Math.abs(share) >= 1) continue
    const w = weight * (1 - share * share) ** 2
    total += w
    for (let i = 0; i < n; i++) {
      const wi = w * (slopes[i] ?? 0)
      right[i] = (right[i] ?? 0) + wi * miss
      const row = matrix[i] ?? right
      for (let j = 0; j < n; j++) row[j] = (row[j] ?? 0) + wi * (slopes[j] ?? 0)
    }
  }
  for (const [i, row] of matrix.entries()) row[i] = (row[i] ?? 0) + (ridge[i] ?? 0) * total
  return solved(matrix, right)
}

/** The middle value; 0 of none. */
export function medianOf(values: readonly number[]): number {
  if (values.length === 0) return 0
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0
}

/** By Cholesky’s decomposition; undefined where the matrix is not positive definite. */
export function solved(matrix: readonly Float64Array[], right: Float64Array): number[] | undefined {
  const n = right.length
  const lower = Array.from({ length: n }, () => new Float64Array(n))
  const get = (i: number, j: number): number => lower[i]?.[j] ?? 0
  for (let i = 0; i < n; i++) {
    const row = lower[i] ?? right
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]?.[j] ?? 0
      for (let k = 0; k < j; k++) sum -= get(i, k) * get(j, k)
      if (i !== j) row[j] = sum / get(j, j)
      else if (sum > 1e-12 * Math.abs(matrix[i]?.[i] ?? 0)) row[i] = Math.sqrt(sum)
      else return undefined
    }
  }
  const found = Array.from(right)
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) found[i] = (found[i] ?? 0) - get(i, k) * (found[k] ?? 0)
    found[i] = (found[i] ?? 0) / get(i, i)
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) found[i] = (found[i] ?? 0) - get(k, i) * (found[k] ?? 0)
    found[i] = (found[i] ?? 0) / get(i, i)
  }
  return found
}
