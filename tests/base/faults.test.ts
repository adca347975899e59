/** A fault says where, what stood there and what was expected, whatever was handed in. */
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { faultsFromZod, jsonPath, sayFault, showValue, valueAt } from '../../src/base/index.ts'

describe('a fault in a sentence', () => {
  const fault = { path: '$.a', found: '3', expected: 'a text' }
  test('ends with what to do, where that is known', () => {
    expect(sayFault(fault)).toBe('$.a: found 3, expected a text.')
    expect(sayFault({ ...fault, todo: 'Type one.' })).toBe('$.a: found 3, expected a text. Type one.')
  })
})

test.each<[unknown, string]>([
  [undefined, 'nothing'],
  [null, 'null'],
  [true, 'true'],
  [1.5, '1.5'],
  [7n, '7'],
  [Number.NaN, 'NaN'],
  ['left', '"left"'],
  [[1, 2, 3], 'a list of 3'],
  [{ a: 1, b: 2 }, 'an object with 2 fields'],
  [() => 1, 'function'],
  [Symbol('a'), 'symbol'],
  // with its quotes 60 characters, and one more
  ['x'.repeat(58), `"${'x'.repeat(58)}"`],
  ['x'.repeat(59), `"${'x'.repeat(58)}…`],
])('%s is shown as %s', (value, shown) => {
  expect(showValue(value)).toBe(shown)
})

test.each<[readonly PropertyKey[], string]>([
  [[], '$'],
  [['parts', 3, 'at'], '$.parts[3].at'],
  [['heat-count', '3V3', '_a1'], '$["heat-count"]["3V3"]._a1'],
])('%j is written as %s', (steps, path) => {
  expect(jsonPath(steps)).toBe(path)
})

test('a value is found by its own fields alone', () => {
  const root = { parts: [{ at: 5 }] }
  expect(valueAt(root, ['parts', 0, 'at'])).toBe(5)
  expect(valueAt(root, [])).toBe(root)
  for (const steps of [['parts', 1, 'at'], ['parts', 0, 'at', 'x'], ['__proto__'], ['toString'], ['parts', 0, 'of']])
    expect(valueAt(root, steps)).toBeUndefined()
  expect(valueAt(null, ['a'])).toBeUndefined()
})

describe('what a schema refuses', () => {
  const schema = z.strictObject({
    side: z.enum(['top', 'bottom']).optional(),
    at: z.number().min(0).max(10).optional(),
    open: z.number().gt(0).lt(10).optional(),
    list: z.array(z.number()).min(1).max(2).optional(),
    text: z.string().min(2).max(3).optional(),
    object: z.object({ a: z.string() }).optional(),
    either: z
      .union([z.strictObject({ volume: z.number() }), z.strictObject({ smear: z.number(), of: z.string() })])
      .optional(),
    odd: z
      .number()
      .refine((value) => value % 2 === 1, { error: 'an odd number.' })
      .optional(),
  })
  const said = (input: unknown): string[] => {
    const parsed = schema.safeParse(input)
    return parsed.success ? [] : faultsFromZod(parsed.error, input).map(sayFault)
  }
  test.each<[unknown, string]>([
    [{ side: 'left' }, '$.side: found "left", expected top or bottom.'],
    [{ at: -1 }, '$.at: found -1, expected at least 0.'],
    [{ at: 11 }, '$.at: found 11, expected at most 10.'],
    [{ open: 0 }, '$.open: found 0, expected more than 0.'],
    [{ open: 10 }, '$.open: found 10, expected less than 10.'],
    [{ at: 'x' }, '$.at: found "x", expected a number.'],
    [{ object: 3 }, '$.object: found 3, expected an object.'],
    [{ object: {} }, '$.object.a: found nothing, expected a string.'],
    [{ list: [] }, '$.list: found a list of 0, expected at least 1 entries.'],
    [{ list: [1, 2, 3] }, '$.list: found a list of 3, expected at most 2 entries.'],
    [{ list: [1, 'b'] }, '$.list[1]: found "b", expected a number.'],
    [{ text: 'a' }, '$.text: found "a", expected at least 2 characters.'],
    [{ text: 'abcd' }, '$.text: found "abcd", expected at most 3 characters.'],
    [{ heigth: 3 }, '$.heigth: found 3, expected no such field. Remove it, or look for a slip in its name.'],
    // of two that it may be, the one with fewer faults is told
    [{ either: { volume: 'much' } }, '$.either.volume: found "much", expected a number.'],
    [{ odd: 2 }, '$.odd: found 2, expected an odd number.'],
  ])('%j: %s', (input, sentence) => {
    expect(said(input)).toEqual([sentence])
  })
  test('all of it at once, each by its path', () => {
    expect(said({ side: 'left', at: -1, heigth: 3, width: 4 }).map((each) => each.split(':')[0])).toEqual([
      '$.side',
      '$.at',
      '$.heigth',
      '$.width',
    ])
  })
})
