/** The setting that lifts a part: what it promises holds in a run of its own; what can't be done is said. */
import { describe, expect, test } from 'vitest'
import {
  alloyOf,
  checkEquipment,
  defaultEquipment,
  type Equipment,
  exposureOf,
  findSetting,
  heatAssumptions,
  readEquipment,
  simulate,
  whatIfs,
} from '../../src/heat/index.ts'
import { boardWith, packageAt, thermal, twoPackages, value } from '../support/heat-board.ts'
import { liftOf } from '../support/kept-answers.ts'
import { shippedBoard } from '../support/read-board.ts'

const small: Equipment = { ...defaultEquipment, nozzles: defaultEquipment.nozzles.filter(({ sizeMm }) => sizeMm <= 32) }

function runFor(model: ReturnType<typeof twoPackages>, ref: string, nozzles = small.nozzles) {
  const answer = value(findSetting(model, { ref, equipment: { ...small, nozzles } }))
  if (!('run' in answer)) throw new Error(answer.cannot.join(' '))
  return answer.run
}

describe('a setting that is found', () => {
  test.each(['SAC305', 'Sn63Pb37', 'Bi58Sn42'] as const)(
    'lifts a package on %s inside of every limit, on a finer grid too',
    (jointAlloy) => {
      const model = boardWith([packageAt('U1', 40, 35, { jointAlloy }), packageAt('U2', 55, 35, { jointAlloy })])
      const { setting } = runFor(model, 'U1')
      const check = value(simulate(thermal(model, { cellMm: 0.5 }), setting))
      const heat = check.parts.find(({ ref }) => ref === 'U1')
      const { liquidusC } = heatAssumptions.alloys[jointAlloy]
      // Every joint is liquid, for the 30 s that it takes to wet again (common practice, no source); ramp and the longest
      // time above liquidus: J-STD-020D/E Table 5-2. Two kelvin and three seconds are left to the grid.
      expect(heat?.coldestJointPeakC).toBeGreaterThan(liquidusC + 1)
      expect(heat?.jointPeakC).toBeLessThan(liquidusC + 39)
      expect(heat?.maxRampCPerS).toBeLessThanOrEqual(3.1)
      expect(heat?.coldestAboveLiquidusS).toBeGreaterThan(27)
      expect(heat?.aboveLiquidusS).toBeLessThan(153)
      expect(heat?.overLimit).toBe(false)
      expect(setting.airC).toBeLessThanOrEqual(small.hotAir.maxC)
      expect(setting.preheatC).toBeLessThanOrEqual(small.preheater.maxC)
      expect(setting.preheatS + setting.airS).toBeLessThanOrEqual(480)
    },
  )

  test('lifts a memory package of the 12-package board', () => {
    const model = shippedBoard('hitch-12')
    for (const ref of ['U12']) {
      const heat = liftOf(model, ref).parts.find((part) => part.ref === ref)
      const part = model.partByRef.get(ref)
      if (part === undefined) throw new Error(`no part ${ref}`)
      expect(heat?.coldestJointPeakC).toBeGreaterThan(heatAssumptions.alloys[alloyOf(part.description)].liquidusC + 2)
    }
  })
})

describe('what can’t be done is said, with what is missing', () => {
  const model = twoPackages()
  test.each([
    [
      'weak air and no preheat',
      { preheater: { ...small.preheater, maxC: 60 }, hotAir: { minC: 100, maxC: 200 } },
      /coldest joint reaches/,
    ],
    [
      'a nozzle much too small',
      {
        nozzles: [{ name: 'needle', shape: 'round' as const, sizeMm: 2 }],
        preheater: { ...small.preheater, maxC: 120 },
      },
      /missing/,
    ],
  ])('%s', (_, change, message) => {
    const answer = value(findSetting(model, { ref: 'U1', equipment: { ...small, ...change } }))
    expect('cannot' in answer ? answer.cannot.join(' ') : 'a run').toMatch(message)
  })
  test('an exposure that can’t be had is a fault with the same words', () => {
    const weak = { ...small, hotAir: { minC: 100, maxC: 150 } }
    const result = exposureOf(model, { target: 'U1', equipment: weak })
    expect(result.ok ? '' : (result.faults[0]?.todo ?? '')).toMatch(/missing/)
  })
  test('an unknown ref', () => {
    const result = findSetting(model, { ref: 'U99', equipment: small })
    expect(result.ok ? '' : result.faults[0]?.path).toBe('$.ref')
  })
})

test('an exposure names every other part once, and shielding lowers the shielded one', () => {
  const model = twoPackages()
  const plain = value(exposureOf(model, { target: 'U1', equipment: small }))
  expect(plain.neighbours.map(({ ref }) => ref)).toEqual(['U2'])
  expect(plain.minutes).toBeGreaterThan((plain.setting.preheatS + plain.setting.airS) / 60)
  const now = runFor(model, 'U1')
  const answers = whatIfs(model, { target: 'U1', equipment: small, run: now })
  expect(answers.map(({ kind }) => kind)).toEqual(['tape', 'heat-sink', 'more-preheat', 'smaller-nozzle', 'other-side'])
  const peak = plain.neighbours[0]?.jointPeakC ?? 0
  for (const { run } of answers.slice(0, 2)) {
    expect(run?.parts.find(({ ref }) => ref === 'U2')?.jointPeakC).toBeLessThan(peak)
  }
  for (const { sentence } of answers) expect(sentence.length).toBeGreaterThan(10)
  // each says what it changes, and changes that: 30 °C more preheat as far as the plate goes, the next smaller nozzle
  const preheatC = Math.min(small.preheater.maxC, now.setting.preheatC + 30)
  const smaller = small.nozzles
    .filter(({ sizeMm }) => sizeMm < now.setting.nozzle.sizeMm)
    .toSorted((a, b) => b.sizeMm - a.sizeMm)[0]
  expect(answers.map(({ title }) => title)).toEqual([
    'U2 under tape',
    'U2 under a heat sink',
    `preheat at ${preheatC} °C`,
    smaller === undefined ? 'a smaller nozzle' : `nozzle ${smaller.name}`,
    'air from the bottom',
  ])
  const [tape, sink, warmer, , otherSide] = answers
  expect([tape?.setting?.shields, sink?.setting?.shields]).toEqual([
    [{ ref: 'U2', kind: 'tape' }],
    [{ ref: 'U2', kind: 'heat-sink' }],
  ])
  expect(warmer?.setting?.preheatC).toBe(preheatC)
  expect(now.setting.side).toBe('top')
  expect(otherSide?.setting?.side).toBe('bottom')
})

test('a board that is narrower than some nozzles is worked on with the others', () => {
  const model = boardWith([packageAt('U1', 25, 15)], {
    outline: [
      { x: 0, y: 0 },
      { x: 50, y: 0 },
      { x: 50, y: 30 },
      { x: 0, y: 30 },
    ],
  })
  expect(liftOf(model, 'U1').setting.nozzle.sizeMm).toBeLessThanOrEqual(30)
})

// A wide nozzle blows on what stands beside the part: common practice, no source. 12 × 14 mm under 16 mm or under 30 mm.
test('of two nozzles that cover a part the narrow one is taken, in whichever order they lie in the drawer', () => {
  const model = boardWith([packageAt('U1', 40, 35)])
  const nozzles = [30, 16].map((sizeMm) => ({ name: `square ${sizeMm}`, shape: 'square' as const, sizeMm }))
  for (const drawer of [nozzles, nozzles.toReversed()])
    expect(runFor(model, 'U1', drawer).setting.nozzle.sizeMm).toBe(16)
})

test('a part off the board can’t be lifted, and that is said', () => {
  const model = boardWith([packageAt('U1', 40, 35), packageAt('U2', 500, 35)])
  const found = findSetting(model, { ref: 'U2', equipment: small })
  expect(found.ok ? '' : found.faults[0]?.expected).toBe('a part that stands on the board')
})

describe('equipment that contradicts itself', () => {
  const faults = (input: unknown): string => {
    const read = readEquipment(input)
    return read.ok ? '' : read.faults.map(({ path, found }) => `${path} ${found}`).join('; ')
  }
  test.each([
    ['preheater', { ...small, preheater: { ...small.preheater, minC: 300, maxC: 200 } }, /preheater.minC 300/],
    ['hot air', { ...small, hotAir: { minC: 400, maxC: 300 } }, /hotAir.minC 400/],
    ['no nozzle', { ...small, nozzles: [] }, /nozzles no nozzle/],
    ['a nozzle of no size', { ...small, nozzles: [{ name: 'a', shape: 'round', sizeMm: 0 }] }, /sizeMm 0/],
    ['two nozzles of one name', { ...small, nozzles: [small.nozzles[0], small.nozzles[0]] }, /nozzles\[1\].name/],
  ])('%s', (_, input, message) => {
    expect(faults(input)).toMatch(message)
  })
  test('all at once, each with its own message', () => {
    const both = { ...small, hotAir: { minC: 400, maxC: 300 }, nozzles: [] }
    expect(faults(both).split('; ')).toHaveLength(2)
  })
  test('no nozzle that is smaller than the board', () => {
    const nozzles = [{ name: 'huge', shape: 'square' as const, sizeMm: 75 }]
    expect(checkEquipment(twoPackages(), { ...small, nozzles })[0]?.path).toBe('$.nozzles[0].sizeMm')
    expect(checkEquipment(twoPackages(), { ...small, nozzles: [...nozzles, ...small.nozzles] })).toEqual([])
  })
  test('the shipped equipment is sound', () => {
    expect(readEquipment(defaultEquipment).ok).toBe(true)
  })
})
