/** A number means the same in every field that somebody types into. */
import { describe, expect, test } from 'vitest'
import { readTypedNumber } from '../../src/base/index.ts'

// Point or comma as decimal sign, thin spaces between groups: ISO 80000-1, "Quantities and units, part 1: general" (from
// memory). Commas, points and apostrophes between groups: common practice, no source.
describe('a typed number', () => {
  test.each([
    ['1.5', 1.5],
    ['1,5', 1.5],
    ['.5', 0.5],
    [',5', 0.5],
    ['12.', 12],
    ['12,', 12],
    ['1.200', 1.2],
    ['0,125', 0.125],
    ['1 200', 1200],
    ['1\u202f200,50', 1200.5],
    ['1,234.5', 1234.5],
    ['1.234,5', 1234.5],
    ['1,234,567', 1_234_567],
    ["1'200", 1200],
    ['\u22123', -3],
    ['-0,5', -0.5],
    ['2e3', 2000],
    ['  7 ', 7],
  ])('%s is %d', (typed, value) => {
    expect(readTypedNumber(typed)).toEqual({ ok: true, value })
  })

  test('with one comma and three digits behind it may be one or the other, and is asked about', () => {
    const read = readTypedNumber('1,200')
    expect(read.ok).toBe(false)
    expect(!read.ok && read.todo).toMatch(/type 1\.200 or 1200/)
  })

  test('is a decimal one there where thousands make no sense', () => {
    expect(readTypedNumber('1,200', { neverThousands: true })).toEqual({ ok: true, value: 1.2 })
  })

  test.each([
    '',
    ' ',
    '-',
    ',',
    '1.2.3',
    '1,2,3',
    '1 2',
    'abc',
    '0x10',
    'Infinity',
    'NaN',
    '12 mm',
    '1e',
    '--1',
    '1e999',
  ])('“%s” is none', (typed) => {
    expect(readTypedNumber(typed).ok).toBe(false)
  })

  test('is read back as it is written by the machine, whatever its size', () => {
    for (const value of [0, -0.25, 1e-7, 123_456.789, 2 ** 40, 0.1 + 0.2]) {
      expect(readTypedNumber(String(value))).toEqual({ ok: true, value })
    }
  })
})
