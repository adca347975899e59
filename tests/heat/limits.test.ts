/** Limits and minutes of a pass from both sides, worked by hand, without a run. */
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import type { PlacedPart } from '../../src/board/index.ts'
import {
  bodyLimitOf,
  defaultEquipment,
  exposureFrom,
  type HeatRun,
  heatCautions,
  isNearHarm,
  jointWindow,
  type PartHeat,
  readEquipment,
} from '../../src/heat/index.ts'
import { boardWith, packageAt, settingAt } from '../support/heat-board.ts'

function placed(more: object): PlacedPart {
  const [part] = boardWith([packageAt('U1', 40, 35, more)]).parts
  if (part === undefined) throw new Error('no part')
  return part
}

const heat = (ref: string, more: Partial<PartHeat> = {}): PartHeat => ({
  ref,
  jointPeakC: 230,
  bodyPeakC: 235,
  aboveLiquidusS: 40,
  maxRampCPerS: 1,
  melts: true,
  overLimit: false,
  bodyLimitC: 260,
  remarks: [],
  ...more,
})
const runOf = (...parts: readonly PartHeat[]): HeatRun => ({
  setting: settingAt(40, 35, { preheatS: 120, airS: 60 }),
  grid: { originXMm: 0, originYMm: 0, cellMm: 1, columns: 1, rows: 1 },
  frames: [],
  curves: [],
  parts,
  energy: { inJ: 0, storedJ: 0, lostJ: 0 },
  notes: [],
})

describe('what a pass takes and when it lifts', () => {
  // 6 min around it (placing, lifting, waiting until it can be touched; common practice, no source) + 120 s + 60 s
  test('120 s of preheat and 60 s of air take 9 minutes', () => {
    expect(exposureFrom(runOf(heat('U1')), 'U1').minutes).toBe(9)
  })
  test.each<[string, readonly PartHeat[], number | undefined]>([
    ['liquid 150.2 s after the start is 31 s of air', [heat('U1', { liquidFromS: 150.2 })], 31],
    ['liquid with 150 s is 30 s of air', [heat('U1', { liquidFromS: 150 })], 30],
    ['liquid before the air came', [heat('U1', { liquidFromS: 100 })], 0],
    ['never liquid', [heat('U1', { liquidFromS: undefined })], undefined],
    ['of two the later', [heat('U1', { liquidFromS: 150 }), heat('U2', { liquidFromS: 161 })], 41],
    ['of two one never', [heat('U1', { liquidFromS: 150 }), heat('U2')], undefined],
  ])('%s', (_, parts, seconds) => {
    const refs = parts.map(({ ref }) => ref)
    expect(exposureFrom(runOf(...parts), ...refs).liftFromS).toBe(seconds)
  })
  test('all but the targets are neighbours', () => {
    const exposure = exposureFrom(runOf(heat('U1'), heat('U2'), heat('U3')), 'U1', 'U3')
    expect(exposure.neighbours.map(({ ref }) => ref)).toEqual(['U2'])
    expect(exposure.target).toBe('U1 U3')
  })
})

describe('the window of the joints', () => {
  // SAC305 is liquid at 220 °C, Sn63Pb37 at 183 °C (published tables of solder alloys). To lift: 3 to 37 K above it; to refit 10 to 30 K, in a
  // cooler window from 5 K on (common practice, no source).
  test.each([
    ['SAC305', 'lift', 223, 257],
    ['SAC305', 'refit', 230, 250],
    ['SAC305', 'cooler refit', 225, 250],
    ['Sn63Pb37', 'lift', 186, 220],
    ['Sn63Pb37', 'refit', 193, 213],
  ] as const)('%s, %s: %i to %i °C', (jointAlloy, purpose, coldestLeastC, hottestMostC) => {
    expect(jointWindow([placed({ jointAlloy })], purpose)).toEqual({ coldestLeastC, hottestMostC })
  })
  test('of several parts the strictest on either side', () => {
    const both = [placed({ jointAlloy: 'SAC305' }), placed({ jointAlloy: 'Sn60Pb40' })]
    // Sn60Pb40 is liquid at 191 °C
    expect(jointWindow(both, 'lift')).toEqual({ coldestLeastC: 223, hottestMostC: 228 })
  })
})

describe('what a body bears', () => {
  // J-STD-020 (as in standards.test.ts): thin and small 260, thick and large 245, with tin-lead 220; others 260, stated
  test.each<[string, object, number]>([
    ['a memory package, 185 mm³, 1.1 mm', {}, 260],
    ['a core, 40 × 40 × 2.8 mm', { kind: 'core', body: { widthMm: 40, lengthMm: 40, heightMm: 2.8 } }, 245],
    [
      'the same with tin-lead joints',
      { kind: 'core', body: { widthMm: 40, lengthMm: 40, heightMm: 2.8 }, jointAlloy: 'Sn63Pb37' },
      220,
    ],
    ['a power stage, 6 × 5 × 3 mm', { kind: 'power-stage', body: { widthMm: 6, lengthMm: 5, heightMm: 3 } }, 250],
    ['a controller, 6 × 6 × 3 mm', { kind: 'controller', body: { widthMm: 6, lengthMm: 6, heightMm: 3 } }, 250],
    ['a connector, however large', { kind: 'connector', body: { widthMm: 90, lengthMm: 8, heightMm: 10 } }, 260],
    ['what its file says, where that is less', { maxBodyC: 230 }, 230],
    ['and its class, where that is less', { maxBodyC: 300 }, 260],
    ['a connector with a limit of its own', { kind: 'connector', maxBodyC: 245 }, 245],
  ])('%s', (_, more, limitC) => {
    expect(bodyLimitOf(placed(more))).toBe(limitC)
  })
  test('within 20 K of it a part is named, and one whose joints may crack', () => {
    expect(isNearHarm(heat('U1', { bodyPeakC: 240 }))).toBe(false)
    expect(isNearHarm(heat('U1', { bodyPeakC: 240.1 }))).toBe(true)
    expect(isNearHarm(heat('U1', { bodyPeakC: 100, mayCrack: true }))).toBe(true)
    expect(isNearHarm(heat('U1', { bodyPeakC: 100, mayCrack: false }))).toBe(false)
  })
})

describe('limits of the bench', () => {
  const { preheater, hotAir, nozzles } = defaultEquipment
  const said = (equipment: unknown): string => {
    const read = readEquipment(equipment)
    return read.ok ? '' : read.faults.map(sayFault).join('\n')
  }
  test('that meet contradict nothing; a preheater below the room, 25 °C, does', () => {
    expect(said({ preheater: { ...preheater, minC: 320 }, hotAir: { minC: 450, maxC: 450 }, nozzles })).toBe('')
    expect(said({ preheater: { ...preheater, minC: 20, maxC: 25 }, hotAir, nozzles })).toBe('')
    expect(said({ preheater: { ...preheater, minC: 20, maxC: 24 }, hotAir, nozzles })).toMatch(
      /^\$\.preheater\.maxC: found 24 °C, expected more than the room, 25 °C/,
    )
  })
})

describe('cautions of hot work', () => {
  const on = (more: object) => heatCautions(settingAt(40, 35), boardWith([packageAt('U1', 40, 35, more)]))
  test.each([
    ['hot', /Air leaves at 350 °C and the plate is at 240 °C/],
    ['fumes', /work under extraction/],
    ['solvent', /catches fire from 12 °C up/],
    ['capacitor', /discharged before hot work/],
    ['moisture', /boils and tears it/],
    ['model', /not measured: put a thermocouple at a corner joint/],
    ['rules', /Local rules .* take precedence/],
  ] as const)('%s', (hazard, words) => {
    expect(
      on({})
        .filter((each) => each.hazard === hazard)
        .map(({ sentence }) => sentence)
        .join(' '),
    ).toMatch(words)
  })
  test('of lead: as a fact, as a possibility where no alloy is known, else none', () => {
    const said = (more: object): string | undefined => on(more).find(({ hazard }) => hazard === 'lead')?.sentence
    expect(said({ jointAlloy: 'Sn63Pb37' })).toMatch(/Joints on this board hold lead/)
    expect(said({ jointAlloy: undefined })).toMatch(/may hold lead/)
    expect(said({ jointAlloy: 'SAC305' })).toBeUndefined()
  })
})
