/** Numbers as meters send them: NR1, NR2, NR3 of IEEE 488.2, and the special ones of SCPI-1999. */

export type MeterNumber =
  | { readonly kind: 'value'; readonly value: number }
  /** 9.9E37: beyond the range. */
  | { readonly kind: 'over' }
  /** -9.9E37: beyond it on the other side of zero. */
  | { readonly kind: 'under' }
  /** 9.91E37: the meter itself says that it is no number. */
  | { readonly kind: 'no-number' }

const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:\s*e\s*[+-]?\d{1,3})?$/i
const OVER = /^[+-]?\.?[o0]\.?l\.?$|^overl(?:oad)?$/i

/** SCPI-1999 vol. 1, 7.2.1.4 and .5: ±9.9E37 stands for infinity, 9.91E37 for not a number. Meters vary the spelling. */
const INFINITE = 9.9e37
const NOT_A_NUMBER = 9.91e37

/** @returns the first number of a comma list; undefined where the text is none, as `0,"No error"` of another question */
export function meterNumber(text: string): MeterNumber | undefined {
  const [plain = '', ...more] = text.split(',').map((field) => field.trim())
  if (!more.every((field) => NUMBER.test(field) || OVER.test(field))) return undefined
  if (OVER.test(plain)) return { kind: 'over' }
  if (!NUMBER.test(plain)) return undefined
  const value = Number(plain.replaceAll(/\s/g, ''))
  const size = Math.abs(value)
  if (near(size, NOT_A_NUMBER)) return { kind: 'no-number' }
  if (!near(size, INFINITE) && size < INFINITE) return { kind: 'value', value }
  return { kind: value < 0 ? 'under' : 'over' }
}

const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-4 * b
