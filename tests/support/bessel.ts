/** Modified Bessel functions of order 0 and 1 by quadrature of their integral forms (Abramowitz & Stegun 9.6.16 to 9.6.24). */

const STEPS = 4000

/** I_n(x) = (1/π)·∫ exp(x·cos t)·cos(n·t) dt over 0..π; the trapezoid rule converges geometrically as it is periodic. */
export function besselI(order: 0 | 1, x: number): number {
  let sum = 0
  for (let k = 0; k <= STEPS; k++) {
    const t = (Math.PI * k) / STEPS
    sum += (k === 0 || k === STEPS ? 0.5 : 1) * Math.exp(x * Math.cos(t)) * Math.cos(order * t)
  }
  return sum / STEPS
}

/** K_n(x) = ∫ exp(-x·cosh t)·cosh(n·t) dt over 0..∞; doubly exponential decay makes the trapezoid rule exact to rounding. */
export function besselK(order: 0 | 1, x: number): number {
  const end = Math.acosh(Math.max(1, 745 / x))
  const step = end / STEPS
  let sum = 0
  for (let k = 0; k <= STEPS; k++) {
    const t = step * k
    sum += (k === 0 || k === STEPS ? 0.5 : 1) * Math.exp(-x * Math.cosh(t)) * Math.cosh(order * t)
  }
  return sum * step
}

/** erfc by Simpson's rule on its definition. */
export function erfc(x: number): number {
  const n = 2000
  const step = x / n
  let sum = 1 + Math.exp(-x * x)
  for (let k = 1; k < n; k++) sum += (k % 2 === 1 ? 4 : 2) * Math.exp(-((k * step) ** 2))
  return 1 - (2 / Math.sqrt(Math.PI)) * ((sum * step) / 3)
}
