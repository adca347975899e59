/** Lengths as files write them: a number with or without its unit. */

export const MM_PER_INCH = 25.4

/** Millimetres in one of the unit; words as tables and parameters write them. */
const UNITS: readonly (readonly [RegExp, number])[] = [
  [/^(mm|millimet(er|re)s?)$/i, 1],
  [/^(um|µm|μm|micron?s?|micromet(er|re)s?)$/i, 1e-3],
  [/^(cm|centimet(er|re)s?)$/i, 10],
  [/^(mils?|thou|th)$/i, MM_PER_INCH / 1000],
  [/^(in|inch|inches|")$/i, MM_PER_INCH],
]

/** @returns millimetres in one of the unit, or undefined for a word that is no unit of length */
export function mmPer(unit: string): number | undefined {
  return UNITS.find(([word]) => word.test(unit.trim()))?.[1]
}

const LENGTH = /^([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d{1,3})?)\s*([a-zµμ"]*)$/i

export interface TypedLength {
  readonly value: number
  /** Undefined where the number stands alone. */
  readonly mmPerUnit: number | undefined
}

/** `12.7`, `-12,7`, `500mil`, `1.2 mm`: a number that is finite, with the unit that it carries; else undefined. */
export function typedLength(text: string): TypedLength | undefined {
  const found = LENGTH.exec(text.trim())
  if (found === null) return undefined
  const value = Number((found[1] ?? '').replace(',', '.'))
  const unit = found[2] ?? ''
  const mmPerUnit = unit === '' ? undefined : mmPer(unit)
  if (!Number.isFinite(value) || (unit !== '' && mmPerUnit === undefined)) return undefined
  return { value, mmPerUnit }
}
