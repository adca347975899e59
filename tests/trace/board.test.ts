import { expect, test } from 'vitest'
import { applied } from '../../src/base/index.ts'
import { boardRemarks, type PatternSupply } from '../../src/board/index.ts'
import {
  arrayBetween,
  boardFromTrace,
  patternPackageNamed,
  refsOf,
  type Trace,
  type TracedPart,
  turnedAsUsual,
  turnedOver,
} from '../../src/trace/index.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'

/** What a hand would trace of a shipped board: all but connectors and small parts, shuffled, of another origin. */
function tracedOf(name: string): Trace {
  const model = shippedBoard(name)
  const kinds = new Set(['core', 'memory', 'power-stage', 'inductor'])
  const parts = model.parts
    .filter(({ kind }) => kinds.has(kind))
    .map(
      (part, i): TracedPart => ({
        id: `p${i}`,
        kind: part.kind,
        side: part.side,
        at: { x: part.placement.at.x - 3, y: part.placement.at.y - 8 },
        rotationDeg: part.placement.rotationDeg,
        body: { widthMm: part.widthMm, lengthMm: part.lengthMm, heightMm: part.heightMm },
        package: patternPackageNamed(part.description.package),
      }),
    )
    .toReversed()
  const stages = parts.filter(({ kind }) => kind === 'power-stage').length
  const supplies: PatternSupply[] = [
    { name: 'VCORE', nominalV: 0.9, stages: stages - 2, feeds: 'core' },
    { name: 'VMEM', nominalV: 1.35, stages: 2, feeds: 'both' },
  ]
  return { name: 'traced', outline: model.outline.map(({ x, y }) => ({ x: x - 3, y: y - 8 })), parts, supplies }
}

test.each(SHIPPED)(
  'what is traced of %s makes a board that passes the check, with every place, lane and supply',
  (name) => {
    const original = shippedBoard(name)
    const made = boardFromTrace(tracedOf(name))
    if (!made.ok) throw new Error(JSON.stringify(made.faults))
    const model = made.value
    expect(model.memories).toHaveLength(original.memories.length)
    expect(model.lanes.reduce((sum, lane) => sum + lane.bitCount, 0)).toBe(
      original.lanes.reduce((sum, lane) => sum + lane.bitCount, 0),
    )
    expect(
      model.regions.filter(({ part, role }) => part === model.core?.ref && role === 'lane').length,
    ).toBeGreaterThan(0)
    const places = (of: typeof model) =>
      of.memories.map(({ ref, placement }) => `${ref} ${placement.at.x} ${placement.at.y}`).toSorted()
    expect(places(model)).toEqual(places(original))
    expect(model.rails.map((rail) => rail.name)).toEqual(['12V', '3V3', 'VCORE', 'VMEM'])
    expect(model.rails.find((rail) => rail.name === 'VMEM')?.stages).toHaveLength(2)
    expect(model.description.note).toMatch(/assumed/)
    expect(
      boardRemarks(model).some(
        (remark) => /core/.test(JSON.stringify(remark)) && /supply/.test(JSON.stringify(remark)),
      ),
    ).toBe(false)
  },
)

test('no core, two cores and stages that don’t add up are refused together', () => {
  const trace = tracedOf('bowline-8')
  const none = boardFromTrace({ ...trace, parts: trace.parts.filter(({ kind }) => kind !== 'core'), supplies: [] })
  expect(none).toMatchObject({ ok: false, faults: [{ found: 'no core' }, { found: '0 stages in the supplies' }] })
})

test('refs run clockwise about the core, from the first one where it is said', () => {
  const trace = tracedOf('bowline-8')
  const refs = refsOf(trace.parts)
  const memories = trace.parts.filter(({ kind }) => kind === 'memory')
  const third = memories.find(({ id }) => refs.get(id) === 'U13')
  const again = refsOf(trace.parts, { firstId: third?.id })
  expect(memories.map(({ id }) => refs.get(id) ?? '').toSorted((a, b) => a.localeCompare(b))).toEqual([
    'U11',
    'U12',
    'U13',
    'U14',
    'U15',
    'U16',
    'U17',
    'U18',
  ])
  expect(again.get(third?.id ?? '')).toBe('U11')
  expect(memories.map(({ id }) => `${refs.get(id)}>${again.get(id)}`).toSorted()[0]).toBe('U11>U17')
})

test('a package turned by half a turn comes back to how it usually stands', () => {
  const model = shippedBoard('bowline-8')
  const core = model.core?.placement.at ?? { x: 0, y: 0 }
  const turned = model.memories.map(({ placement }) =>
    turnedAsUsual('180-ball', placement.at, placement.rotationDeg + 180, core),
  )
  expect(turned).toEqual(model.memories.map(({ placement }) => placement.rotationDeg))
})

test('a row of parts is spread between the first and the last', () => {
  expect(arrayBetween({ x: 0, y: 4 }, { x: 9, y: 1 }, 4)).toEqual([
    { x: 0, y: 4 },
    { x: 3, y: 3 },
    { x: 6, y: 2 },
    { x: 9, y: 1 },
  ])
})

test('two holes lay the bottom under the top: a board turned over and askew comes back', () => {
  // seen from below x runs the other way; the second photo is turned by 20 degrees and moved
  const [cos, sin] = [Math.cos(Math.PI / 9), Math.sin(Math.PI / 9)]
  const below = ({ x, y }: { x: number; y: number }) => ({ x: 200 - x * cos - y * sin, y: 7 - x * sin + y * cos })
  const holes = { one: { x: 10, y: 12 }, other: { x: 250, y: 90 } }
  const map = turnedOver(holes, { one: below(holes.one), other: below(holes.other) })
  if (map === undefined) throw new Error('no map')
  const seen = applied(map, { x: 130, y: 40 })
  expect(seen.x).toBeCloseTo(below({ x: 130, y: 40 }).x, 9)
  expect(seen.y).toBeCloseTo(below({ x: 130, y: 40 }).y, 9)
  expect(turnedOver({ one: holes.one, other: holes.one }, holes)).toBeUndefined()
})

test('parts stand in the order of their numbers, whatever the order they were traced in', () => {
  const made = boardFromTrace(tracedOf('sheet-bend-16'))
  if (!made.ok) throw new Error(JSON.stringify(made.faults))
  const numbers = (letter: string): number[] =>
    made.value.parts.flatMap(({ ref }) => (ref.startsWith(letter) ? [Number(ref.slice(1))] : []))
  for (const letter of ['U', 'S', 'L']) {
    expect(numbers(letter).length).toBeGreaterThan(2)
    expect(numbers(letter)).toEqual(numbers(letter).toSorted((a, b) => a - b))
  }
})

test('memory stacked beside a core is carried by it, and by nothing else', () => {
  const traced = tracedOf('becket-2')
  const carried = (trace: Trace): (string | undefined)[] => {
    const made = boardFromTrace(trace)
    if (!made.ok) throw new Error(JSON.stringify(made.faults))
    const { core, memories } = made.value
    expect(memories.length).toBeGreaterThan(0)
    return memories.map(({ description }) => (description.carriedBy === core?.ref ? 'the core' : description.carriedBy))
  }
  const carrying = carried(traced)
  expect(carrying).toEqual(carrying.map(() => 'the core'))
  const ring = carried(tracedOf('bowline-8'))
  expect(ring).toEqual(ring.map(() => undefined))
})
