/** Upper tail of the chi-square distribution: the regularised incomplete gamma function Q(k/2, x/2). */

const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const

/** ln Γ(x) for x of 0.5 or more (Lanczos, SIAM J. Numer. Anal. 1, 1964; g = 7, nine terms). */
function logGamma(x: number): number {
  const z = x - 1
  let sum: number = LANCZOS[0]
  for (let i = 1; i < LANCZOS.length; i++) sum += (LANCZOS[i] ?? 0) / (z + i)
  const t = z + 7.5
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum)
}

const MOST_TERMS = 500
const SMALL = 1e-300
const PRECISE = 1e-14

/** @param freedom 1 or more @returns the probability that chi-square with this freedom exceeds the value */
export function chiSquareTail(value: number, freedom: number): number {
  const a = freedom / 2
  const x = value / 2
  if (x <= 0) return 1
  const front = Math.exp(a * Math.log(x) - x - logGamma(a))
  return x < a + 1 ? 1 - front * lowerSeries(a, x) : front * upperFraction(a, x)
}

function lowerSeries(a: number, x: number): number {
  let term = 1 / a
  let sum = term
  for (let k = 1; k < MOST_TERMS && term > sum * PRECISE; k++) {
    term *= x / (a + k)
    sum += term
  }
  return sum
}

/** Lentz's continued fraction. */
function upperFraction(a: number, x: number): number {
  let b = x + 1 - a
  let c = 1 / SMALL
  let d = 1 / b
  let value = d
  for (let i = 1; i < MOST_TERMS; i++) {
    const step = -i * (i - a)
    b += 2
    d = 1 / nonZero(step * d + b)
    c = nonZero(b + step / c)
    value *= d * c
    if (Math.abs(d * c - 1) < PRECISE) break
  }
  return value
}

const nonZero = (value: number): number => (Math.abs(value) < SMALL ? SMALL : value)
