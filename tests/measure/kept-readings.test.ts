/** What a case keeps of readings, power and hunts: the least and the most of each field, and what a clean spot takes care of. */
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import {
  goodReadingsSchema,
  leadsSchema,
  lineSchema,
  measurementSchema,
  powerCaution,
  powerUpSchema,
  type SeenMark,
  shortHuntSchema,
  supplySchema,
} from '../../src/measure/index.ts'

const line = { kind: 'rail', name: 'VMEM' } as const
const measurement = { line, quantity: 'ohms', reading: { kind: 'value', value: 62 }, typed: '62' } as const
const at = { x: 1, y: 2 }
const hunt = { id: 'h', rail: 'VMEM', side: 'top', currentA: 1, sourceAt: at } as const
const power = { verdict: 'not-safe', reasons: [], against: 'why' } as const
const manyReadings = (count: number) => Array.from({ length: count }, () => ({ at, millivolt: 1 }))
const long = (count: number): string => 'a'.repeat(count)

test.each<[string, z.ZodType, object, object]>([
  ['a name of 1 to 120 characters', lineSchema, { ...line, name: long(120) }, { ...line, name: long(121) }],
  ['a name at all', lineSchema, { ...line, name: 'a' }, { ...line, name: '' }],
  [
    '80 characters as typed',
    measurementSchema,
    { ...measurement, typed: long(80) },
    { ...measurement, typed: long(81) },
  ],
  [
    '200 characters of a meter’s name',
    measurementSchema,
    { ...measurement, meter: long(200) },
    { ...measurement, meter: long(201) },
  ],
  [
    'an instant in UTC',
    measurementSchema,
    { ...measurement, at: '2026-03-14T10:00:00Z' },
    { ...measurement, at: '14 March' },
  ],
  ['no fields that nobody knows', measurementSchema, measurement, { ...measurement, colour: 'red' }],
  ['leads of 0 Ω or more', leadsSchema, { kind: 'two-wire', ohm: 0 }, { kind: 'two-wire', ohm: -0.01 }],
  ['leads of 10 Ω at most', leadsSchema, { kind: 'two-wire', ohm: 10 }, { kind: 'two-wire', ohm: 10.01 }],
  [
    '200 reasons',
    powerUpSchema,
    { ...power, reasons: Array(200).fill('a') },
    { ...power, reasons: Array(201).fill('a') },
  ],
  ['reasons of 500 characters', powerUpSchema, { ...power, reasons: [long(500)] }, { ...power, reasons: [long(501)] }],
  ['200 keys', powerUpSchema, { ...power, keys: Array(200).fill('a') }, { ...power, keys: Array(201).fill('a') }],
  ['keys of 500 characters', powerUpSchema, { ...power, keys: [long(500)] }, { ...power, keys: [long(501)] }],
  ['a reason of 2000 characters', powerUpSchema, { ...power, against: long(2000) }, { ...power, against: long(2001) }],
  ['a reason that says something', powerUpSchema, power, { ...power, against: '  ' }],
  [
    'no reason where nothing spoke against it',
    powerUpSchema,
    { verdict: 'safe', reasons: [] },
    { verdict: 'not-known', reasons: [] },
  ],
  ['a current above 0 A', shortHuntSchema, { ...hunt, currentA: 0.001 }, { ...hunt, currentA: 0 }],
  ['a current of 100 A at most', shortHuntSchema, { ...hunt, currentA: 100 }, { ...hunt, currentA: 100.1 }],
  [
    'readings of 100 V at most',
    shortHuntSchema,
    { ...hunt, readings: [{ at, millivolt: 100_000 }] },
    { ...hunt, readings: [{ at, millivolt: 100_001 }] },
  ],
  [
    'readings of -100 V at least',
    shortHuntSchema,
    { ...hunt, readings: [{ at, millivolt: -100_000 }] },
    { ...hunt, readings: [{ at, millivolt: -100_001 }] },
  ],
  ['500 readings', shortHuntSchema, { ...hunt, readings: manyReadings(500) }, { ...hunt, readings: manyReadings(501) }],
  ['noise above 0', shortHuntSchema, { ...hunt, noiseMillivolt: 0.001 }, { ...hunt, noiseMillivolt: 0 }],
  ['noise of 1 V at most', shortHuntSchema, { ...hunt, noiseMillivolt: 1000 }, { ...hunt, noiseMillivolt: 1000.1 }],
  ['a square above 0 mΩ', shortHuntSchema, { ...hunt, sheetMilliohm: 0.001 }, { ...hunt, sheetMilliohm: 0 }],
  ['a square of 1 Ω at most', shortHuntSchema, { ...hunt, sheetMilliohm: 1000 }, { ...hunt, sheetMilliohm: 1000.1 }],
  [
    'good readings of 0 or more',
    goodReadingsSchema,
    { line, quantity: 'ohms', values: [0] },
    { line, quantity: 'ohms', values: [-1] },
  ],
  [
    'one good reading at least',
    goodReadingsSchema,
    { line, quantity: 'ohms', values: [1] },
    { line, quantity: 'ohms', values: [] },
  ],
  [
    '1000 good readings',
    goodReadingsSchema,
    { line, quantity: 'ohms', values: Array(1000).fill(1) },
    { line, quantity: 'ohms', values: Array(1001).fill(1) },
  ],
])('keeps %s', (_, schema, kept, refused) => {
  expect([schema.safeParse(kept).success, schema.safeParse(refused).success]).toEqual([true, false])
})

test('what is left out is before the work, joined by a fuse, with a meter that shows 0.02 mV', () => {
  expect(measurementSchema.parse(measurement).phase).toBe('before')
  expect(supplySchema.parse({ name: 'slot', rail: '12V' }).joined).toBe(true)
  expect(shortHuntSchema.parse(hunt)).toEqual({ ...hunt, readings: [], noiseMillivolt: 0.02 })
})

test('power against a verdict asks for its reason by name', () => {
  const parsed = powerUpSchema.safeParse({ verdict: 'not-safe', reasons: [] })
  expect(parsed.error?.issues.map(({ path, message }) => [path, message])).toEqual([
    [['against'], 'a typed reason where power was given against the verdict'],
  ])
})

test('whatever is described is described in words', () => {
  const schemas = [measurementSchema, supplySchema, leadsSchema, powerUpSchema, shortHuntSchema, goodReadingsSchema]
  const said = JSON.stringify(schemas.map((schema) => z.toJSONSchema(schema, { io: 'input' })))
  const described = [...said.matchAll(/"description":"([^"]*)"/g)].map(([, words = '']) => words)
  expect(described.length).toBeGreaterThan(15)
  expect(described.filter((words) => !/\w+ \w+/.test(words))).toEqual([])
})

describe('a clean spot takes care of', () => {
  const spill = { kind: 'spill', side: 'top', at: { x: 30, y: 30 } } as const
  const clean = { kind: 'clean', side: 'top', at: { x: 30, y: 30 } } as const
  const path = [
    { x: 10, y: 10 },
    { x: 20, y: 10 },
    { x: 20, y: 20 },
  ]
  const square = [
    { x: 0, y: 0 },
    { x: 10, y: 0 },
    { x: 10, y: 10 },
    { x: 0, y: 10 },
  ]
  test.each<[string, SeenMark, SeenMark, boolean]>([
    ['a spill whose point is sure, of any width', spill, clean, true],
    ['no spill elsewhere', spill, { ...clean, at: { x: 30.01, y: 30 } }, false],
    ['a spill on its rim', spill, { ...clean, at: { x: 30, y: 33 }, radiusMm: 3 }, true],
    ['no spill beyond its rim', spill, { ...clean, at: { x: 30, y: 33.1 }, radiusMm: 3 }, false],
    ['none that has no place', { kind: 'spill', side: 'top' }, { ...clean, radiusMm: 99 }, false],
    ['a path that it was swept along', { ...spill, path }, { ...clean, path }, true],
    ['no path of which it left the end', { ...spill, path }, { ...clean, path: path.slice(0, 2) }, false],
    [
      'a place between two points of its path',
      { ...spill, at: { x: 15, y: 11 } },
      { ...clean, path, radiusMm: 1 },
      true,
    ],
    [
      'no place between the ends of its path',
      { ...spill, at: { x: 15, y: 15 } },
      { ...clean, path, radiusMm: 1 },
      false,
    ],
    ['a film that its brush is as wide as', { ...spill, kind: 'film', radiusMm: 3 }, { ...clean, radiusMm: 3 }, true],
    [
      'no film that is wider than its brush',
      { ...spill, kind: 'film', radiusMm: 3 },
      { ...clean, radiusMm: 2.9 },
      false,
    ],
    [
      'an outline, however narrow the brush',
      { ...spill, kind: 'film', radiusMm: 3, outline: square },
      { ...clean, at: { x: 5, y: 5 }, radiusMm: 7.1 },
      true,
    ],
    [
      'what lies on the line that closes its outline',
      { ...spill, at: { x: 0, y: 5 } },
      { ...clean, outline: square },
      true,
    ],
    ['nothing beside its outline', { ...spill, at: { x: -0.02, y: 5 } }, { ...clean, outline: square }, false],
    ['nothing that a mark of another kind lies on', spill, { ...clean, kind: 'film', radiusMm: 9 }, false],
  ])('%s', (_, mark, later, isGone) => {
    const kinds = powerCaution({ marks: [mark, later] }, undefined).map(({ key }) => key)
    expect(kinds.includes(mark.kind === 'film' ? 'dirt 1' : 'spills 1')).toBe(!isGone)
  })
})
