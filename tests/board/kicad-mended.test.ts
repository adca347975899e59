/** Trifles that real layouts have and that refuse no board: each is mended, left out or renamed, and said. By hand. */
import { describe, expect, it } from 'vitest'
import { type KicadImport, loadBoard } from '../../src/board/index.ts'
import { footprintText, imported, layoutText, type PadText } from '../support/kicad-text.ts'

const pads = (count: number, netOf: (k: number) => string): PadText[] =>
  Array.from({ length: count }, (_, k) => ({ number: String(k + 1), x: k, y: 0, net: netOf(k) }))
const part = (ref: string, x = 50, y = 50): string =>
  footprintText(
    ref,
    pads(4, (k) => `/N${k}`),
    { x, y },
  )

const refsOf = ({ description }: KicadImport): string[] => description.parts.map(({ ref }) => ref)

/** The import of a text, which must load as a board as well. */
async function loaded(text: string): Promise<KicadImport> {
  const board = await imported(text)
  const model = loadBoard(board.description)
  if (!model.ok) throw new Error(JSON.stringify(model.faults))
  return board
}

describe('references', () => {
  it('with a slash are renamed and listed, and the board loads', async () => {
    const board = await loaded(layoutText([part('JP1_3.3V/5V'), part('U1', 20, 20)]))
    expect(refsOf(board)).toEqual(['JP1_3.3V-5V', 'U1'])
    expect(board.untold.join('\n')).toContain('JP1_3.3V/5V is JP1_3.3V-5V')
  })

  it('that a slash made alike stay apart', async () => {
    expect(refsOf(await loaded(layoutText([part('J1-A'), part('J1/A', 20, 20)])))).toEqual(['J1-A', 'J1-A#2'])
  })

  it('that are empty, repeated, a slash alone or broken over lines are all kept', async () => {
    const board = await loaded(
      layoutText([part('REF**'), part('REF**', 20, 20), part('', 30, 30), part('/', 40, 40), part('J\\n2', 60, 60)]),
    )
    expect(refsOf(board)).toEqual(['REF**', 'REF**#2', 'unnamed-1', '-', 'J 2'])
    expect(board.untold.join('\n')).toMatch(/REF\*\*#2[^]*unnamed-1/)
  })

  it('with a slash name a memory whose lanes are whole', async () => {
    const data = Array.from(
      { length: 8 },
      (_, k): PadText => ({ number: `D${k}`, x: k, y: 0, net: `/D${k}`, pinFunction: `DQ${k}` }),
    )
    const command = ['RAS', 'CAS', 'CK', 'CKE'].map(
      (pinFunction, k): PadText => ({ number: `C${k}`, x: k, y: 2, net: `/C${k}`, pinFunction }),
    )
    const board = await loaded(
      layoutText([
        footprintText('U2/A', [...data, ...command], { x: 20, y: 20 }),
        footprintText(
          'U1',
          pads(8, (k) => `/D${k}`),
          { x: 60, y: 60 },
        ),
      ]),
    )
    expect(board.description.memory.channels.map(({ id, part: ref }) => [id, ref])).toEqual([['U2-A', 'U2-A']])
  })
})

describe('parts off the board', () => {
  it('are kept and listed', async () => {
    const board = await loaded(layoutText([part('U1'), part('U9', 400, 50)]))
    expect(refsOf(board)).toContain('U9')
    expect(board.untold.join('\n')).toContain('off the board: U9')
  })

  it('are left out and listed where they lie metres away', async () => {
    const board = await loaded(layoutText([part('U1'), part('U9', -5000, 50)]))
    expect(refsOf(board)).toEqual(['U1'])
    expect(board.untold.join('\n')).toContain('left out: U9')
  })
})

describe('an edge', () => {
  const rectangle = (x1: number, y1: number, x2: number, y2: number): string =>
    `(gr_rect (start ${x1} ${y1}) (end ${x2} ${y2}) (layer "Edge.Cuts") (width 0.1))`

  it('may have a slot across it, which is left out and said', async () => {
    const board = await loaded(layoutText([part('U1'), rectangle(20, 90, 30, 104)]))
    expect(board.description.holes).toEqual([])
    expect(board.untold.join('\n')).toContain("Cut-outs that cross the board's edge are left out")
  })

  it('may have a cut-out whose line crosses itself', async () => {
    const bow = '(gr_poly (pts (xy 20 20) (xy 30 30) (xy 30 20) (xy 20 26)) (layer "Edge.Cuts") (width 0.1))'
    const board = await loaded(layoutText([part('U1'), bow]))
    expect(board.description.holes).toHaveLength(1)
  })
})

describe('a board thickness of 0', () => {
  it('is taken as not told', async () => {
    const board = await loaded(layoutText([part('U1')]).replace('(thickness 1.6)', '(thickness 0)'))
    expect(board.description.thicknessMm).toBe(1.6)
    expect(board.untold.join('\n')).toContain('gives no board thickness')
  })
})

describe('a lane whose tracks leave the board', () => {
  it('gets no drawn corridor, which is said', async () => {
    const data = Array.from(
      { length: 8 },
      (_, k): PadText => ({ number: `D${k}`, x: k, y: 0, net: `/D${k}`, pinFunction: `DQ${k}` }),
    )
    const command = ['RAS', 'CAS', 'CK', 'CKE'].map(
      (pinFunction, k): PadText => ({ number: `C${k}`, x: k, y: 2, net: `/C${k}`, pinFunction }),
    )
    const nets = Array.from({ length: 8 }, (_, k) => `(net ${k + 20} "/D${k}")`)
    const tracks = Array.from({ length: 8 }, (_, k) =>
      [
        `(segment (start ${20 + k} 20) (end ${20 + k} -60) (width 0.1) (layer "F.Cu") (net ${k + 20}))`,
        `(segment (start ${20 + k} -60) (end ${60 + k} 60) (width 0.1) (layer "F.Cu") (net ${k + 20}))`,
      ].join('\n'),
    )
    const board = await loaded(
      layoutText([
        ...nets,
        footprintText('U2', [...data, ...command], { x: 20, y: 20 }),
        footprintText(
          'U1',
          pads(8, (k) => `/D${k}`),
          { x: 60, y: 60 },
        ),
        ...tracks,
      ]),
    )
    expect(board.description.memory.channels[0]?.lanes[0]?.corridor).toBeUndefined()
    expect(board.untold.join('\n')).toContain('leave the board')
  })
})
