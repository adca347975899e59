import fc from 'fast-check'
import { expect, test } from 'vitest'
import { CASE_VERSION, type Case, loadCase, readCase } from '../../src/case/index.ts'

const plain = {
  format: 'liftmap-case',
  version: CASE_VERSION,
  title: 'Card under test',
  board: { path: 'board.json' },
  marks: [
    { kind: 'clean', id: 'a', side: 'top', at: { x: 1, y: 2 }, radiusMm: 3 },
    { kind: 'spill', id: 'b', side: 'top', at: { x: 1, y: 2 }, sdMm: 3, substance: 'water', amount: { volumeMl: 0.4 } },
  ],
}

test('a case that leaves things out gets the defaults', () => {
  const loaded = loadCase(plain)
  expect(loaded.ok && loaded.value.arrival.mounted).toBe('unknown')
})

test('a newer case is refused with a word on what to do', () => {
  const loaded = loadCase({ ...plain, version: 4 })
  expect(loaded).toMatchObject({ ok: false, faults: [{ path: '$.version', found: '4' }] })
})

test('a file of another kind is told apart from a case', () => {
  expect(loadCase({ format: 'liftmap-board' })).toMatchObject({
    ok: false,
    faults: [{ path: '$.format', expected: 'liftmap-case' }],
  })
})

test('two marks with one id, and a report without a source, are each told', () => {
  const loaded = loadCase({ ...plain, marks: [plain.marks[0], plain.marks[0]], reports: [{ name: 'first' }] })
  expect(loaded.ok ? [] : loaded.faults.map((fault) => fault.path)).toEqual(['$.marks[1].id', '$.reports[0]'])
})

test('every report has an id of its own, also in a case without ids, and keeps it', () => {
  const reports = [
    { name: 'run.txt', text: 'a' },
    { name: 'run.txt', text: 'b' },
    { name: 'run.txt', text: 'c', run: 'retest' },
    { id: 'mine', name: 'run.txt', text: 'd' },
  ]
  const loaded = loadCase({ ...plain, reports })
  const ids = loaded.ok ? loaded.value.reports.map(({ id }) => id) : []
  expect(new Set(ids).size).toBe(4)
  expect(ids[3]).toBe('mine')
  const without = loadCase({ ...plain, reports: reports.slice(2) })
  expect(without.ok ? without.value.reports.map(({ id }) => id) : []).toEqual(ids.slice(2))
  const twice = loadCase({ ...plain, reports: [reports[3], reports[3]] })
  expect(twice.ok ? [] : twice.faults.map((fault) => fault.path)).toEqual(['$.reports[1].id'])
})

test('numbers that are none are refused where they stand', () => {
  const loaded = loadCase({ ...plain, marks: [{ ...plain.marks[0], at: { x: Number.NaN, y: 2 }, radiusMm: -1 }] })
  expect(loaded.ok ? [] : loaded.faults.map((fault) => fault.path)).toEqual(['$.marks[0].at.x', '$.marks[0].radiusMm'])
})

test('fifty megabytes of brackets are refused', () => {
  expect(readCase('{"a":'.repeat(10_000_000)).ok).toBe(false)
})

test('whatever text comes: a case that loads again to the same, or faults that say where', () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.json(), mutatedCase()), (text) => {
      const read = readCase(text)
      if (read.ok) expect(loadCase(read.value)).toEqual({ ok: true, value: read.value satisfies Case })
      else
        for (const fault of read.faults)
          expect([fault.path, fault.found, fault.expected].every((word) => word !== '')).toBe(true)
    }),
    { seed: 11, numRuns: 400 },
  )
})

/** The plain case with one of its values, anywhere, replaced by something else. */
function mutatedCase(): fc.Arbitrary<string> {
  const words = JSON.stringify(plain)
  const places = [...words.matchAll(/"[^"]*"|\d+/g)].map((match) => ({
    start: match.index,
    end: match.index + match[0].length,
  }))
  return fc
    .tuple(fc.constantFrom(...places), fc.jsonValue())
    .map(([place, value]) => words.slice(0, place.start) + JSON.stringify(value) + words.slice(place.end))
}
