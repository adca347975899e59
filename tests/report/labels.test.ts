/** Reports that name parts, channels and lanes, and tables entered by hand. */
import { describe, expect, test } from 'vitest'
import { laneStates, type PartTally, tableRowSchema, type Tally, tallyTable } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { linesAddUp, mustRead } from './support.ts'

const model = shippedBoard('hitch-12')
const failing = (tally: Tally): Record<string, number> =>
  Object.fromEntries(
    tally.parts.flatMap((part) =>
      part.channels.flatMap((channel) =>
        channel.lanes.filter((lane) => lane.errors > 0).map((lane) => [lane.id, lane.errors] as const),
      ),
    ),
  )
const part = (tally: Tally, ref: string): PartTally | undefined =>
  tally.parts.find((candidate) => candidate.ref === ref)

describe('reports with labels', () => {
  test.each([
    ['lane ids', 'lane,errors\nU13.A0,12\nU13.A1,0\nU15.B1,7\n'],
    ['lane ids in lower case with blanks', 'lane errors\nu13.a0 12\nu13.a1 0\nu15.b1 7\n'],
    ['part and lane apart', 'part;lane;count\nU13;A0;12\nU13;A1;0\nU15;B1;7\n'],
    ['channel id and byte number', 'channel\tbyte\terrors\nCH4\t0\t12\nCH4\t1\t0\nCH9\t1\t7\n'],
    ['part, channel letter and byte number', 'chip,channel,byte,errors\nU13,A,0,12\nU13,A,1,0\nU15,B,1,7\n'],
    ['part and lane without headings', 'U13 A0 12\nU13 A1 0\nU15 B1 7\n'],
    ['name=value', 'part=U13 lane=A0 errors=12\npart=U13 lane=A1 errors=0\npart=U15 lane=B1 errors=7\n'],
  ])('%s', async (_, text) => {
    const report = await mustRead(text, model)
    expect(report.tally.level).toBe('labels')
    expect(report.tally.rows).toMatchObject({ read: 3, unreadable: 0, unmapped: 0 })
    expect(failing(report.tally)).toEqual({ 'U13.A0': 12, 'U15.B1': 7 })
    const states = laneStates(report.tally)
    expect([states.get('U13.A0'), states.get('U13.A1'), states.get('U13.B0')]).toEqual(['fail', 'pass', 'untested'])
  })
  test('a name that is not on the board is unmapped, and shown', async () => {
    const report = await mustRead('lane,errors\nU13.A0,12\nU99.A0,3\n', model)
    expect(report.tally.rows).toMatchObject({ read: 1, unmapped: 1 })
    expect(report.tally.troubles).toEqual([
      { line: 3, text: 'U99.A0,3', why: 'no part, channel or lane of the board is called U99.A0' },
    ])
    expect(linesAddUp(report)).toBe(true)
  })
  test('a name that fits several lanes alike is not guessed', async () => {
    const report = await mustRead('lane,errors\nU13.A0,1\nA0,3\n', model)
    expect(report.tally.rows).toMatchObject({ read: 1, unmapped: 1 })
  })
  test('errors that only name the part put all its lanes in doubt, without inventing counts', async () => {
    const { tally } = await mustRead('part,errors\nU13,40\nU14,0\n', model)
    expect(part(tally, 'U13')).toMatchObject({ errors: 40, signature: { kind: 'package' } })
    expect(failing(tally)).toEqual({})
    const states = laneStates(tally)
    expect(['U13.A0', 'U13.B1', 'U14.A0', 'U15.A0'].map((id) => states.get(id))).toEqual([
      'fail',
      'fail',
      'pass',
      'untested',
    ])
  })
  test('lane and DQ go down to the bit', async () => {
    const { tally } = await mustRead('lane,dq,errors\nU13.A1,DQ5,90\nU13.A1,DQ2,1\n', model)
    expect(part(tally, 'U13')?.channels[0]?.lanes[1]?.bits).toEqual([0, 0, 1, 0, 0, 90, 0, 0])
    expect(part(tally, 'U13')?.signature).toMatchObject({ kind: 'line', where: 'U13.A1 bit 5' })
  })
})

describe('a table by hand', () => {
  test('adds up by lane, channel and part', () => {
    const tally = tallyTable(model, [
      { lane: 'U13.A0', errors: 5, bit: 3 },
      { part: 'U13', lane: 'A0', errors: 2 },
      { channel: 'CH9', errors: 11 },
      { part: 'U11', errors: 0 },
      { part: 'nobody', errors: 1 },
    ])
    expect(tally).toMatchObject({ level: 'table', rows: { read: 4, unmapped: 1, unreadable: 0, skipped: 0 } })
    expect(tally.troubles[0]).toMatchObject({ line: 5 })
    expect(part(tally, 'U13')?.errors).toBe(7)
    expect(part(tally, 'U15')).toMatchObject({ errors: 11, signature: { kind: 'channel', where: 'CH9' } })
    expect(part(tally, 'U11')?.signature.kind).toBe('clean')
    expect(part(tally, 'U12')?.signature.sentence).toMatch(/says nothing/)
  })
  test('a bit that the lane does not have is unmapped', () => {
    expect(tallyTable(model, [{ lane: 'U13.A0', errors: 5, bit: 8 }]).rows).toMatchObject({ read: 0, unmapped: 1 })
  })
  test('a row must name something', () => {
    expect(tableRowSchema.safeParse({ errors: 3 }).success).toBe(false)
    expect(tableRowSchema.safeParse({ lane: 'A0', errors: -1 }).success).toBe(false)
  })
})
