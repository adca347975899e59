/** What a torn ball means by the board's own ball map, what stays open about a repair, and how the record tells it. */
import { describe, expect, it, test } from 'vitest'
import {
  padMeaning,
  type PadRepair,
  padRepairRemarks,
  padRepairSchema,
  pathLengthMm,
  recordHtml,
  recordOf,
  tornBallsOf,
} from '../../src/case/index.ts'
import { loadBoard } from '../../src/board/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { openFull } from '../support/recordCase.ts'

/** Four pads whose nets say what they carry, one that tells nothing. */
function tinyBoard() {
  const pad = (number: string, x: number, net?: string) => ({
    number,
    at: { x, y: 0 },
    widthMm: 0.4,
    lengthMm: 0.4,
    ...(net === undefined ? {} : { net }),
  })
  const board = loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: 'tiny',
    outline: [
      { x: 0, y: 0 },
      { x: 60, y: 0 },
      { x: 60, y: 40 },
      { x: 0, y: 40 },
    ],
    parts: [
      {
        ref: 'U9',
        kind: 'controller',
        side: 'top',
        at: { x: 30, y: 20 },
        body: { widthMm: 6, lengthMm: 6, heightMm: 1 },
        pads: [
          pad('1', -2, 'GND'),
          pad('2', -1, 'VMEM'),
          pad('3', 0, 'NC'),
          pad('4', 1, 'RESET_N'),
          pad('5', 2, 'N17'),
        ],
      },
    ],
    rails: [{ name: 'VMEM', nominalV: 1.35, feeds: ['U9'] }],
  })
  if (!board.ok) throw new Error(JSON.stringify(board.faults))
  return board.value
}

describe('a torn pad', () => {
  test.each([
    ['1', 'ground', true],
    ['2', 'supply', true],
    ['3', 'not connected', true],
    ['4', 'control', false],
    ['5', 'unknown', undefined],
  ] as const)('on pad %s carries %s', (pad, carries, mayStay) => {
    expect(padMeaning(tinyBoard(), 'U9', pad)).toMatchObject({ carries, mayStay })
  })

  it('of a data ball is named by its lane and bit, and must not stay', () => {
    const model = shippedBoard('splice-6')
    const lane = model.lanes.find(({ memoryBalls }) => memoryBalls[3] !== undefined)
    if (lane === undefined) throw new Error('no lane with a ball map')
    const meaning = padMeaning(model, lane.part, lane.memoryBalls[3] ?? '')
    expect(meaning).toMatchObject({ carries: 'data', name: `${lane.id} DQ3`, mayStay: false })
  })

  it('in a field of command or data lines is not told by the field alone, as supplies and grounds lie among them', () => {
    const model = shippedBoard('bowline-8')
    const [memory] = model.memories
    const meanings = (memory?.pads ?? []).map(({ number }) => padMeaning(model, memory?.ref ?? '', number))
    expect(meanings.length).toBe(180)
    expect(new Set(meanings.map((each) => each?.carries))).toEqual(new Set(['unknown']))
    expect(meanings.some((each) => each?.means.includes('command, clock, supply or ground') === true)).toBe(true)
  })

  it('that the part does not have is none', () => {
    expect(padMeaning(tinyBoard(), 'U9', '77')).toBeUndefined()
    expect(padMeaning(tinyBoard(), 'U8', '1')).toBeUndefined()
  })
})

const repairOf = (draft: Partial<PadRepair>): PadRepair =>
  padRepairSchema.parse({ id: 'pad-1', ref: 'U9', pad: '4', hurt: 'pad torn', side: 'top', ...draft })

describe('a repair', () => {
  it('is as long as its way: 3 and 4 mm at a right angle, then 5 mm back make 12', () => {
    const way = [
      { x: 0, y: 0 },
      { x: 3, y: 0 },
      { x: 3, y: 4 },
      { x: 0, y: 0 },
    ]
    expect(pathLengthMm(way)).toBeCloseTo(12, 12)
  })

  it('says what is open: a way that is not drawn, a line left as it is, nothing measured', () => {
    const model = tinyBoard()
    expect(padRepairRemarks(model, repairOf({ remedy: 'jumper' }))).toEqual([
      'Its way is not drawn yet.',
      'Not measured from end to end yet.',
    ])
    expect(padRepairRemarks(model, repairOf({ remedy: 'none' }))).toEqual(['Left as it is: what hangs on it fails.'])
    expect(padRepairRemarks(model, repairOf({ pad: '1', remedy: 'none' }))).toEqual([])
    expect(padRepairRemarks(model, repairOf({ hurt: 'via', via: 'drilled' }))[0]).toContain('joins no layer')
  })

  it('counts for the plan where its line is needed: not a ground that may stay, nor a ball that comes back', () => {
    const repairs = [
      repairOf({ pad: '4' }),
      repairOf({ pad: '1' }),
      repairOf({ pad: '5' }),
      repairOf({ pad: '4', hurt: 'ball lost' }),
    ]
    expect(tornBallsOf(tinyBoard(), repairs)).toEqual(new Map([['U9', 2]]))
    expect(tornBallsOf(tinyBoard(), [repairOf({ pad: '1' })])).toEqual(new Map([['U9', 0]]))
  })

  it('leaves older cases as they are, and stands in the technician’s record with ball, way and ohms', async () => {
    expect((await openFull()).caseFile.padRepairs).toBeUndefined()
    const opened = await openFull((plain) => ({
      ...plain,
      padRepairs: [
        {
          id: 'pad-1',
          ref: 'U2',
          pad: '',
          hurt: 'track cut',
          remedy: 'jumper',
          side: 'top',
          path: [
            { x: 10, y: 10 },
            { x: 13, y: 14 },
          ],
          ohm: 0.2,
          note: '0.1 mm enamelled wire',
        },
      ],
    }))
    const words = recordHtml(recordOf({ ...opened, audience: 'technician', today: '2026-03-20' }))
      .replace(/<[^>]*>/g, ' ')
      .replace(/[\s\u00a0]+/g, ' ')
    expect(words).toContain('jumper wire')
    expect(words).toContain('5 mm, top side: 10, 10; 13, 14 mm')
    expect(words).toContain('0.2 Ω')
    expect(words).toContain('0.1 mm enamelled wire')
  })
})
