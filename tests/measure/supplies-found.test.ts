/** Which supplies of an input the board shows: what is a fuse, and to which input it belongs. */
import { describe, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import { measuringLines, type Supply } from '../../src/measure/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { padOn } from './measured.ts'

const bowline = shippedBoard('bowline-8')
const fuse = bowline.partByRef.get('F1')
if (fuse === undefined) throw new Error('no fuse')
const others = bowline.parts.filter(({ ref }) => !ref.startsWith('F'))
const aux = { name: '12V_AUX', nominalV: 12, stages: [], feeds: [], branches: [], points: [] }
const suppliesOn = (
  parts: readonly { readonly ref: string; readonly nets?: readonly string[] }[],
  more: readonly BoardModel['rails'][number][] = [],
  own: readonly Supply[] = [],
) => {
  const model = {
    ...bowline,
    rails: [...bowline.rails, ...more],
    parts: [...others, ...parts.map(({ ref, nets = [] }) => ({ ...fuse, ref, pads: nets.map((net) => padOn(net)) }))],
  }
  return measuringLines(model, 'ohms', [], own)
    .filter(({ line }) => line.kind === 'supply')
    .map(({ line, rail, isApart }) => [line.name, rail, isApart])
}

describe('a fuse', () => {
  // F is the letter of fuses, FB of ferrites, FD of fiducials (IEC 60617 and IEEE 315, from memory)
  test('is told by its letter and a number', () => {
    const refs = ['F1', 'F20', 'FB1', 'FD2', 'XF3', 'F', 'f4'].map((ref) => ({ ref }))
    expect(suppliesOn(refs)).toEqual([
      ['before F1', '12V', false],
      ['before F20', '12V', false],
    ])
  })

  test('without nets belongs to the only input, and of two to none', () => {
    expect(suppliesOn([{ ref: 'F1' }])).toEqual([['before F1', '12V', false]])
    expect(suppliesOn([{ ref: 'F1' }], [aux])).toEqual([])
  })

  test('with nets belongs to the one input that it joins, and between two or beside all to none', () => {
    expect(suppliesOn([{ ref: 'F1', nets: ['IN', '12V'] }], [aux])).toEqual([['before F1', '12V', false]])
    expect(suppliesOn([{ ref: 'F1', nets: ['IN', '12V_AUX'] }], [aux])).toEqual([['before F1', '12V_AUX', false]])
    expect(suppliesOn([{ ref: 'F1', nets: ['12V', '12V_AUX'] }], [aux])).toEqual([])
    expect(suppliesOn([{ ref: 'F1', nets: ['IN', 'OUT'] }])).toEqual([])
    expect(suppliesOn([{ ref: 'F1', nets: ['IN', 'VMEM'] }])).toEqual([])
  })
})

test('what the user names comes after the fuses of its rail, and takes the place of one by its name', () => {
  const own = (name: string, rail: string, joined: boolean): Supply => ({ name, rail, joined })
  expect(
    suppliesOn([{ ref: 'F1' }, { ref: 'F2' }], [], [own('slot', '12V', false), own('before F1', '12V', true)]),
  ).toEqual([
    ['before F2', '12V', false],
    ['slot', '12V', true],
    ['before F1', '12V', false],
  ])
  expect(suppliesOn([{ ref: 'F1' }], [], [own('plug', 'VMEM', true), own('lost', 'NONE', true)])).toEqual([
    ['before F1', '12V', false],
    ['plug', 'VMEM', false],
  ])
})
