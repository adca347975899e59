/**
 * Several files of one board put together, and the same board through each format. The files were written by KiCad's exporters
 * out of a board of ours; what they must give is what its layout gives, which other tests hold to counted truth.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import { type BoardDescription, type BoardImport, importBoard, loadBoard } from '../../src/board/index.ts'
import {
  fixtureText,
  importedFixtures,
  lanesOf,
  originShift,
  padsElsewhere,
  partsByRef,
  pinGroups,
  textFile,
} from '../support/board-data.ts'

/** Rounding of 0.0001 inch on both sides of a difference. */
const ROUNDING_MM = 0.006

let layout: BoardDescription
beforeAll(async () => {
  layout = (await importedFixtures('splint.kicad_pcb')).description
})

const sidesOf = ({ parts }: BoardDescription) => parts.map(({ ref, side }) => `${ref} ${side}`).toSorted()
const merged = async (...files: { readonly name: string; readonly text: string }[]): Promise<BoardImport> => {
  const result = await importBoard(files.map(({ name, text }) => textFile(name, text)))
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

const netlist = () => ({ name: 'netlist', text: fixtureText('netlist.d356') })
/** The table of places with another rule for each coordinate. */
const places = (change: (row: { x: number; y: number; side: string }) => { x: number; y: number }) => ({
  name: 'places',
  text: fixtureText('places.csv')
    .split('\n')
    .map((line) => {
      const cells = line.split(',')
      const side = cells.at(-1) ?? ''
      const [x, y] = [Number(cells.at(-4)), Number(cells.at(-3))]
      if (cells.length !== 7 || Number.isNaN(x)) return line
      const moved = change({ x, y, side })
      return [...cells.slice(0, 3), moved.x.toFixed(6), moved.y.toFixed(6), ...cells.slice(5)].join(',')
    })
    .join('\n'),
})

describe('a netlist and a table of places', () => {
  const agrees = ({ description }: BoardImport): void => {
    const shift = originShift(layout, description, 'IC14')
    expect(padsElsewhere(layout, description, shift, ROUNDING_MM)).toEqual([])
    expect(padsElsewhere(description, layout, { x: -shift.x, y: -shift.y }, ROUNDING_MM)).toEqual([])
    expect(pinGroups(description)).toEqual(pinGroups(layout))
    expect(sidesOf(description)).toEqual(sidesOf(layout))
    expect(lanesOf(description)).toEqual(lanesOf(layout))
  }

  it('give the parts, sides, pads, nets and lanes of the layout that they come from', async () => {
    const board = await importedFixtures('netlist.d356', 'places.csv')
    agrees(board)
    expect(partsByRef(board.description).get('C6')).toMatchObject({ value: '100n', rotationDeg: 30, side: 'bottom' })
    expect(loadBoard(JSON.parse(JSON.stringify(board.description))).ok).toBe(true)
    expect(board.untold[0]).toBe('The board is put together: places from places.csv; pads and nets from netlist.d356.')
  })

  it('fit where the table counts from another origin, which is said', async () => {
    const board = await merged(
      netlist(),
      places(({ x, y }) => ({ x: x - 104, y: y + 124 })),
    )
    agrees(board)
    expect(board.untold.join('\n')).toMatch(/places counts from another origin; it was moved by 104, -124 mm/)
  })

  it('fit where the table mirrors the parts of the bottom, which is said', async () => {
    const board = await merged(
      netlist(),
      places(({ x, y, side }) => ({ x: side === 'bottom' ? 300 - x : x, y })),
    )
    agrees(board)
    expect(board.untold.join('\n')).toContain('places has bottom parts mirrored left and right')
  })

  it('fit where y points down in the table, which is said', async () => {
    const board = await merged(
      netlist(),
      places(({ x, y }) => ({ x, y: -y })),
    )
    agrees(board)
    expect(board.untold.join('\n')).toContain('up and down mirrored')
  })

  it('tell parts apart whose references the netlist cuts to the same six letters', async () => {
    const { description, untold } = await importedFixtures('netlist.d356', 'places.csv')
    const parts = partsByRef(description)
    expect(['R101201', 'R101202', 'R101203'].map((ref) => parts.get(ref)?.pads?.length)).toEqual([2, 2, 2])
    expect(parts.get('R101203')?.side).toBe('top')
    expect(untold.join('\n')).toMatch(/cuts references.*R101201, R101202 and R101203/)
  })

  it('that contradict each other say where, and the netlist counts', async () => {
    const text = fixtureText('places.csv')
      .replace(/("C1".*),top/, '$1,bottom')
      .replace(/^"L1".*\n/m, '')
      .replace(/("IC20",[^,]*,[^,]*),112\.\d+/, '$1,150.000000')
    const { description, untold } = await merged(netlist(), { name: 'places', text })
    const words = untold.join('\n')
    expect(words).toContain('netlist and places put these parts on different sides: C1; the first counts.')
    expect(words).toMatch(/In netlist and not in places: .*L1/)
    expect(words).toMatch(/put 1 part more than 1 mm apart: IC20/)
    expect(partsByRef(description).get('C1')?.side).toBe('top')
  })

  it('of two boards are told to be so', async () => {
    const { untold } = await merged(
      netlist(),
      places(({ x, y }) => ({ x: (x * 7919) % 100, y: (y * 104_729) % 100 })),
    )
    expect(untold.join('\n')).toMatch(/perhaps they aren't of one board/)
  })
})

describe('beside them', () => {
  it('a file that tells nothing of a board is named and not read', async () => {
    const { untold } = await merged(netlist(), { name: 'readme.txt', text: 'Please make ten of these.' })
    expect(untold.join('\n')).toContain("These files tell nothing of a board and weren't used: readme.txt.")
  })

  it('a whole layout is read alone', async () => {
    const { description, untold } = await merged(netlist(), {
      name: 'splint.kicad_pcb',
      text: fixtureText('splint.kicad_pcb'),
    })
    expect(description.parts).toEqual(layout.parts)
    expect(untold[0]).toContain("beside it these weren't used: netlist")
  })

  it('two layouts are refused', async () => {
    const text = fixtureText('splint.kicad_pcb')
    const result = await importBoard([textFile('a', text), textFile('b', text)])
    expect(result).toMatchObject({ ok: false, faults: [{ path: 'b', found: 'a second layout' }] })
  })
})
