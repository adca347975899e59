import { expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json' with { type: 'json' }
import { loadBoard } from '../../src/board/index.ts'
import { findingsOf, loadCase, marksWithFound, sortMarks } from '../../src/case/index.ts'

const loaded = loadBoard(bowline)
if (!loaded.ok) throw new Error('bowline-8 loads')
const model = loaded.value
const nothing = { tally: undefined, measurements: [], goodReadings: [], checks: [] }

test('without a report every lane is untested', () => {
  const findings = findingsOf(model, nothing, sortMarks([]))
  expect(new Set(findings.lanes.values())).toEqual(new Set(['untested']))
  expect(findings.lanes.size).toBe(model.lanes.length)
})

test('what lay under a lifted part becomes a mark at its place, once', () => {
  const passes = [{ action: 'lift', refs: ['U14'], outcome: 'done', found: [{ ref: 'U14', what: ['corroded'] }] }]
  const read = loadCase({ format: 'liftmap-case', version: 1, title: 'x', board: { path: 'b.json' }, passes })
  if (!read.ok) throw new Error('the case loads')
  const marks = marksWithFound(read.value, model)
  expect(marks).toMatchObject([{ kind: 'corrosion', side: 'top', at: model.partByRef.get('U14')?.placement.at }])
  expect(marksWithFound({ ...read.value, marks }, model)).toEqual(marks)
})

test('marks are sorted by what they say, and notes say nothing', () => {
  const at = { x: 1, y: 2 }
  const { spills, areas, dams, slips } = sortMarks([
    { kind: 'note', id: 'a', side: 'top', at, text: 'look here' },
    { kind: 'clean', id: 'b', side: 'top', at, radiusMm: 2 },
    { kind: 'slip', id: 'c', side: 'top', at, radiusMm: 2 },
    { kind: 'dam', id: 'd', side: 'top', path: [at, { x: 3, y: 4 }] },
  ])
  expect([spills.length, areas.length, dams.length, slips.length]).toEqual([0, 1, 1, 1])
})
