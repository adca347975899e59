/** Stacked memory beside the core's die: its structure by the published standards, its place, and how a board may say it. */
import { describe, expect, test } from 'vitest'
import { polygonContains } from '../../src/base/index.ts'
import {
  applyEdit,
  boardFromPattern,
  type BoardDescription,
  boardLikeness,
  boardRemarks,
  type BoardModel,
  type BoardPattern,
  type Digit,
  loadBoard,
  overlapsOf,
  packageBits,
  packageOutlines,
  standsOnBoard,
  usualPattern,
  usualSupplies,
} from '../../src/board/index.ts'
import { thumbnailOf } from '../../src/case/index.ts'
import { stackedBoard } from '../support/stacked-board.ts'

/**
 * JEDEC JESD235B (HBM DRAM, 2018), by its publisher's announcement: 1024 bits in 8 independent channels. JEDEC JESD238 (HBM3
 * DRAM, 2022), by its publisher's announcement: 16 independent channels, each of two pseudo channels. Strobes by 32 bits, and
 * 64 bits a channel in JESD238: from memory.
 */
const STANDARDS = [
  { name: 'stack-8x128', channels: 8, bits: 128, lanes: 4 },
  { name: 'stack-16x64', channels: 16, bits: 64, lanes: 2 },
] as const

const loaded = (pattern: Partial<BoardPattern>): BoardModel => {
  const whole = { ...usualPattern(), ...pattern }
  const board = boardFromPattern({ ...whole, supplies: usualSupplies(whole.package, whole.busBits) })
  if (!board.ok) throw new Error(JSON.stringify(board.faults))
  return board.value
}

describe.each(STANDARDS)('$name', ({ name, channels, bits, lanes }) => {
  const outline = packageOutlines.get(name)
  if (outline === undefined) throw new Error(`no outline ${name}`)

  test('has the channels and bits of its standard, each channel with commands of its own', () => {
    expect(packageBits(outline)).toBe(1024)
    const commands = outline.regions.filter(({ role }) => role === 'command')
    expect(commands).toHaveLength(channels)
    expect(new Set(commands.flatMap(({ serves = [] }) => serves)).size).toBe(channels * lanes)
    expect(commands.every(({ serves = [] }) => serves.length * 32 === bits)).toBe(true)
  })

  test.each([1, 2, 4, 6, 8])('%i of them stand on the core, beside its die, none on another', (count) => {
    const board = loaded({ package: name, busBits: count * 1024 })
    const core = board.core?.outline ?? []
    expect(board.memories).toHaveLength(count)
    expect(board.memories.every(({ description }) => description.carriedBy === board.core?.ref)).toBe(true)
    expect(board.memories.every(({ outline: body }) => body.every((at) => polygonContains(core, at)))).toBe(true)
    expect(overlapsOf(board.description)).toEqual([])
    expect(board.channels).toHaveLength(count * channels)
    expect(board.channels.every((channel) => channel.bitCount === bits && channel.parts.length === 1)).toBe(true)
    expect(boardLikeness(board)).toBe(
      `${count} ${count === 1 ? 'stack' : 'stacks'} on the core, ${count * 1024} bit, one side`,
    )
  })

  test('no lane of it reaches the board', () => {
    const board = loaded({ package: name, busBits: 2048 })
    expect(board.corridors).toEqual([])
    expect(board.lanes.filter(({ coreRegion }) => coreRegion !== undefined)).toEqual([])
    expect(board.regions.filter(({ part }) => part === board.core?.ref)).toEqual([])
    expect(boardRemarks(board)).toEqual([
      'The board has no address map: a report must name lanes, channels or parts itself.',
    ])
  })
})

test('supplies of a stack carry the voltages of their standard, and no range that nobody knows', () => {
  // JESD235B: 1.2 V, VPP 2.5 V (from memory); JESD238, by its publisher's announcement: 1.1 V; VPP 1.8 V (from memory)
  const volts = ({ rails }: BoardModel) => rails.map(({ name, nominalV }) => [name, nominalV])
  expect(volts(loaded({ package: 'stack-8x128', busBits: 1024 }))).toEqual(
    expect.arrayContaining([
      ['VMEM', 1.2],
      ['VPP', 2.5],
    ]),
  )
  const newer = loaded({ package: 'stack-16x64', busBits: 1024 })
  expect(volts(newer)).toEqual(
    expect.arrayContaining([
      ['VMEM', 1.1],
      ['VPP', 1.8],
    ]),
  )
  expect(newer.rails.find(({ name }) => name === 'VMEM')?.ohmsToGround).toBeUndefined()
  expect(newer.rails.find(({ name }) => name === 'VMEM')?.feeds).toEqual(expect.arrayContaining(['U1', 'U11']))
})

test.each([
  [{ sides: 'both' as const }, '$.sides: one side: stacks stand beside the die of the core'],
  [{ coreMm: 40 }, '$.coreMm: at least 49 mm for die and stacks'],
  [{ busBits: 1536 }, '$.busBits: a multiple of 1024 bit, which one package has'],
  [{ busBits: 9216 }, ''],
])('a pattern that can not be is refused by its field: %o', (change, expected) => {
  const board = boardFromPattern({ ...usualPattern(), package: 'stack-8x128', busBits: 4096, supplies: [], ...change })
  if (board.ok) throw new Error('a board that can not be')
  expect(board.faults.map(({ path, expected: wanted }) => `${path}: ${wanted}`)[0]).toContain(expected)
})

test('packages on the board take no bus as wide as stacks have', () => {
  const board = boardFromPattern({ ...usualPattern(), busBits: 1024, supplies: [] })
  expect(board).toMatchObject({
    ok: false,
    faults: [{ path: '$.busBits', expected: '64 to 512 bit with these packages' }],
  })
})

const changed = (change: (board: BoardDescription) => unknown): string[] => {
  const result = loadBoard(change(structuredClone(stackedBoard().description)))
  return result.ok ? [] : result.faults.map(({ path, found }) => `${path}: ${found}`)
}
const withPart = (board: BoardDescription, ref: string, fields: object): BoardDescription => ({
  ...board,
  parts: board.parts.map((part) => (part.ref === ref ? { ...part, ...fields } : part)),
})
const indexOf = (ref: string): number => stackedBoard().description.parts.findIndex((part) => part.ref === ref)

test('a board that says it wrongly is refused at the place', () => {
  const at = `$.parts[${indexOf('U11')}]`
  expect(changed((board) => withPart(board, 'U11', { carriedBy: 'U99' }))).toEqual([
    `${at}.carriedBy: "U99", which no part has`,
  ])
  expect(changed((board) => withPart(board, 'U11', { carriedBy: 'S1' }))).toEqual([
    `${at}.carriedBy: S1, of kind power-stage`,
  ])
  expect(changed((board) => withPart(board, 'U11', { side: 'bottom' }))).toEqual([`${at}.carriedBy: U11 on the bottom`])
  expect(changed((board) => withPart(board, 'U11', { at: { x: 10, y: 20 } }))).toEqual([
    `${at}.at: U11 beyond the edge of U1`,
  ])
  expect(changed((board) => withPart(board, 'S1', { carriedBy: 'U1' }))).toEqual([
    `$.parts[${indexOf('S1')}].carriedBy: S1, of kind power-stage, on a substrate`,
  ])
  const drawn = (board: BoardDescription): unknown => {
    const [first] = board.memory.channels
    const lane = first?.lanes[0]
    if (lane !== undefined) {
      lane.coreRegion = 'A0'
      lane.corridor = [
        { x: 1, y: 20 },
        { x: 2, y: 20 },
      ]
    }
    return board
  }
  expect(changed(drawn)).toEqual(
    expect.arrayContaining([
      '$.memory.channels[0].lanes[0].coreRegion: "A0"',
      '$.memory.channels[0].lanes[0].corridor: a path',
    ]),
  )
})

test('a stack on no core is a part of its own, whose balls are not known', () => {
  const alone = loadBoard(withPart(stackedBoard().description, 'U11', { carriedBy: undefined, at: { x: 20, y: 30 } }))
  if (!alone.ok) throw new Error(JSON.stringify(alone.faults))
  expect(alone.value.memories.filter(standsOnBoard).map(({ ref }) => ref)).toEqual(['U11'])
  expect(alone.value.corridors).toHaveLength(32)
  expect(boardRemarks(alone.value)).toContain('U11 is a stack on no core: its balls on the board are not known.')
})

test('an address map leads to channels of the one body', () => {
  const { description, channels } = stackedBoard()
  // 16 channels: four bits of the address in turn, the first the most significant
  const digits: Digit[] = [11, 10, 9, 8].map((bit) => ({ kind: 'field', low: bit, high: bit, from: 'address' }))
  const order = channels.map(({ id }) => id)
  const mapped = loadBoard({ ...description, addressMap: { addressBits: 34, channel: { digits, order } } })
  expect(mapped.ok && mapped.value.channels.filter(({ parts }) => parts[0] === 'U11').map(({ id }) => id)).toEqual(
    order.slice(0, 8),
  )
})

describe('the editor', () => {
  const edited = (board: BoardDescription, edit: Parameters<typeof applyEdit>[1]): BoardDescription => {
    const result = applyEdit(board, edit)
    if (!result.ok) throw new Error(JSON.stringify(result.faults))
    return result.value
  }
  const placeOf = (board: BoardDescription, ref: string) => {
    const part = board.parts.find((each) => each.ref === ref)
    return [part?.at.x, part?.at.y, part?.rotationDeg, part?.side]
  }
  const before = stackedBoard().description
  const core = before.parts.find(({ ref }) => ref === 'U1')?.at ?? { x: 0, y: 0 }

  test('takes stacks along when the core moves, turns or changes sides, and back again', () => {
    const moved = edited(before, { kind: 'move', refs: ['U1'], byMm: { x: 2, y: -1 } })
    const [x = 0, y = 0, deg, side] = placeOf(before, 'U11')
    expect(placeOf(moved, 'U11')).toEqual([Number(x) + 2, Number(y) - 1, deg, side])
    // a quarter turn to the left about the core takes what lay right of its middle to above it
    const turned = edited(before, { kind: 'rotate', refs: ['U1'], byDeg: 90, about: 'each' })
    expect(placeOf(turned, 'U11')).toEqual([core.x - (Number(y) - core.y), core.y + (Number(x) - core.x), 90, 'top'])
    const over = edited(turned, { kind: 'change-side', refs: ['U1'], to: 'bottom' })
    expect(loadBoard(over).ok).toBe(true)
    const back = edited(over, { kind: 'change-side', refs: ['U1'], to: 'top' })
    expect(placeOf(back, 'U11')).toEqual(placeOf(turned, 'U11'))
  })

  test('keeps a stack on its core when that is renamed, and leaves it on the board when that is taken away', () => {
    const renamed = edited(before, { kind: 'rename', ref: 'U1', to: 'U7' })
    expect(renamed.parts.flatMap(({ carriedBy }) => carriedBy ?? [])).toEqual(['U7', 'U7'])
    const without = edited(before, { kind: 'remove', refs: ['U1'] })
    expect(without.parts.flatMap(({ carriedBy }) => carriedBy ?? [])).toEqual([])
  })

  test('puts a memory on a core and off it again', () => {
    const off = edited(before, { kind: 'change-part', ref: 'U11', change: { carriedBy: null } })
    expect(edited(off, { kind: 'change-part', ref: 'U11', change: { carriedBy: 'U1' } })).toEqual(before)
  })
})

test('the small picture draws stacks over the core', () => {
  const kinds = thumbnailOf(stackedBoard()).parts.map(({ kind }) => kind)
  expect(kinds.slice(kinds.indexOf('core'))).toEqual(['core', 'stack', 'stack'])
})
