/**
 * Even draws without chance. What is not known (how much, at which angle, which gaps are shut) takes another value at each
 * place of the sum, so that a few hundred places stand for all combinations.
 */

interface Steps {
  readonly column: number
  readonly row: number
  readonly level: number
}

const FARTHEST_STEPS = 4
/** A good lattice keeps the product of its steps and of its distance from a whole number large (Niederreiter 1992). */
const LEAST_FIGURE = 0.12
const offWhole = (value: number): number => Math.abs(value - Math.round(value))

const DIMENSIONS = 96
const STEPS = evenSteps(DIMENSIONS)

/**
 * The fractional part of a sum of irrational multiples of a place's column, row and level: over any window of places the
 * values lie evenly between 0 and 1, and two dimensions evenly in the square (Weyl 1916). Beyond the 96th dimension they
 * begin again.
 */
export function evenShare(dimension: number, column: number, row: number, level: number): number {
  const steps = STEPS[dimension % DIMENSIONS]
  if (steps === undefined) return 0
  const sum = column * steps.column + row * steps.row + level * steps.level
  return sum - Math.floor(sum)
}

/**
 * Fractional parts of square roots of primes, which are irrational and independent of each other over the rational numbers;
 * of these the ones for which a few columns and rows do not come back to nearly the same value.
 */
function evenSteps(count: number): Steps[] {
  const roots = squareRootsOfPrimes(6000)
  const found: Steps[] = []
  const left = new Set(roots)
  for (const column of roots) {
    if (!left.has(column) || found.length === count) continue
    const row = [...left].find((root) => root !== column && isEven(column, root))
    const level = [...left].find((root) => root !== column && root !== row && offWhole(root) >= 0.25)
    if (row === undefined || level === undefined) continue
    for (const used of [column, row, level]) left.delete(used)
    found.push({ column, row, level })
  }
  return found
}

function isEven(column: number, row: number): boolean {
  for (let a = 0; a <= FARTHEST_STEPS; a++) {
    for (let b = -FARTHEST_STEPS; b <= FARTHEST_STEPS; b++) {
      if (a === 0 && b === 0) continue
      const figure = offWhole(a * column + b * row) * Math.max(1, a) * Math.max(1, Math.abs(b))
      if (figure < LEAST_FIGURE) return false
    }
  }
  return true
}

function squareRootsOfPrimes(below: number): number[] {
  const primes: number[] = []
  for (let candidate = 2; candidate < below; candidate++) {
    if (primes.every((prime) => candidate % prime !== 0)) primes.push(candidate)
  }
  return primes.map((prime) => Math.sqrt(prime) % 1)
}

/** Shares beyond this are counted as this: a sum of a few hundred places has no use for one in a thousand. */
const OUTERMOST_SHARE = 0.985

/** The standard normal value below which the given share lies; algorithm AS 241 PPND7 (Wichura 1988, Applied Statistics 37). */
export function normalQuantile(share: number): number {
  const held = Math.min(OUTERMOST_SHARE, Math.max(1 - OUTERMOST_SHARE, share))
  const q = held - 0.5
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q
    const above = ((59.10937472 * r + 159.29113202) * r + 50.434271938) * r + 3.3871327179
    return (q * above) / (((67.1875636 * r + 78.757757664) * r + 17.895169469) * r + 1)
  }
  const r = Math.sqrt(-Math.log(q < 0 ? held : 1 - held)) - 1.6
  const above = ((0.17023821103 * r + 1.3067284816) * r + 2.75681539) * r + 1.4234372777
  const value = above / ((0.12021132975 * r + 0.7370016425) * r + 1)
  return q < 0 ? -value : value
}

/** Value at a standard normal quantile of something whose 5th and 95th percentiles are `low` and `high`: each side has its own width. */
export function betweenRange(value: number, low: number, high: number, quantile: number): number {
  return value + (quantile / Z95) * (quantile < 0 ? value - low : high - value)
}

/** 95th percentile of the standard normal distribution. Tables of the normal distribution. */
const Z95 = 1.6448536
