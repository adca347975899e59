/** What the measuring room says: words of verdicts, of a hunt for a short, and of shorts that several stages show alike. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/base/index.ts'
import {
  contactAt,
  createShortFinder,
  createSolver,
  huntShort,
  judgePower,
  lineVerdicts,
  type ShortHunt,
  valueAtContact,
} from '../../src/measure/index.ts'
import { box, copperBoard, currentsOf } from '../support/copper-board.ts'
import { shippedBoard } from '../support/read-board.ts'
import { measured } from './measured.ts'

const bowline = shippedBoard('bowline-8')

describe('a verdict’s word', () => {
  // VMEM of this board is well from 20 Ω to 150 Ω; under half of where its range begins is far below (common practice, no source)
  test.each([
    ['0.2', 'short'],
    ['9.9', 'far below'],
    ['10.1', 'below the range'],
    ['62', 'in range'],
    ['151', 'above the range'],
    ['OL', 'open'],
  ])('at %s Ω is %s', (typed, word) => {
    const verdicts = lineVerdicts(
      bowline,
      { measurements: measured({ VMEM: typed }), goodReadings: [] },
      'ohms',
      'before',
    )
    expect(verdicts.find(({ line }) => line.line.name === 'VMEM')?.verdict.word).toBe(word)
  })
})

describe('a hunt for a short', () => {
  const pads = Array.from({ length: 24 }, (_, k) => ({ x: 5 + (k % 6) * 14, y: 5 + Math.floor(k / 6) * 16 }))
  const board = copperBoard({ widthMm: 84, heightMm: 60, copper: [box(1, 1, 80, 58)], capacitors: pads })
  const finder = createShortFinder(board, { cellMm: 1 })
  const source = { x: 5, y: 5 }
  /** A meter over copper whose short is known: cells other than the finder's, so that nothing cancels. */
  const meter = (() => {
    const sheets = createShortFinder(board, { cellMm: 0.7 }).sheetsFor({ rail: 'VMEM' })
    const sheet = sheets.ok ? sheets.value.pieces[0]?.sheet : undefined
    if (sheet === undefined) throw new Error('no copper')
    const currents = currentsOf(sheet, [
      { at: source, ampere: 2 },
      { at: { x: 60, y: 45 }, ampere: -2 },
    ])
    return { sheet, field: createSolver(sheet).potentials(currents) }
  })()
  const readAt = (at: Point, scale = 1): { at: Point; millivolt: number } => {
    const contact = contactAt(meter.sheet, at)
    if (contact === undefined) throw new Error('no copper')
    return { at, millivolt: 40 + scale * valueAtContact(meter.field, contact) }
  }
  const placesOf = (count: number): Point[] =>
    [1, 23, 9, 14, 18, 5, 2, 12, 20, 8].slice(0, count).map((k) => pads[k] ?? source)
  const answerOf = (more: Partial<ShortHunt> = {}) => {
    const hunt: ShortHunt = {
      id: 'h',
      rail: 'VMEM',
      side: 'top',
      currentA: 2,
      sourceAt: source,
      readings: placesOf(6).map((at) => readAt(at)),
      noiseMillivolt: 0.02,
      ...more,
    }
    const answer = huntShort(finder, hunt)
    if (!answer.ok) throw new Error(JSON.stringify(answer.faults))
    return answer.value
  }
  /** `4.5 cm²` as mm²: 1 cm² is 100 mm². */
  const mm2In = (words: string, after: RegExp): { mm2: number; unit: string; half: number } => {
    const [, figure = '', unit = ''] = new RegExp(`${after.source}(\\d+(?:\\.\\d+)?) (cm²|mm²)`).exec(words) ?? []
    return unit === 'cm²' ? { mm2: Number(figure) * 100, unit, half: 5 } : { mm2: Number(figure), unit, half: 0.5 }
  }

  test.each([2, 3, 4, 6, 10])(
    'after %i readings says in mm² or cm² how far the next is expected to narrow it',
    (count) => {
      const { next } = answerOf({ readings: placesOf(count).map((at) => readAt(at)) })
      expect(next).toBeDefined()
      if (next === undefined) return
      expect(next.worthwhile).toBe(next.nats >= 0.15)
      if (!next.worthwhile) {
        expect(next.why).toMatch(/^No further point tells much/)
        return
      }
      expect(next.areaAfterMm2).toBeCloseTo(Math.max(next.areaNowMm2 * Math.exp(-next.nats), 1), 9)
      for (const [said, isMm2] of [
        [mm2In(next.why, /shrink from /), next.areaNowMm2],
        [mm2In(next.why, /to about /), next.areaAfterMm2],
      ] as const) {
        expect(said.unit).toBe(isMm2 >= 100 ? 'cm²' : 'mm²')
        expect(Math.abs(said.mm2 - isMm2)).toBeLessThanOrEqual(said.half + 1e-9)
      }
      const [, range = ''] = /up to ([\d.]+) mV apart/.exec(next.why) ?? []
      expect(range).toMatch(Number(range) >= 0.1 ? /^\d+\.\d\d$/ : /^0\.0+[1-9]$/)
    },
  )

  test('says where the current sinks, how near, and on how much copper', () => {
    const answer = answerOf({ readings: placesOf(10).map((at) => readAt(at)) })
    const [first = ''] = answer.said
    const [, x, y, radius] = /near x ([\d.]+), y ([\d.]+) mm; 90 % lies within ([\d.]+) mm/.exec(first) ?? []
    expect(Number(x)).toBeCloseTo(answer.best.x, 1)
    expect(Number(y)).toBeCloseTo(answer.best.y, 1)
    expect(radius).toBe(answer.radius90Mm.toFixed(answer.radius90Mm < 10 ? 1 : 0))
    const area = mm2In(first, / on /)
    expect(area.unit).toBe(answer.area90Mm2 >= 100 ? 'cm²' : 'mm²')
    expect(Math.abs(area.mm2 - answer.area90Mm2)).toBeLessThanOrEqual(area.half + 1e-9)
  })

  test('says by what a square of the copper is known', () => {
    // copper of 1 oz, 34.8 µm: 17.24 µΩ mm / 34.8 µm is 0.5 mΩ at 20 °C (IEC 60028, International standard of resistance for copper, 1925)
    expect(answerOf().said.at(-1)).toMatch(/^A square of it is taken as 0\.(49|50) mΩ at 20 °C, by its weight/)
    expect(answerOf({ sheetMilliohm: 0.62 }).said.at(-1)).toBe('A square of it is taken as 0.62 mΩ, as measured.')
  })

  test.each([
    [2, 'more than its weight gives'],
    [0.4, 'less than its weight gives, or less current flows in it than was put in'],
  ])('whose drops are %s times what the weight gives says so', (scale, words) => {
    const answer = answerOf({ readings: placesOf(10).map((at) => readAt(at, scale)) })
    const said = answer.said.find((each) => each.startsWith('By the readings'))
    expect(said).toContain(`times ${words}.`)
    expect(said).toContain(` ${(scale > 1 ? answer.scale : 1 / answer.scale).toFixed(1)} times`)
  })

  test('and drops as the weight gives say nothing of it', () => {
    expect(answerOf({ readings: placesOf(10).map((at) => readAt(at)) }).said.join(' ')).not.toMatch(/By the readings/)
  })

  test('that fits no single short names what may be behind it, and the place that fits least badly', () => {
    const readings = placesOf(10).map((at, i) => ({ at, millivolt: 40 + (i % 2) * 3 }))
    const answer = answerOf({ readings })
    expect(answer.verdict).toBe('no-fit')
    expect(answer.said[1]).toMatch(/^Two shorts, copper .* may be behind it\.$/)
    expect(answer.said[2]).toMatch(/^Of all single shorts one near x [\d.]+, y [\d.]+ mm fits least badly/)
    const worst = answer.readings.map(({ deviation }) => Math.abs(deviation ?? 0))
    const [, tail, which, off] =
      / in (.+) of hunts; reading (\d+) is off most, by ([\d.]+) /.exec(answer.said[0] ?? '') ?? []
    expect(Number(which)).toBe(worst.indexOf(Math.max(...worst)) + 1)
    expect(Number(off)).toBeCloseTo(Math.max(...worst), 1)
    expect(tail).toMatch(/%/)
  })
})

describe('a point that is short at several stages', () => {
  const reasonsOf = (typed: Readonly<Record<string, string>>) =>
    judgePower(bowline, {
      measurements: measured(typed),
      goodReadings: [],
      leads: { kind: 'zeroed' },
      phase: 'before',
    }).reasons
  const [first, second] = bowline.rails.filter(({ stages }) => stages.length > 0)
  const [one = '', two = ''] = first?.stages ?? []
  const [other = ''] = second?.stages ?? []

  test.each([
    ['driver', 'They share that supply: lift its feed, then read each by itself.', 'against'],
    ['enable', 'They may share one line: read it at the controller.', 'unknown'],
    ['pwm', 'Look at the controller, which drives them all.', 'unknown'],
  ])('%s, of one rail: is said once, with what it means', (point, words, weight) => {
    const shorts = reasonsOf({ [`${one} ${point}`]: '0.1', [`${two} ${point}`]: '0.1' }).filter(({ sentence }) =>
      sentence.includes('all short'),
    )
    expect(shorts.map((each) => [each.weight, each.lines.map(({ name }) => name)])).toEqual([[weight, [one, two]]])
    expect(shorts[0]?.sentence).toContain(words)
  })

  test('of different rails or points, or at one stage alone: each by itself', () => {
    const apart: readonly Record<string, string>[] = [
      { [`${one} pwm`]: '0.1', [`${other} pwm`]: '0.1' },
      { [`${one} pwm`]: '0.1', [`${two} enable`]: '0.1' },
      { [`${one} pwm`]: '0.1', [`${two} pwm`]: '5k' },
    ]
    for (const typed of apart) {
      const said = reasonsOf(typed).map(({ sentence }) => sentence)
      expect(said.filter((each) => each.includes('all short'))).toEqual([])
      expect(said.some((each) => each.includes(one) && each.includes('short'))).toBe(true)
    }
  })
})
