/** Round lengths: of scale bars, grids and rings. */

/** The largest of 1, 2, 5 times a power of ten that is not above the value; 0 for values that are not positive. */
export function roundDown125(value: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return 0
  const power = 10 ** Math.floor(Math.log10(value) + 1e-12)
  const lead = value / power + 1e-9
  const step = lead >= 5 ? 5 : lead >= 2 ? 2 : 1
  return Number((step * power).toPrecision(3))
}
