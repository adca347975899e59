/** A wrong board is refused whole, each fault by its path, with what stood there and what was expected. */
import { describe, expect, test } from 'vitest'
import { valueAt } from '../../src/base/index.ts'
import { loadBoard, readBoard } from '../../src/board/index.ts'
import { smallBoard } from '../support/small-board.ts'

/** The small board with the value at a path replaced (or taken out, for undefined). */
function spoiled(...changes: readonly (readonly [readonly PropertyKey[], unknown])[]): unknown {
  const board: unknown = smallBoard()
  for (const [steps, value] of changes) {
    const holder = valueAt(board, steps.slice(0, -1))
    const key = steps.at(-1)
    if (typeof holder !== 'object' || holder === null || key === undefined)
      throw new Error(`nothing at ${steps.join('.')}`)
    if (value === undefined) Reflect.deleteProperty(holder, key)
    else Reflect.set(holder, key, value)
  }
  return board
}

function faultsOf(input: unknown): readonly { path: string; found: string; expected: string }[] {
  const result = loadBoard(input)
  return result.ok ? [] : result.faults
}

test('the board that the others are made from has no fault', () => {
  expect(faultsOf(smallBoard())).toEqual([])
})

const lane = (channel: number, index: number): PropertyKey[] => ['memory', 'channels', channel, 'lanes', index]
const bowTie = [
  { x: 0, y: 0 },
  { x: 2, y: 2 },
  { x: 2, y: 0 },
  { x: 0, y: 2 },
]

const cases: readonly (readonly [string, readonly PropertyKey[], unknown, string, RegExp, RegExp])[] = [
  ['a part twice', ['parts', 2, 'ref'], 'U2', '$.parts[2].ref', /"U2"/, /no other part/],
  ['an unknown package', ['parts', 1, 'package'], '181-ball', '$.parts[1].package', /181-ball/, /180-ball/],
  ['neither body nor package', ['parts', 3, 'body'], undefined, '$.parts[3]', /S1 with neither/, /body, or a package/],
  ['a slash in a ref', ['parts', 3, 'ref'], 'S/1', '$.parts[3].ref', /S\/1/, /without a slash/],
  ['a second core', ['parts', 3, 'kind'], 'core', '$.parts[3].kind', /second core \(S1 beside U1\)/, /at most one/],
  [
    'a channel on no part',
    ['memory', 'channels', 0, 'part'],
    'U9',
    '$.memory.channels[0].part',
    /"U9"/,
    /ref of a part/,
  ],
  [
    'a channel on a stage',
    ['memory', 'channels', 0, 'part'],
    'S1',
    '$.memory.channels[0].part',
    /power-stage/,
    /memory/,
  ],
  ['a lane on no part', [...lane(0, 1), 'part'], 'U9', '$.memory.channels[0].lanes[1].part', /"U9"/, /ref of a part/],
  ['a lane twice', [...lane(1, 0), 'name'], 'A0', '$.memory.channels[1].lanes[0].name', /"U2.A0"/, /once/],
  [
    'a lane that is no region',
    [...lane(0, 0), 'name'],
    'Z',
    '$.memory.channels[0].lanes[0].name',
    /"Z"/,
    /A0, A1, B0, B1/,
  ],
  [
    'a region that is none',
    [...lane(0, 0), 'memoryRegion'],
    'Z',
    '$.memory.channels[0].lanes[0].memoryRegion',
    /"Z"/,
    /A0/,
  ],
  [
    'a core region that is none',
    [...lane(0, 0), 'coreRegion'],
    'Z',
    '$.memory.channels[0].lanes[0].coreRegion',
    /"Z"/,
    /U1/,
  ],
  [
    'a swap too high',
    [...lane(0, 0), 'swaps'],
    [0, 1, 2, 3, 4, 5, 6, 8],
    '$.memory.channels[0].lanes[0].swaps[7]',
    /8/,
    /0 to 7/,
  ],
  [
    'a swap twice',
    [...lane(0, 0), 'swaps'],
    [0, 1, 2, 3, 4, 5, 6, 6],
    '$.memory.channels[0].lanes[0].swaps[7]',
    /6 for the second/,
    /once/,
  ],
  [
    'too few swaps',
    [...lane(0, 0), 'swaps'],
    [1, 0],
    '$.memory.channels[0].lanes[0].swaps',
    /2 entries/,
    /8 data bits/,
  ],
  [
    'a ball that is none',
    [...lane(0, 0), 'bits'],
    [{ memoryBall: 'I6' }],
    '$.memory.channels[0].lanes[0].bits[0].memoryBall',
    /I6/,
    /ball of U2/,
  ],
  [
    'a core ball that is none',
    [...lane(0, 0), 'bits'],
    [{ memoryBall: 'B2', coreBall: 'ZZ9' }],
    '$.memory.channels[0].lanes[0].bits[0].coreBall',
    /ZZ9/,
    /ball of U1/,
  ],
  [
    'a ball twice',
    [...lane(0, 0), 'bits'],
    [{ memoryBall: 'B2' }, { memoryBall: 'B2' }],
    '$.memory.channels[0].lanes[0].bits[1].memoryBall',
    /U2.B2/,
    /one data bit/,
  ],
  [
    'a corridor far off',
    [...lane(0, 0), 'corridor'],
    [
      { x: 60, y: 40 },
      { x: 60, y: 400 },
    ],
    '$.memory.channels[0].lanes[0].corridor',
    /320.0 mm/,
    /on the board/,
  ],
  [
    'a channel id twice',
    ['memory', 'channels', 1, 'id'],
    'CH0',
    '$.memory.channels[1].id',
    /"CH0"/,
    /no other channel/,
  ],
  ['a rail fed by nothing', ['rails', 0, 'stages'], ['S9'], '$.rails[0].stages[0]', /"S9"/, /ref of a part/],
  [
    'a rail that feeds nothing',
    ['rails', 0, 'feeds'],
    ['U2', 'U3', 'U9'],
    '$.rails[0].feeds[2]',
    /"U9"/,
    /ref of a part/,
  ],
  [
    'a branch beside its rail',
    ['rails', 0, 'branches', 0, 'feeds'],
    ['S1'],
    '$.rails[0].branches[0].feeds[0]',
    /does not feed/,
    /feeds/,
  ],
  ['a point on no part', ['rails', 0, 'points', 0, 'part'], 'S9', '$.rails[0].points[0].part', /"S9"/, /ref of a part/],
  ['a point on no pad', ['rails', 0, 'points', 0, 'pad'], '7', '$.rails[0].points[0].pad', /"7"/, /pad of S1/],
  [
    'an inverted range',
    ['rails', 0, 'ohmsToGround', 'lowOhm'],
    900,
    '$.rails[0].ohmsToGround',
    /900 to 150/,
    /at most highOhm/,
  ],
  [
    'copper that crosses itself',
    ['rails', 0, 'copper'],
    [{ layer: 'top', polygon: bowTie }],
    '$.rails[0].copper[0].polygon',
    /edges 0 and 2 cross/,
    /simple polygon/,
  ],
  [
    'copper off the board',
    ['rails', 0, 'copper'],
    [{ layer: 'top', polygon: [...bowTie.slice(0, 2), { x: -9, y: 2 }] }],
    '$.rails[0].copper[0].polygon',
    /9\.00 mm beyond/,
    /on the board/,
  ],
  ['a self-crossing outline', ['outline'], bowTie, '$.outline', /edges 0 and 2 cross/, /simple polygon/],
  [
    'an outline without area',
    ['outline'],
    [bowTie[0], bowTie[1], { x: 1, y: 1.0000001 }],
    '$.outline',
    /without area/,
    /area/,
  ],
  ['a hole off the board', ['holes', 0, 'at', 'x'], -9, '$.holes[0].at', /9.00 mm off/, /within the outline/],
  ['a cut-out off the board', ['holes', 1, 'polygon', 0, 'x'], -3, '$.holes[1].polygon', /3.00 mm beyond/, /inside/],
  ['a self-crossing cut-out', ['holes', 1, 'polygon'], bowTie, '$.holes[1].polygon', /cross/, /simple polygon/],
  [
    'a region twice',
    ['parts', 3, 'regions'],
    [0, 1].map(() => ({ name: 'N', polygon: bowTie.slice(0, 3) })),
    '$.parts[3].regions[1].name',
    /"N"/,
    /once/,
  ],
  [
    'a self-crossing region',
    ['parts', 3, 'regions'],
    [{ name: 'N', polygon: bowTie }],
    '$.parts[3].regions[0].polygon',
    /cross/,
    /simple/,
  ],
  [
    'a region far off its body',
    ['parts', 3, 'regions'],
    [
      {
        name: 'N',
        polygon: [
          { x: 60, y: 70 },
          { x: 62, y: 70 },
          { x: 62, y: 72 },
        ],
      },
    ],
    '$.parts[3].regions[0].polygon',
    /69.0 mm beyond/,
    /own drawing/,
  ],
  [
    'an order of other channels',
    ['addressMap', 'channel', 'order', 3],
    'CH9',
    '$.addressMap.channel.order[3]',
    /"CH9"/,
    /id of a channel/,
  ],
  [
    'an order without a channel',
    ['addressMap', 'channel', 'order', 3],
    'CH0',
    '$.addressMap.channel.order',
    /no channel CH3/,
    /every channel/,
  ],
  [
    'an order of a wrong count',
    ['addressMap', 'channel', 'order'],
    ['CH0', 'CH1', 'CH2'],
    '$.addressMap.channel.order',
    /3/,
    /4/,
  ],
  [
    'a mask beyond the address',
    ['addressMap', 'addressBits'],
    16,
    '$.addressMap.channel.digits[0].mask',
    /0x20200/,
    /16/,
  ],
  [
    'a limit beyond the address',
    ['addressMap', 'limit'],
    '0x100000001',
    '$.addressMap.limit',
    /0x100000001/,
    /0x100000000/,
  ],
  [
    'nothing left after subtract',
    ['addressMap', 'subtract'],
    '0x100000000',
    '$.addressMap.subtract',
    /0x100000000/,
    /less than/,
  ],
  ['a rotation that is no number', ['parts', 1, 'rotationDeg'], NaN, '$.parts[1].rotationDeg', /NaN/, /number/],
  ['a place at infinity', ['parts', 1, 'at', 'x'], Infinity, '$.parts[1].at.x', /Infinity/, /number/],
  ['a place out of range', ['parts', 1, 'at', 'x'], 1e9, '$.parts[1].at.x', /1000000000/, /at most 2000/],
  ['a slip in a field’s name', ['parts', 1, 'roation'], 3, '$.parts[1].roation', /3/, /no such field/],
  ['a board without a name', ['name'], undefined, '$.name', /nothing/, /string/],
]

describe('each fault has its path, what stood there and what was expected', () => {
  test.each(cases)('%s', (_, steps, value, path, found, expected) => {
    const faults = faultsOf(spoiled([steps, value]))
    expect(faults).toContainEqual(
      expect.objectContaining({
        path,
        found: expect.stringMatching(found),
        expected: expect.stringMatching(expected),
      }),
    )
  })
})

test('faults of form and faults between pieces are told together', () => {
  const board = spoiled(
    [['parts', 3, 'side'], 'left'],
    [['parts', 2, 'ref'], 'U2'],
    [
      ['rails', 0, 'stages'],
      ['S1', 'S9'],
    ],
    [['outline'], bowTie],
    [[...lane(0, 0), 'memoryRegion'], 'Z'],
    [['addressMap', 'channel', 'order', 0], 'CH7'],
  )
  const paths = faultsOf(board).map((fault) => fault.path)
  for (const path of [
    '$.parts[3].side',
    '$.parts[2].ref',
    '$.rails[0].stages[1]',
    '$.outline',
    '$.memory.channels[0].lanes[0].memoryRegion',
    '$.addressMap.channel.order[0]',
  ])
    expect(paths).toContain(path)
})

test('a part with a fault of form is still known by its ref: nobody is told that it is missing', () => {
  const paths = faultsOf(spoiled([['parts', 1, 'side'], 'left'])).map((fault) => fault.path)
  expect(paths).toEqual(['$.parts[1].side'])
})

test('each spoiled board is refused whole', () => {
  for (const [, steps, value] of cases) expect(loadBoard(spoiled([steps, value])).ok).toBe(false)
})

test.each([
  ['no text at all', ''],
  ['half a file', JSON.stringify(smallBoard()).slice(0, 400)],
  ['nested brackets', '['.repeat(5_000_000)],
  ['nested objects', '{"a":'.repeat(1_000_000)],
  ['a key that reaches a prototype', '{"__proto__":{"polluted":true}}'],
  [
    'the same deeper down',
    JSON.stringify(smallBoard()).replace('"name":"small"', '"name":"small","__proto__":{"polluted":true}'),
  ],
  ['a list of two million lists', `{"parts":[${'[],'.repeat(2_000_000)}[]]}`],
  [
    'an object of a hundred thousand fields',
    `{"parts":[{${Array.from({ length: 100_000 }, (_, i) => `"k${i}":0`).join(',')}}]}`,
  ],
])('%s is refused with few words', (_, text) => {
  const result = readBoard(text)
  expect(result).toEqual({ ok: false, faults: [expect.anything()] })
  expect(Reflect.get({}, 'polluted')).toBeUndefined()
})

test('an object that holds itself is refused', () => {
  const board = smallBoard()
  Reflect.set(board, 'rails', [board])
  expect(loadBoard(board).ok).toBe(false)
})
