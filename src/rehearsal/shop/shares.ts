/** Shares out of counts: what a figure becomes once it was tried, and how far a share of few tries can be trusted. */

export interface Share {
  readonly hits: number
  readonly tries: number
}

export interface Beta {
  readonly a: number
  readonly b: number
}

/**
 * A Beta whose mean is `shipped`, worth `weight` tries, after `hits` of `tries`: Beta(shipped·weight + hits,
 * (1 − shipped)·weight + tries − hits). Gelman, Carlin, Stern, Dunson, Vehtari and Rubin, Bayesian Data Analysis, 2013, 2.4.
 * @param shipped 0 … 1
 * @param weight above 0
 */
export const learntBeta = (shipped: number, weight: number, { hits, tries }: Share): Beta => ({
  a: shipped * weight + hits,
  b: (1 - shipped) * weight + tries - hits,
})

/** Mean a / (a + b) of a beta distribution. */
export const betaMean = ({ a, b }: Beta): number => a / (a + b)

/** Standard deviation of a beta distribution, √(ab / ((a + b)² (a + b + 1))). */
export const betaSd = ({ a, b }: Beta): number => Math.sqrt((a * b) / ((a + b) ** 2 * (a + b + 1)))

export interface ShareInterval {
  readonly low: number
  readonly high: number
}

/** Two-sided, 95 %. */
const Z = 1.959963984540054

/**
 * Wilson's score interval at 95 % (E. B. Wilson, Probable inference, the law of succession, and statistical inference,
 * Journal of the American Statistical Association 22, 1927).
 * @returns undefined where nothing was tried
 */
export function wilsonInterval({ hits, tries }: Share): ShareInterval | undefined {
  if (tries <= 0) return undefined
  const share = hits / tries
  const spread = Z * Math.sqrt((share * (1 - share)) / tries + (Z * Z) / (4 * tries * tries))
  const middle = share + (Z * Z) / (2 * tries)
  const scale = 1 + (Z * Z) / tries
  return {
    low: hits === 0 ? 0 : Math.max(0, (middle - spread) / scale),
    high: hits === tries ? 1 : Math.min(1, (middle + spread) / scale),
  }
}
