/** Which inductor a stage switches, and where its points are probed. */
import { describe, expect, test } from 'vitest'
import { type BoardModel, loadBoard } from '../../src/board/index.ts'
import { measuringLines, railPoints, stagePoints, useOfRail } from '../../src/measure/index.ts'
import { smallBoard } from '../support/small-board.ts'

type Parts = ReturnType<typeof smallBoard>['parts']
type Pads = NonNullable<Parts[number]['pads']>

/** A pad is told by its net, or by net and pin function. */
const pads = (...told: readonly (readonly [net?: string, signal?: string])[]): Pads =>
  told.map(([net, signal], i) => ({
    number: `${i + 1}`,
    at: { x: -2 + 4 * i, y: -2 },
    widthMm: 0.5,
    lengthMm: 1,
    ...(net === undefined ? {} : { net }),
    ...(signal === undefined ? {} : { signal }),
  }))
const body = { widthMm: 5, lengthMm: 6, heightMm: 1 }
const inductor = (ref: string, x: number, y: number, own?: Pads, side: 'top' | 'bottom' = 'top'): Parts[number] => ({
  ref,
  kind: 'inductor',
  side,
  at: { x, y },
  body,
  ...(own === undefined ? {} : { pads: own }),
})
/** The small board, whose stage S1 stands at 60, 70. */
function boardWith(stage: Pads, more: Parts = []): BoardModel {
  const file = smallBoard()
  const parts = file.parts.map((part) => (part.ref === 'S1' ? { ...part, pads: stage } : part))
  const loaded = loadBoard({ ...file, parts: [...parts, ...more] })
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  return loaded.value
}
const pointsOf = (model: BoardModel) => {
  const stage = model.partByRef.get('S1')
  if (stage === undefined) throw new Error('no stage')
  return stagePoints(model, stage)
}
const bare = pads([], [])
const joined = pads(['VIN'], ['SW1'])

describe('the inductor of a stage', () => {
  test('is the one on its switch net, probed at the pad on that net, however far it stands and on whichever side', () => {
    const model = boardWith(joined, [
      inductor('L1', 60, 62, bare),
      inductor('L2', 20, 20, pads(['VMEM'], ['SW1']), 'bottom'),
    ])
    // pad 2 lies 2 mm right of and 2 mm below the middle; from below, right and left are swapped: 20 - 2
    expect(pointsOf(model)).toEqual([
      { number: 1, side: 'bottom', at: { x: 18, y: 18 }, words: 'L2, switch side' },
      { number: 2, side: 'top', at: { x: 60, y: 70 }, words: 'S1' },
    ])
  })

  test('is, of two on its switch net, the nearer one', () => {
    const own = pads(['SW1'], ['VMEM'])
    const model = boardWith(joined, [inductor('L1', 60, 50, own), inductor('L2', 60, 60, own)])
    expect(pointsOf(model)[0].words).toBe('L2, switch side')
    // and pad 1 of it lies 2 mm left of and 2 mm below its middle
    expect(pointsOf(model)[0].at).toEqual({ x: 58, y: 58 })
  })

  // a switch node joins six parts at most, by practice.json: stage, inductor and four more; with five more it is a rail
  test.each([
    [4, 'L2, switch side'],
    [5, 'L1 beside it'],
  ])('on a net of %i more parts is %s', (more, words) => {
    const others = Array.from({ length: more }, (_, i): Parts[number] => ({
      ref: `C${i + 1}`,
      kind: 'capacitor',
      side: 'top',
      at: { x: 100, y: 10 + 8 * i },
      body: { widthMm: 1, lengthMm: 1, heightMm: 1 },
      pads: pads(['SW1']),
    }))
    const model = boardWith(joined, [
      inductor('L1', 60, 62, bare),
      inductor('L2', 60, 50, pads(['SW1'], ['OUT'])),
      ...others,
    ])
    expect(pointsOf(model)[0].words).toBe(words)
  })

  test('is probed on the net of few parts where stage and inductor share their rail too', () => {
    const others = ['C1', 'C2', 'C3', 'C4', 'C5'].map((ref, i): Parts[number] => ({
      ref,
      kind: 'capacitor',
      side: 'top',
      at: { x: 100, y: 10 + 8 * i },
      body: { widthMm: 1, lengthMm: 1, heightMm: 1 },
      pads: pads(['VMEM']),
    }))
    const model = boardWith(pads(['VMEM'], ['SW1']), [inductor('L1', 60, 50, pads(['VMEM'], ['SW1'])), ...others])
    expect(pointsOf(model)[0]).toEqual({ number: 1, side: 'top', at: { x: 62, y: 48 }, words: 'L1, switch side' })
  })

  // without nets the nearest within 15 mm on its side, by practice.json
  test.each<[string, Parts, string[]]>([
    ['15 mm away', [inductor('L1', 60, 55)], ['L1 beside it', 'S1']],
    ['15.1 mm away', [inductor('L1', 60, 54.9)], ['S1']],
    ['on the other side', [inductor('L1', 60, 60, undefined, 'bottom')], ['S1']],
    ['the nearer of two', [inductor('L1', 60, 57), inductor('L2', 60, 60)], ['L2 beside it', 'S1']],
    ['no inductor at all', [{ ...inductor('C1', 60, 60), kind: 'capacitor' }], ['S1']],
  ])('without nets: %s', (_, more, words) => {
    const model = boardWith(bare, more)
    expect(pointsOf(model).map((each) => each.words)).toEqual(words)
    expect(pointsOf(model).map(({ number }) => number)).toEqual(words.map((__, i) => i + 1))
  })

  test('beside it is probed at its middle', () => {
    expect(pointsOf(boardWith(bare, [inductor('L1', 60, 57)]))[0]).toEqual({
      number: 1,
      side: 'top',
      at: { x: 60, y: 57 },
      words: 'L1 beside it',
    })
  })
})

describe('a point of a stage', () => {
  const placesOf = (model: BoardModel, point: string) =>
    measuringLines(model, 'ohms')
      .find(({ line }) => line.point === point)
      ?.points.map(({ number, words }) => [number, words])
  const coil = [inductor('L1', 60, 60, pads(['SW1'], ['VMEM']))]

  test.each<[string, Pads, string, [number, string][]]>([
    [
      'input, by its pin',
      pads(['12V', 'VIN'], ['SW1']),
      'input',
      [
        [1, 'S1 pad 1'],
        [2, 'L1, switch side'],
      ],
    ],
    [
      'input, without pins',
      joined,
      'input',
      [
        [1, 'S1'],
        [2, 'L1, switch side'],
      ],
    ],
    [
      'input, where the switch pin is named too',
      pads(['12V', 'VIN'], ['SW1', 'SW']),
      'input',
      [
        [1, 'S1 pad 1'],
        [2, 'L1, switch side'],
      ],
    ],
    ['switch node, by its pin', pads(['12V'], ['SW1', 'LX']), 'switch', [[1, 'S1 pad 2']]],
    ['switch node, at the inductor', joined, 'switch', [[1, 'L1, switch side']]],
    ['driver, by its pin', pads(['SW1'], ['5V', 'VDRV']), 'driver', [[1, 'S1 pad 2']]],
    ['driver, without pins', joined, 'driver', [[1, 'S1']]],
    ['PWM, without pins', joined, 'pwm', [[1, 'S1']]],
  ])('%s', (_, stage, point, places) => expect(placesOf(boardWith(stage, coil), point)).toEqual(places))

  test('lies at its pad where there is one, else at the middle of the stage', () => {
    const at = (stage: Pads) =>
      measuringLines(boardWith(stage), 'ohms').find(({ line }) => line.point === 'pwm')?.points[0]?.at
    expect(at(pads(['A'], ['B', 'PWM']))).toEqual({ x: 62, y: 68 })
    expect(at(bare)).toEqual({ x: 60, y: 70 })
  })
})

test('a rail’s points are named by part and pad, by the part alone, or by their place', () => {
  const [rail] = boardWith(bare).rails
  if (rail === undefined) throw new Error('no rail')
  const at = { x: 12, y: 4.54 }
  const points = [
    { side: 'top', at, part: 'J5', pad: '3' },
    { side: 'bottom', at, part: 'J5' },
    { side: 'top', at },
  ] as const
  expect(railPoints({ ...rail, points: [...points] })).toEqual([
    { number: 1, side: 'top', at, words: 'J5 pad 3' },
    { number: 2, side: 'bottom', at, words: 'J5' },
    { number: 3, side: 'top', at, words: 'x 12.0, y 4.5 mm' },
  ])
})

describe('a rail of the core with a single stage', () => {
  const useWith = (more: Parts, stages = ['S1'], nominalV = 0.9) => {
    const model = boardWith(joined, more)
    const rails = model.rails.map((rail) => ({ ...rail, feeds: ['U1'], stages, nominalV }))
    const [rail] = rails
    return rail === undefined ? undefined : useOfRail({ ...model, rails }, rail)
  }
  // a linear regulator stands alone too, so that only an inductor on its switch net tells that it is switched
  test('is the core’s only where a net joins its inductor', () => {
    expect(useWith([inductor('L1', 60, 60, pads(['SW1'], ['OUT']))])).toBe('second core')
    expect(useWith([inductor('L1', 60, 60)])).toBe('any')
    expect(useWith([])).toBe('any')
    expect(useWith([inductor('L1', 60, 60, pads(['SW1'], ['OUT']))], [])).toBe('any')
  })
})
