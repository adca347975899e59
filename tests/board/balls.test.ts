/** Tables of balls: read in the forms that shops have, put on a package, and bits of lanes tied to them. */
import { describe, expect, test } from 'vitest'
import { readFileSync } from 'node:fs'
import { sayFault } from '../../src/base/index.ts'
import {
  applyEdit,
  type BoardDescription,
  boardSchema,
  loadBoard,
  packageOutlines,
  readBalls,
} from '../../src/board/index.ts'
import { faultsIn, unwrap } from '../support/board-fixture.ts'

const bowline = boardSchema.parse(JSON.parse(readFileSync('boards/bowline-8.json', 'utf8')))
const sound = (board: BoardDescription) => unwrap(loadBoard(board))

describe('reading a table of balls', () => {
  const read = (text: string) => unwrap(readBalls(text))

  test('with headings in any order, in quotes, with semicolons', () => {
    expect(read('Net;Signal Name;Ball\n"D;0";DQ0_A;b2\nGND;VSS;A1\n')).toEqual([
      { ball: 'B2', signal: 'DQ0_A', net: 'D;0' },
      { ball: 'A1', signal: 'VSS', net: 'GND' },
    ])
  })

  test('without headings: ball, signal, net; or with something before the ball', () => {
    expect(read('# of our own\nB2,DQ0_A\nA1,VSS,GND')).toEqual([
      { ball: 'B2', signal: 'DQ0_A' },
      { ball: 'A1', signal: 'VSS', net: 'GND' },
    ])
    expect(read('1\tB2\tDQ0_A\n2\tA1\tVSS')).toEqual([
      { ball: 'B2', signal: 'DQ0_A' },
      { ball: 'A1', signal: 'VSS' },
    ])
  })

  test('what is no ball, and a ball twice with two signals, are named by their lines', () => {
    expect(faultsIn(readBalls('B2,DQ0\nthe end,really\nB2,DQ1')).map(sayFault)).toEqual([
      'line 2: found "the end, really", expected a ball such as G2, and its signal.',
      'line 3: found B2 a second time, otherwise, expected each ball once.',
    ])
    expect(faultsIn(readBalls(' \n')).map(sayFault)[0]).toContain('found nothing')
  })
})

// Byte patches of the 180-ball package lie at rows B to F and N to U (boards/packages/180-ball.json); which of their balls
// carries which bit is invented here, as no open source tells it.
const patch = (rows: readonly string[], columns: readonly number[]): string[] =>
  rows.flatMap((row) => columns.map((column) => `${row}${column}`)).slice(0, 8)
const A = [...patch(['B', 'C', 'D'], [2, 3, 4]), ...patch(['B', 'C', 'D'], [11, 12, 13])]
const B = [...patch(['R', 'T', 'U'], [2, 3, 4]), ...patch(['R', 'T', 'U'], [11, 12, 13])]
const table = [...A.map((ball, dq) => `${ball},DQ${dq}_A`), ...B.map((ball, dq) => `${ball},DQ${dq}_B`), 'A1,VSS']

describe('balls named on a board', () => {
  const balls = unwrap(readBalls(table.join('\n')))
  const named = unwrap(applyEdit(bowline, { kind: 'name-balls', ref: 'U11', balls }))

  test('each data bit of its lanes comes to its ball, in order of channel and number', () => {
    const lanes = sound(named).lanes.filter(({ part }) => part === 'U11')
    expect(lanes.map(({ name, memoryBalls }) => [name, memoryBalls])).toEqual([
      ['A0', A.slice(0, 8)],
      ['A1', A.slice(8)],
      ['B0', B.slice(0, 8)],
      ['B1', B.slice(8)],
    ])
    expect(sound(named).partByRef.get('U11')?.pads).toHaveLength(packageOutlines.get('180-ball')?.ballCount ?? 0)
  })

  test('swaps of a lane are kept: its bit i lies on the ball of DQ swaps[i]', () => {
    const swaps = [7, 6, 5, 4, 3, 2, 1, 0]
    const swapped = unwrap(applyEdit(bowline, { kind: 'order-bits', lane: 'U11.A0', swaps }))
    const both = sound(unwrap(applyEdit(swapped, { kind: 'name-balls', ref: 'U11', balls })))
    expect(both.laneById.get('U11.A0')?.memoryBalls).toEqual(A.slice(0, 8).toReversed())
  })

  test('a net that core and memory share ties the core’s ball to the bit, whichever is named first', () => {
    const [first = ''] = A
    const core = [{ ball: 'AA1', signal: 'M0_D0', net: 'N0' }]
    const memory = balls.map((ball) => (ball.ball === first ? { ...ball, net: 'N0' } : ball))
    const coreRef = sound(bowline).core?.ref ?? ''
    for (const order of [
      [
        { ref: coreRef, balls: core },
        { ref: 'U11', balls: memory },
      ],
      [
        { ref: 'U11', balls: memory },
        { ref: coreRef, balls: core },
      ],
    ]) {
      const board = order.reduce((now, edit) => unwrap(applyEdit(now, { kind: 'name-balls', ...edit })), bowline)
      expect(sound(board).laneById.get('U11.A0')?.coreBalls[0]).toBe('AA1')
    }
  })

  test('a table whose data signals are not as many as the bits names balls and ties no bit', () => {
    const few = unwrap(applyEdit(bowline, { kind: 'name-balls', ref: 'U11', balls: balls.slice(0, 9) }))
    expect(sound(few).laneById.get('U11.A0')?.memoryBalls).toEqual(sound(bowline).laneById.get('U11.A0')?.memoryBalls)
    expect(
      sound(few)
        .partByRef.get('U11')
        ?.pads.find(({ number }) => number === A[0])?.signal,
    ).toBe('DQ0_A')
  })

  test('balls that the package does not have, and parts without balls, are refused', () => {
    const why = (ref: string, ball: string): string =>
      faultsIn(applyEdit(bowline, { kind: 'name-balls', ref, balls: [{ ball, signal: 'VSS' }] }))
        .map(sayFault)
        .join(' ')
    expect(why('U11', 'ZZ9')).toContain('ZZ9, which U11 does not have')
    expect(why('L1', 'A1')).toContain('a part without balls')
  })
})
