/** What a log and the rows of a plan may hold: the least and the most of each, and one step beyond. */
import { describe, expect, test } from 'vitest'
import {
  benchTickSchema,
  benchTicksSchema,
  passEntrySchema,
  passLogSchema,
  plannedRowSchema,
} from '../../src/plan/index.ts'

describe('a log', () => {
  const entry = { action: 'lift', refs: ['U2'], outcome: 'done' }
  const isEntry = (more: object): boolean => passEntrySchema.safeParse({ ...entry, ...more }).success
  const many = (count: number, of: (i: number) => unknown = (i) => `U${i}`): unknown[] =>
    Array.from({ length: count }, (_, i) => of(i))
  test.each<[string, object, object]>([
    ['names from one', { refs: ['U2'] }, { refs: [] }],
    ['to eight parts', { refs: many(8) }, { refs: many(9) }],
    ['by a ref of at least one letter', { refs: ['U'] }, { refs: [''] }],
    ['and of at most 120', { refs: ['U'.repeat(120)] }, { refs: ['U'.repeat(121)] }],
    ['has a peak from 0 °C', { peakC: 0 }, { peakC: -1 }],
    ['to 600 °C', { peakC: 600 }, { peakC: 601 }],
    [
      'and those of up to 200 others',
      { measured: many(200, () => ({ ref: 'U3', peakC: 200 })) },
      { measured: many(201, () => ({ ref: 'U3', peakC: 200 })) },
    ],
    [
      'says what lay under up to eight',
      { found: many(8, () => ({ ref: 'U2', what: ['wet'] })) },
      { found: many(9, () => ({ ref: 'U2', what: ['wet'] })) },
    ],
    ['one thing at least', { found: [{ ref: 'U2', what: ['clean'] }] }, { found: [{ ref: 'U2', what: [] }] }],
    [
      'and five at most',
      { found: [{ ref: 'U2', what: many(5, () => 'wet') }] },
      { found: [{ ref: 'U2', what: many(6, () => 'wet') }] },
    ],
    [
      'of those that there are',
      { found: [{ ref: 'U2', what: ['torn-pad'] }] },
      { found: [{ ref: 'U2', what: ['dry'] }] },
    ],
    ['with a note of at most 2000 letters', { note: 'a'.repeat(2000) }, { note: 'a'.repeat(2001) }],
    ['and when', { on: '2026-01-02T03:04:05Z' }, { on: 'today' }],
    ['and nothing else', {}, { colour: 'red' }],
  ])('%s', (_, taken, refused) => {
    expect([isEntry(taken), isEntry(refused)]).toEqual([true, false])
  })
  test('of passes holds up to a thousand; what is left out is nothing measured, nothing found, nothing new', () => {
    expect(passLogSchema.safeParse(many(1000, () => entry)).success).toBe(true)
    expect(passLogSchema.safeParse(many(1001, () => entry)).success).toBe(false)
    expect(passLogSchema.parse([entry])).toEqual([{ ...entry, measured: [], found: [], replaced: false }])
  })

  const tick = { action: 'wash', refs: ['U2'], outcome: 'done', minutes: 10, afterPasses: 0 }
  const isTick = (more: object): boolean => benchTickSchema.safeParse({ ...tick, ...more }).success
  test.each<[string, object, object]>([
    ['for one part at least', { refs: ['U2'] }, { refs: [] }],
    ['and 200 at most', { refs: many(200) }, { refs: many(201) }],
    ['takes no time', { minutes: 0 }, { minutes: -1 }],
    ['or a week of it', { minutes: 10_000 }, { minutes: 10_001 }],
    ['takes care of up to 2000 marks', { marks: many(2000) }, { marks: many(2001) }],
    ['by their ids', { marks: ['m'] }, { marks: [''] }],
    ['of 80 letters', { marks: ['m'.repeat(80)] }, { marks: ['m'.repeat(81)] }],
    ['before any pass', { afterPasses: 0 }, { afterPasses: -1 }],
    ['or after all of them', { afterPasses: 1000 }, { afterPasses: 1001 }],
    ['done or skipped', { outcome: 'skipped' }, { outcome: 'failed' }],
    ['and nothing else', { on: '2026-01-02T03:04:05Z' }, { colour: 'red' }],
  ])('of bench work %s', (_, taken, refused) => {
    expect([isTick(taken), isTick(refused)]).toEqual([true, false])
  })
  test('of bench work holds up to a thousand', () => {
    expect([1000, 1001].map((count) => benchTicksSchema.safeParse(many(count, () => tick)).success)).toEqual([
      true,
      false,
    ])
  })

  const row = { n: 1, action: 'wash', refs: ['U2'] }
  test.each<[string, object, object]>([
    ['from 1', { n: 1 }, { n: 0 }],
    ['to 10,000', { n: 10_000 }, { n: 10_001 }],
    ['for none', { refs: [] }, { refs: [''] }],
    ['to 200 parts', { refs: many(200) }, { refs: many(201) }],
    ['that may be new', { isNew: true }, { isNew: 'yes' }],
    ['and nothing else', {}, { colour: 'red' }],
  ])('keeps rows of a plan %s', (_, taken, refused) => {
    const isRow = (more: object): boolean => plannedRowSchema.safeParse({ ...row, ...more }).success
    expect([isRow(taken), isRow(refused)]).toEqual([true, false])
  })
})
