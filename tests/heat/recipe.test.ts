/** A recipe as it is printed is whole: set on a bench (here, in a run of its own) it gives the temperatures beside it. */
import { describe, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import {
  exposureFrom,
  handsOffUntilC,
  heatAssumptions,
  heatLines,
  type HeatRun,
  type HeatSetting,
  jointWindow,
  recipeWords,
  simulate,
} from '../../src/heat/index.ts'
import { boardWith, packageAt, thermal, value } from '../support/heat-board.ts'
import { liftOf } from '../support/kept-answers.ts'
import { shippedBoard } from '../support/read-board.ts'

const SHAPES = { round: 'round', square: 'square' } as const

/** What somebody sets who has the printed line and nothing else. */
function setAsPrinted(words: string, model: BoardModel): HeatSetting {
  const read = (pattern: RegExp): string[] => pattern.exec(words)?.slice(1) ?? []
  const [side = ''] = read(/^(Top|Bottom) side up\./)
  const [wide, long, plateC = '25'] = read(/Plate (?:(\d+) × (\d+) mm under it|under the whole board) at (\d+) °C\./)
  const [preheatS = '0'] = read(/[, ]air (\d+) s/)
  const [shape = '', sizeMm = '', x = '', y = ''] = read(/; (\w+) nozzle ([\d.]+) mm at x ([\d.]+), y ([\d.]+)\./)
  const [airC = ''] = read(/Air (\d+) °C/)
  const [fromC, overS] = read(/, from (\d+) °C up in (\d+) s;/)
  const [offS = ''] = read(/off (\d+) s/)
  const at = { x: Number(x), y: Number(y) }
  const shields = [...words.matchAll(/(\w+) under (tape|a heat sink)\./g)].map(([, ref = '', kind]) => ({
    ref,
    kind: kind === 'tape' ? ('tape' as const) : ('heat-sink' as const),
  }))
  expect(model.partByRef.size).toBeGreaterThan(0)
  return {
    side: side === 'Top' ? 'top' : 'bottom',
    preheatC: Number(plateC),
    preheatS: Number(preheatS),
    ...(wide === undefined ? {} : { preheater: { at, widthMm: Number(wide), lengthMm: Number(long) } }),
    airC: Number(airC),
    ...(fromC === undefined ? {} : { airRamp: { fromC: Number(fromC), overS: Number(overS) } }),
    airS: Number(offS) - Number(preheatS),
    nozzle: { name: 'as printed', shape: shape === 'round' ? SHAPES.round : SHAPES.square, sizeMm: Number(sizeMm) },
    at,
    shields,
  }
}

describe('set as printed', () => {
  const hitch = shippedBoard('hitch-12')
  const splice = shippedBoard('splice-6')
  test.each([
    ['the core of the 12-package board', hitch, hitch.core?.ref ?? ''],
    ['a memory package of the 12-package board', hitch, hitch.memories[4]?.ref ?? ''],
    ['a memory package of the 6-package board', splice, splice.memories[0]?.ref ?? ''],
  ])('%s gets as hot as is claimed, no faster', (_, model, ref) => {
    const claimed = liftOf(model, ref)
    const run = value(simulate(thermal(model, { cellMm: 1 }), setAsPrinted(recipeWords(claimed.setting), model)))
    const of = ({ parts }: HeatRun) => parts.find((part) => part.ref === ref)
    expect(of(run)?.jointPeakC).toBeCloseTo(of(claimed)?.jointPeakC ?? 0, 0)
    expect(of(run)?.coldestJointPeakC).toBeCloseTo(of(claimed)?.coldestJointPeakC ?? 0, 0)
    // J-STD-020 Table 5-2: at most 3 °C/s.
    expect(of(run)?.maxRampCPerS).toBeLessThanOrEqual(3)
  })
  test('a part can be lifted when that is said, and not much before', () => {
    const ref = hitch.core?.ref ?? ''
    const run = liftOf(hitch, ref)
    const { setting } = run
    const liftAtS = exposureFrom(run, ref).liftFromS ?? 0
    expect(liftAtS).toBeLessThan(setting.airS)
    const board = thermal(hitch, { cellMm: 1 })
    const coldestAt = (airS: number): number =>
      value(simulate(board, { ...setting, airS })).parts.find((part) => part.ref === ref)?.coldestJointPeakC ?? 0
    const { liquidusC } = heatAssumptions.alloys.SAC305
    expect(coldestAt(liftAtS)).toBeGreaterThanOrEqual(liquidusC - 0.5)
    expect(coldestAt(liftAtS - 10)).toBeLessThan(liquidusC)
    // on the card's clock, which starts with the plate
    expect(heatLines({ setting, liftFromS: liftAtS }).join(' ')).toContain(`all liquid ${setting.preheatS + liftAtS} s`)
  })
  // Solidus of each alloy: SAC305 217 °C, eutectic tin-lead 183 °C, Bi58Sn42 138 °C, from memory. A joint that is still
  // plastic is not touched: common practice, no source.
  test.each([
    ['SAC305', 217],
    ['Sn63Pb37', 183],
    ['Bi58Sn42', 138],
  ] as const)('a refit on %s is not touched before its joints are firm', (jointAlloy, solidusC) => {
    const untilC = handsOffUntilC([{ jointAlloy }])
    expect(untilC).toBeLessThanOrEqual(solidusC - 20)
    expect(untilC).toBeGreaterThan(solidusC - 50)
    expect(handsOffUntilC([{ jointAlloy }, { jointAlloy: 'Bi58Sn42' }])).toBeLessThan(138)
    const lines = heatLines({ setting: liftOf(hitch, hitch.core?.ref ?? '').setting, handsOffUntilC: untilC })
    expect(lines.join(' ')).toContain(`hands off until below ${untilC} °C`)
  })
  test('says the plate, the shields and air that comes at once', () => {
    const model = boardWith([packageAt('U1', 40, 35), packageAt('U2', 55, 35)])
    const setting: HeatSetting = {
      side: 'bottom',
      preheatC: 150,
      preheatS: 120,
      airC: 380,
      airS: 75,
      nozzle: { name: 'any', shape: 'round', sizeMm: 15 },
      at: { x: 40.25, y: 35 },
      shields: [{ ref: 'U2', kind: 'tape' }],
    }
    expect(recipeWords(setting)).toBe(
      'Bottom side up. Plate under the whole board at 150 °C. U2 under tape. Air 380 °C; round nozzle 15 mm at x 40.3, y 35. Plate 0 s, air 120 s, off 195 s.',
    )
    expect(setAsPrinted(recipeWords(setting), model)).toMatchObject({ airC: 380, airS: 75, preheatS: 120 })
  })
  // SAC305 is liquid at 220 °C (from memory). Lift: 3 K above it at the coldest, 37 K at the hottest joint; refit: 230 and
  // 250 °C, a rework station's profile: common practice, no source (heat/assumptions.json). A body as large as this core bears
  // 245 °C (J-STD-020, table 4-2), and its joints are part of it.
  test.each([
    ['lift', { liftFromS: 86 }, 'Coldest joint to 223 °C, hottest at most 245 °C'],
    [
      'refit',
      { handsOffUntilC: 180, short: 'A little less than usual.' },
      'Coldest joint to 230 °C, hottest at most 245 °C',
    ],
  ] as const)('is a card of at most six short lines that begins with the joints: %s', (purpose, more, first) => {
    const { setting } = liftOf(hitch, hitch.core?.ref ?? '')
    const parts = hitch.core === undefined ? [] : [hitch.core]
    const lines = heatLines({ setting, joints: jointWindow(parts, purpose), ...more })
    expect(lines[0]).toContain(first)
    expect(lines.length).toBeLessThanOrEqual(6)
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(90)
    expect(lines.filter((line) => line.startsWith('Air '))).toHaveLength(1)
  })
})
