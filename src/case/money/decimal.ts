/** Sums of money without rounding on the way: a typed number is taken as the decimal that was typed. */

/** A number as so many steps of ten to the minus `digits`: 17.35 with two digits is 1735. */
export const stepsOf = (value: number, digits: number): bigint => BigInt(Math.round(value * 10 ** digits))

/** n / d to the nearest whole number; a half goes away from zero, as a shop rounds. */
export function nearest(n: bigint, d: bigint): bigint {
  const half = d / 2n
  return n < 0n ? -((-n + half) / d) : (n + half) / d
}

/** Hundredths as an amount: 1735 becomes 17.35. */
export const fromHundredths = (hundredths: bigint): number => Number(hundredths) / 100

/**
 * An amount with tax on it, rounded to a hundredth.
 * @param taxPct such as 19; at most two decimals count
 */
export const withTax = (amount: number, taxPct: number): number =>
  fromHundredths(nearest(stepsOf(amount, 4) * (10_000n + stepsOf(taxPct, 2)), 1_000_000n))
