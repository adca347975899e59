/** No input, however broken or large, makes the reader of boards throw or half load one. */
import { fc, test as property } from '@fast-check/vitest'
import { describe, expect } from 'vitest'
import { type Fault, parseJson, type Result, valueAt } from '../../src/base/index.ts'
import { type BoardModel, loadBoard, readBoard } from '../../src/board/index.ts'
import { smallBoard } from '../support/small-board.ts'
import { unsoundIn } from '../support/sound-model.ts'

const SEED = { seed: 20251125 }

/** `$.parts[3].at` to its steps; throws on a path that is not of that form. */
function stepsOf(path: string): PropertyKey[] {
  if (!path.startsWith('$')) throw new Error(`not a path: ${path}`)
  const steps: PropertyKey[] = []
  let rest = path.slice(1)
  while (rest !== '') {
    const match = /^(?:\.([A-Za-z_][A-Za-z0-9_]*)|\[(\d+)\]|\[("(?:[^"\\]|\\.)*")\])/.exec(rest)
    if (match === null) throw new Error(`not a path: ${path}`)
    const [whole, name, index, quoted] = match
    if (name !== undefined) steps.push(name)
    else if (index !== undefined) steps.push(Number(index))
    else steps.push(String(JSON.parse(quoted ?? '""')))
    rest = rest.slice(whole.length)
  }
  return steps
}

/** A fault says something, and points at a value that is there or at a field that its holder lacks. */
function expectUsable(fault: Fault, input: unknown): void {
  expect(fault.found).not.toBe('')
  expect(fault.expected).not.toBe('')
  const steps = stepsOf(fault.path)
  if (steps.length < 2) return
  expect({ fault, holder: valueAt(input, steps.slice(0, -1)) }).not.toEqual({ fault, holder: undefined })
}

function expectModelOrFaults(result: Result<BoardModel>, input: unknown): void {
  if (result.ok) {
    expect(unsoundIn(result.value)).toEqual([])
    return
  }
  expect(result.faults.length).toBeGreaterThan(0)
  for (const fault of result.faults) expectUsable(fault, input)
}

describe('whatever comes, a board is a sound model or usable faults', () => {
  property.prop([fc.jsonValue({ maxDepth: 5 })], { ...SEED, numRuns: 300 })('any JSON value', (value) => {
    expectModelOrFaults(loadBoard(value), value)
  })

  property.prop([fc.anything({ withBigInt: true, withDate: true, withMap: true, withNullPrototype: true })], {
    ...SEED,
    numRuns: 300,
  })('any value at all', (value) => {
    expectModelOrFaults(loadBoard(value), value)
  })

  property.prop([fc.string({ maxLength: 400 })], { ...SEED, numRuns: 300 })('any text', (text) => {
    const result = readBoard(text)
    expect(result.ok).toBe(false)
  })

  property.prop([fc.nat(), fc.nat({ max: 12 }), fc.string({ maxLength: 12 })], { ...SEED, numRuns: 300 })(
    'a board file with a stretch cut out or written over',
    (at, length, instead) => {
      const whole = JSON.stringify(smallBoard())
      const start = at % whole.length
      const text = whole.slice(0, start) + instead + whole.slice(start + length)
      const parsed = parseJson(text)
      const result = readBoard(text)
      if (parsed.ok) expectModelOrFaults(result, parsed.value)
      else expect(result).toMatchObject({ ok: false })
    },
  )
})

/** All places in a value, as steps from its root. */
function placesIn(value: unknown, above: PropertyKey[] = []): PropertyKey[][] {
  if (typeof value !== 'object' || value === null) return [above]
  const keys: PropertyKey[] = Array.isArray(value) ? [...value.keys()] : Object.keys(value)
  return [above, ...keys.flatMap((key) => placesIn(Reflect.get(value, key), [...above, key]))]
}

const PLACES = placesIn(smallBoard()).filter((steps) => steps.length > 0)

const odd = fc.oneof(
  fc.constant(undefined),
  fc.constantFrom(0, -1, 0.5, 1e-3, 7, 63, 2000, -2000, 1e300, NaN, Infinity, -0),
  fc.constantFrom('', 'U1', 'U2', 'U3', 'S1', 'A0', 'B1', 'CH0', 'top', 'bottom', 'memory', 'core', '0x1', '0x30300'),
  fc.constantFrom('180-ball', '96-ball-ddr4', '190-ball', 'core-40', 'VCORE', 'CA-A', 'CK', '0xfffffffffffff'),
  fc.constantFrom<unknown>(null, true, [], {}, [[]], [0], ['U2'], [{ memoryBall: 'B2', coreBall: 'A1' }]),
  fc.constantFrom<unknown>([7, 6, 5, 4, 3, 2, 1, 0], { x: 1, y: 1 }, [{ name: 'N', polygon: [] }]),
)

const change = fc.record({ place: fc.constantFrom(...PLACES), from: fc.option(fc.constantFrom(...PLACES)), value: odd })

/** Replaces, deletes, or copies another piece of the board to a place; places that are gone by then are passed over. */
function changed(changes: readonly { place: PropertyKey[]; from: PropertyKey[] | null; value: unknown }[]): unknown {
  const board: unknown = smallBoard()
  for (const { place, from, value } of changes) {
    const holder = valueAt(board, place.slice(0, -1))
    const key = place.at(-1)
    if (typeof holder !== 'object' || holder === null || key === undefined) continue
    const copy = from === null ? value : structuredClone(valueAt(board, from))
    if (copy === undefined && !Array.isArray(holder)) Reflect.deleteProperty(holder, key)
    else Reflect.set(holder, key, copy ?? null)
  }
  return board
}

describe('a board with pieces changed is a sound model or usable faults', () => {
  property.prop([change], { ...SEED, numRuns: 800 })('one change', (single) => {
    const board = changed([single])
    expectModelOrFaults(loadBoard(board), board)
  })

  property.prop([fc.array(change, { minLength: 2, maxLength: 6 })], { ...SEED, numRuns: 300 })('several', (several) => {
    const board = changed(several)
    expectModelOrFaults(loadBoard(board), board)
  })
})
