/** Labelled addresses of a board: read from any text, learnt from, put to the board's channels, and held against a map. */
import { describe, expect, test } from 'vitest'
import { sayFault, seededRandom } from '../../src/base/index.ts'
import {
  applyEdit,
  type BoardDescription,
  boardRemarks,
  boardSchema,
  compileAddressMap,
  heldAgainst,
  hexOf,
  type LabelledAddress,
  learnAddressMap,
  loadBoard,
  mapForBoard,
  observationsOf,
  readLabelledAddresses,
} from '../../src/board/index.ts'
import { readFileSync } from 'node:fs'
import { faultsIn, unwrap } from '../support/board-fixture.ts'
import { SHIPPED_BOARDS } from '../support/labels-by-package.ts'

const shipped = (name: string): BoardDescription =>
  boardSchema.parse(JSON.parse(readFileSync(`boards/${name}.json`, 'utf8')))

/** Addresses drawn evenly over the memory, and where the board's own map puts them. */
function labelled(board: BoardDescription, rows: number, seed: number, by: 'channel' | 'part'): LabelledAddress[] {
  if (board.addressMap === undefined) throw new Error('no map')
  const map = unwrap(compileAddressMap(board.addressMap))
  const partOf = new Map(board.memory.channels.map(({ id, part }) => [id, part]))
  const random = seededRandom(seed)
  return Array.from({ length: rows }, () => {
    const share = random.next() + random.next() * 2 ** -32
    const address = Math.min(map.endAddress - 1, Math.floor(share * map.endAddress))
    const channel = map.decode(address)?.channel ?? ''
    return { address: hexOf(address), label: by === 'channel' ? channel : (partOf.get(channel) ?? '') }
  })
}

const learnt = (rows: readonly LabelledAddress[]) => learnAddressMap(observationsOf(rows), seededRandom(1))

describe('the map of a board from labelled addresses', () => {
  test.each(SHIPPED_BOARDS)('%s by channel: every fresh address comes to its own channel', (name) => {
    const board = shipped(name)
    const map = unwrap(mapForBoard(learnt(labelled(board, 400, 7, 'channel')), board.memory.channels))
    expect(map.channel.orderGuessed).toBeUndefined()
    const held = heldAgainst(map, board.memory.channels, labelled(board, 2000, 8, 'channel'))
    expect(held).toEqual({ rows: 2000, elsewhere: [] })
    expect(loadBoard({ ...board, addressMap: map }).ok).toBe(true)
  })

  test.each(SHIPPED_BOARDS)(
    '%s by package: every fresh address comes to its package, and the guess is named',
    (name) => {
      const board = shipped(name)
      const map = unwrap(mapForBoard(learnt(labelled(board, 500, 9, 'part')), board.memory.channels))
      const several = new Set(
        board.memory.channels.flatMap(({ part }, i, all) =>
          all.findIndex((one) => one.part === part) < i ? [part] : [],
        ),
      )
      expect(new Set(map.channel.orderGuessed ?? [])).toEqual(several)
      expect(heldAgainst(map, board.memory.channels, labelled(board, 2000, 10, 'part'))?.elsewhere).toEqual([])
      const model = unwrap(loadBoard({ ...board, addressMap: map }))
      expect(boardRemarks(model).some((words) => words.includes('that order is a guess'))).toBe(several.size > 0)
    },
  )

  test('what is lacking is said: too few labels, a stranger, a part with other channels, a channel without addresses', () => {
    const board = shipped('hitch-12')
    const { channels } = board.memory
    const rows = labelled(board, 500, 11, 'part')
    const why = (some: readonly LabelledAddress[], of = channels): string =>
      faultsIn(mapForBoard(learnt(some), of))
        .map(sayFault)
        .join(' ')
    expect(why(rows.slice(0, 5))).toContain('too few labels to settle the map')
    expect(why(rows.map((row) => (row.label === 'U11' ? { ...row, label: 'U99' } : row)))).toContain(
      'U99, which is neither a channel nor a part with channels',
    )
    const [first] = channels
    if (first === undefined) throw new Error('no channel')
    expect(why(rows, [...channels, { ...first, id: 'THIRD' }])).toContain(`${first.part} at 2 places of the map`)
    const more = [...channels, { ...first, id: 'EXTRA', part: 'U77' }]
    expect(why(rows, more)).toContain('no address of EXTRA')
  })
})

test('a map is held against labels: wrong ones by number, any package but one, and ?a says nothing', () => {
  const board = shipped('bowline-8')
  const [first, second] = labelled(board, 2, 12, 'part')
  if (first === undefined || second === undefined || board.addressMap === undefined) throw new Error('no rows')
  const rows = [
    first,
    { ...second, label: 'U99' },
    { ...first, label: `!${first.label}` },
    { ...first, label: '!U99' },
    { ...first, label: '?a' },
  ]
  expect(heldAgainst(board.addressMap, board.memory.channels, rows)).toEqual({ rows: 4, elsewhere: [2, 3] })
})

describe('reading labelled addresses', () => {
  const names = new Set(['U5', 'U6', 'CH2', 'U5.CH2'])
  const read = (text: string, label?: string) => unwrap(readLabelledAddresses(text, { names, label }))

  test('lines of address and label, in any order, with what stands around', () => {
    expect(read('address,label\n0x1f400,U5\n\n# note\n0x2000 in U6: 3 errors\nU5.CH2;0X3000\r\n').rows).toEqual([
      { address: '0x1f400', label: 'U5', line: 2 },
      { address: '0x2000', label: 'U6', line: 5 },
      { address: '0x3000', label: 'U5.CH2', line: 6 },
    ])
    expect(read('address,label\n0x1f400,U5\n').skipped).toEqual([1])
  })

  test('one package that is not known, and any but one', () => {
    expect(read('0x1000,?a\n0x2000,!U5').rows.map(({ label }) => label)).toEqual(['?a', '!U5'])
  })

  test('a label for all of them: addresses alone, decimal ones of five digits and more', () => {
    expect(read('128000\n7\n256000', 'U6')).toEqual({
      rows: [
        { address: '0x1f400', label: 'U6', line: 1 },
        { address: '0x3e800', label: 'U6', line: 3 },
      ],
      skipped: [2],
    })
  })

  test('of several numbers the one that changes from line to line is the address, whichever place it has', () => {
    const words = ['0x55555555', '0xaaaaaaaa']
    const lines = Array.from(
      { length: 12 },
      (_, i) => `${words[i % 2]} ${words[(i + 1) % 2]} 0x${(4096 * (i + 1)).toString(16)} U5`,
    )
    expect(read(lines.join('\n')).rows.map(({ address }) => Number(address))).toEqual(
      Array.from({ length: 12 }, (_, i) => 4096 * (i + 1)),
    )
  })

  test('two columns that change alike are asked about, and a line with two names is skipped', () => {
    const unclear = readLabelledAddresses('0x1000 0x2000 U5\n0x1100 0x2100 U6', { names })
    expect(faultsIn(unclear).map(sayFault)[0]).toContain('several numbers that could be the address')
    expect(read('0x1000 U5 U6\n0x2000 U5').skipped).toEqual([1])
  })

  test('a text without any is refused with its first line', () => {
    expect(faultsIn(readLabelledAddresses('all lanes passed', { names })).map(sayFault)[0]).toContain(
      'all lanes passed',
    )
  })
})

describe('a board keeps what its map is learnt from', () => {
  const board = shipped('hitch-12')
  const rows = labelled(board, 20, 13, 'part')
  const kept = unwrap(applyEdit(board, { kind: 'label-addresses', rows }))

  test('each row once, and taken away by number', () => {
    expect(kept.labelledAddresses).toEqual(rows)
    expect(unwrap(applyEdit(kept, { kind: 'label-addresses', rows }))).toBe(kept)
    const left = unwrap(applyEdit(kept, { kind: 'forget-labels', lines: [1, 3] }))
    expect(left.labelledAddresses).toEqual(rows.filter((_, i) => i !== 0 && i !== 2))
    const none = unwrap(applyEdit(kept, { kind: 'forget-labels', lines: rows.map((_, i) => i + 1) }))
    expect('labelledAddresses' in none).toBe(false)
  })

  test('a part that is renamed is renamed in labels and in the guessed order', () => {
    const map = unwrap(mapForBoard(learnt(labelled(board, 500, 14, 'part')), board.memory.channels))
    const withMap = unwrap(applyEdit(kept, { kind: 'use-address-map', map }))
    const renamed = unwrap(applyEdit(withMap, { kind: 'rename', ref: 'U11', to: 'M1' }))
    expect(renamed.labelledAddresses?.some(({ label }) => label === 'U11')).toBe(false)
    expect(renamed.labelledAddresses?.filter(({ label }) => label === 'M1')).toHaveLength(
      rows.filter(({ label }) => label === 'U11').length,
    )
    expect(renamed.addressMap?.channel.orderGuessed).toContain('M1')
    expect(loadBoard(renamed).ok).toBe(true)
  })

  test('the order of a lane’s data bits is put in, and a lane that is none is refused', () => {
    const swaps = [7, 6, 5, 4, 3, 2, 1, 0]
    const ordered = unwrap(applyEdit(board, { kind: 'order-bits', lane: 'U11.B0', swaps }))
    const lanes = ordered.memory.channels.flatMap(({ part, lanes: all }) => all.map((lane) => ({ part, ...lane })))
    expect(lanes.find(({ part, name }) => part === 'U11' && name === 'B0')?.swaps).toEqual(swaps)
    expect(faultsIn(applyEdit(board, { kind: 'order-bits', lane: 'U11.X', swaps })).map(sayFault)[0]).toContain(
      'no lane',
    )
  })
})
