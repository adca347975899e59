/** Where the probes go for a point of a stage, and what a caution of power holds. */
import { describe, expect, test } from 'vitest'
import { judgePower, lineKey, lineVerdicts, powerCaution, type SeenMark } from '../../src/measure/index.ts'
import { readBoard } from '../../src/board/index.ts'
import { smallBoard } from '../support/small-board.ts'
import { lineOf, measured } from './measured.ts'

/** The stage of the small board, its second pad of that name. */
function boardWithPin(signal: string) {
  const file = smallBoard()
  const parts = file.parts.map((part) =>
    part.ref === 'S1' ? { ...part, pads: part.pads?.map((pad, i) => (i === 1 ? { ...pad, signal } : pad)) } : part,
  )
  const read = readBoard(JSON.stringify({ ...file, parts }))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.value
}

function probedAt(signal: string, point: string): string | undefined {
  const verdicts = lineVerdicts(boardWithPin(signal), { measurements: [], goodReadings: [] }, 'ohms', 'before')
  return verdicts.find(({ line }) => lineKey(line.line) === lineKey(lineOf(`S1 ${point}`)))?.line.points[0]?.words
}

describe('a pin of a stage', () => {
  // names of the pins of driver stages as their data sheets have them: common practice, no source
  test.each([
    ['input', ['VIN', 'PVIN', 'IN', 'VI', 'VIN1', 'VIN_A', 'PVIN-12', 'vin']],
    ['switch', ['SW', 'LX', 'PH', 'PHASE', 'VSWH', 'SW1', 'LX_A', 'PH-12', 'sw']],
    ['driver', ['VDRV', 'VCCD', 'VCC', 'PVCC', 'VDD', '5V', 'V5V', 'VCC1', 'VDD_A', 'VCC-12', 'vdrv']],
    ['enable', ['EN', 'EN1', 'EN_A', 'EN_12', 'ENABLE', 'enable', 'DISB#', 'DISB']],
    ['pwm', ['PWM', 'PWM1', 'PWM_A', 'PWM-12', 'pwm']],
  ])('%s is probed at the pad that has its name', (point, signals) => {
    for (const signal of signals) expect([signal, probedAt(signal, point)]).toEqual([signal, 'S1 pad 2'])
  })

  test.each([
    ['input', ['AVIN', 'VINSENSE', 'VIN_SENSE', 'VIN!A', 'VIN_!', 'PIN', 'EN']],
    ['switch', ['ASW', 'SWITCH', 'SW_SENSE', 'SW!A', 'SW_!', 'PHA!']],
    ['driver', ['AVCC', 'VCCSENSE', 'VCC_SENSE', 'VCC!A', 'VCC_!', '15V', 'VDDQ_5']],
    ['enable', ['VEN', 'ENERGY', 'EN_TEMP', 'EN!A', 'PWM']],
    ['pwm', ['VPWM', 'PWMOUT', 'PWM_OUT', 'PWM!A', 'EN']],
  ])('%s is not taken from a name that only has it in it', (point, signals) => {
    for (const signal of signals) expect([signal, probedAt(signal, point)]).toEqual([signal, 'S1'])
  })
})

describe('the caution that stands until it is gone', () => {
  const spill = { kind: 'spill', id: 's', side: 'top', at: { x: 30, y: 30 }, sdMm: 2 } as const
  const clean = { kind: 'clean', id: 'c', side: 'top', at: { x: 30, y: 30 }, radiusMm: 5 } as const
  const board = boardWithPin('PWM')
  const judged = (typed: Readonly<Record<string, string>>, marks: readonly SeenMark[]) =>
    judgePower(board, { measurements: measured(typed), goodReadings: [], phase: 'before', marks })

  test('holds what speaks against power and what is not known of the card, and not that rails are yet to be measured', () => {
    const { reasons } = judged({}, [spill])
    expect(reasons.some(({ sentence }) => sentence.startsWith('Not measured: VMEM'))).toBe(true)
    const said = powerCaution({ marks: [spill] }, judged({}, [spill])).map(({ sentence }) => sentence)
    expect(said.some((each) => each.startsWith('1 spill marked'))).toBe(true)
    expect(said.filter((each) => /measured|read/.test(each))).toEqual([])
  })

  test('holds a shorted rail, and before any board is known what is known of the card alone', () => {
    const shorted = powerCaution({ marks: [] }, judged({ VMEM: '0.1' }, []))
    expect(shorted.map(({ weight }) => weight)).toEqual(['against'])
    expect(shorted[0]?.sentence).toContain('VMEM')
    expect(powerCaution({ marks: [spill] }, undefined).map(({ sentence }) => sentence.slice(0, 14))).toEqual([
      '1 spill marked',
    ])
    expect(powerCaution({ marks: [] }, undefined)).toEqual([])
  })

  // twice the deviation of a spill’s point, or the brush of what was painted: the house’s own rule
  test.each([
    ['a clean spot as wide as twice its deviation', [spill, { ...clean, radiusMm: 4 }], 0],
    ['a clean spot that is narrower', [spill, { ...clean, radiusMm: 3.9 }], 1],
    ['a clean spot of the other side', [spill, { ...clean, side: 'bottom' }], 1],
    ['a clean spot from before', [clean, spill], 1],
    ['a clean spot beside it', [spill, { ...clean, at: { x: 40, y: 30 } }], 1],
    ['a second spill', [spill, { ...spill, id: 't' }], 2],
  ] as const)('after %s as many spills are left', (_, marks, left) => {
    const [said = ''] = powerCaution({ marks }, undefined).map(({ sentence }) => sentence)
    expect(Number(/^(\d+) spills? marked/.exec(said)?.[1] ?? 0)).toBe(left)
  })
})
