/**
 * Each hazard of the list stands at the station where it is met, under the condition that calls for it. Which hazards:
 * section 11 of the design (hot tools, flux fumes, lead, gallium alloys on skin and aluminium, solvent near heat, static,
 * mains and charged capacitors, powering a shorted card). Where each belongs: common practice, no source.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  CASE_VERSION,
  type Case,
  cautionsAt,
  cautionsDefer,
  cautionsOfCase,
  dangersAt,
  caseSchema,
  type Hazard,
  type Station,
  stationCautions,
  stations,
} from '../../src/case/index.ts'

const caseWith = (change: Partial<Record<keyof Case, unknown>>): Case =>
  caseSchema.parse({ format: 'liftmap-case', version: CASE_VERSION, title: 'x', board: { path: 'b.json' }, ...change })

const spillOf = (substance: string, id = substance) => ({
  kind: 'spill',
  id,
  side: 'top',
  at: { x: 1, y: 1 },
  sdMm: 2,
  substance,
  amount: { volumeMl: 1 },
})
const plain = caseWith({ arrival: { accident: 'slip' } })
const metal = caseWith({ arrival: { accident: 'spill' }, marks: [spillOf('gallium-indium')] })
const coolant = caseWith({ arrival: { accident: 'spill' }, marks: [spillOf('coolant-eg')] })
const shortSaid = caseWith({
  measurements: [{ line: { kind: 'rail', name: 'A' }, quantity: 'ohms', reading: { kind: 'short' }, typed: 'short' }],
})
const failed = caseWith({ handBack: { outcome: 'not repaired' } })

const has = (station: Station, hazard: Hazard, present: Case): boolean =>
  stationCautions(present).some((caution) => caution.station === station && caution.hazard === hazard)

describe('whatever the case', () => {
  test.each<[string, Hazard, readonly Station[]]>([
    ['powering a shorted card', 'power', ['arrival', 'powered-measuring', 'memory-run', 'proof']],
    ['mains', 'mains', ['powered-measuring', 'memory-run', 'proof']],
    ['charged capacitors', 'capacitor', ['cold-measuring', 'plan']],
    ['a slipping probe on live rails', 'live', ['powered-measuring']],
    ['static', 'static', ['arrival', 'cold-measuring', 'inspection', 'hand-back']],
    ['hot tools', 'hot', ['suspects', 'plan', 'proof']],
    ['flux fumes', 'fumes', ['plan']],
    ['lead', 'lead', ['plan']],
    ['solvent near heat', 'solvent', ['inspection', 'plan']],
    ['waste', 'waste', ['hand-back']],
    ['taking a model for the truth', 'model', ['suspects']],
  ])('%s is met at its stations', (_, hazard, at) => {
    for (const present of [plain, metal, coolant]) {
      const found = stations.filter((station) => has(station, hazard, present))
      expect(found).toEqual(expect.arrayContaining([...at]))
    }
  })

  test('every station defers to local rules and to people who are qualified', () => {
    for (const present of [plain, metal, coolant, shortSaid, failed]) {
      for (const station of stations) {
        const said = cautionsAt(station, present).at(-1) ?? ''
        expect({ station, said }).toEqual({ station, said: expect.stringMatching(/(rules).*(qualified)/) })
      }
    }
  })
})

describe('under its condition', () => {
  test.each<[string, Station, Hazard, Case, Case]>([
    ['liquid metal at inspection', 'inspection', 'gallium', metal, coolant],
    ['liquid metal at hand-back', 'hand-back', 'gallium', metal, coolant],
    ['what the substance does, at the spill', 'spill', 'substance', coolant, plain],
    ['liquid that boils under a part, at the plan', 'plan', 'moisture', coolant, metal],
    ['stuff that nobody has named, at arrival', 'arrival', 'substance', caseWith({}), coolant],
    ['stuff that nobody has named, at inspection', 'inspection', 'substance', caseWith({}), coolant],
    ['current sent into a short', 'cold-measuring', 'hot', shortSaid, plain],
    ['a card that goes back unrepaired', 'hand-back', 'power', failed, plain],
  ])('%s', (_, station, hazard, called, notCalled) => {
    expect([has(station, hazard, called), has(station, hazard, notCalled)]).toEqual([true, false])
  })

  test('liquid metal speaks of skin and of aluminium', () => {
    expect(cautionsAt('inspection', metal).join(' ')).toMatch(/gloves.*aluminium.*skin/i)
  })

  test('a substance of the user that eats aluminium is handled like liquid metal', () => {
    const own = {
      id: 'own',
      name: 'Own',
      moves: 'pinned',
      filmThicknessMm: { value: 0.1, source: 'from memory' },
      attacks: [{ what: 'aluminum', how: 'eats it', source: 'from memory' }],
    }
    expect(has('inspection', 'gallium', caseWith({ marks: [spillOf('own')], substances: [own] }))).toBe(true)
  })
})

const substances = fc.subarray([
  'coolant-eg',
  'coolant-pg',
  'water',
  'gallium-indium',
  'gallium-indium-tin',
  'flux-fresh',
  'nobody',
])

test('no sentence stands twice at one station, and none is longer than can be read in passing', () => {
  fc.assert(
    fc.property(substances, fc.constantFrom('spill', 'flux', 'slip', 'none', 'unknown'), (spilled, accident) => {
      const present = caseWith({ arrival: { accident }, marks: spilled.map((id) => spillOf(id)) })
      for (const station of stations) {
        const said = cautionsAt(station, present)
        expect(said).toEqual([...new Set(said)])
        for (const sentence of said) expect(sentence.length).toBeLessThan(260)
      }
    }),
    { seed: 1, numRuns: 100 },
  )
})

test('each caution names where it is from', () => {
  for (const { source } of stationCautions(metal)) expect(source).toMatch(/\w/)
})

test('printed together, each sentence is said once and the last one defers', () => {
  const said = cautionsOfCase(metal)
  expect(said).toEqual([...new Set(said)])
  expect(said.at(-1)).toBe(cautionsDefer)
  expect(cautionsOfCase(metal, ['suspects']).length).toBeLessThan(said.length)
})

test('each station says in one short line what is dangerous there, and no two stations say the same', () => {
  for (const present of [plain, metal, coolant, shortSaid, failed]) {
    const lines = stations.map((station) => dangersAt(station, present)).filter((line) => line !== undefined)
    expect(lines.length).toBeGreaterThanOrEqual(stations.length - 1)
    expect(lines).toEqual([...new Set(lines)])
    for (const line of lines) expect({ line, words: line.split(' ').length <= 16 }).toEqual({ line, words: true })
    for (const line of lines) expect(line).not.toMatch(/rules|qualified/)
  }
})

test('the line names liquid metal where there is some, and a short where current goes into one', () => {
  expect([dangersAt('inspection', metal), dangersAt('inspection', coolant)]).toEqual([
    expect.stringContaining('liquid metal'),
    expect.not.stringContaining('liquid metal'),
  ])
  expect(dangersAt('cold-measuring', shortSaid)).toContain('short')
  expect(dangersAt('spill', plain)).toBeUndefined()
})
