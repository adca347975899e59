/** IPC-D-356 files: records by hand and as open writers print them, and the references of pcb-rnd's own tests. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { boardFormatOf, type BoardImport, importBoard } from '../../src/board/index.ts'
import {
  fixturePath,
  fixtureText,
  importedFixtures,
  padPlaces,
  partsByRef,
  pcbRndReferences,
  textFile,
} from '../support/board-data.ts'
import { imported } from '../support/kicad-text.ts'

const FETCH_MS = 300_000

const netlist = (...records: string[]): string => ['P  UNITS CUST 0', ...records, '999', ''].join('\n')

async function read(text: string): Promise<BoardImport> {
  const result = await importBoard([textFile('netlist', text)])
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

const faultsOf = async (text: string) => {
  const result = await importBoard([textFile('netlist', text)])
  return result.ok ? [] : result.faults.map(({ path, expected }) => `${path}: ${expected}`)
}

/** Two pins far apart, so that there is a board around them. */
const FRAME = [
  '327GND              X1    -1          A01X+000000Y+000000X0100Y0100R000S2',
  '327GND              X2    -1          A01X+020000Y+020000X0100Y0100R000S2',
]

describe('a record', () => {
  it('as a public test file of an open library has it: net, pin, place, size and turn', async () => {
    // 327 record of the test data of gerbonara (Jan Sebastian Götte, 2022): 24.638 mm, 26.421 mm, 4.000 x 1.600 mm, 270 degrees.
    // The values in mm are reckoned by hand from 0.0001 inch: 9700, 10402, 1575, 630.
    const { description } = await read(
      netlist(...FRAME, '327N$3              C1    -+          A01X   9700Y  10402X1575Y 630R270'),
    )
    const part = partsByRef(description).get('C1')
    const origin = partsByRef(description).get('X1')?.at ?? { x: 0, y: 0 }
    expect(part).toMatchObject({ side: 'top', pads: [{ number: '+', net: 'N$3', rotationDeg: 270 }] })
    expect((part?.at.x ?? 0) - origin.x).toBeCloseTo(24.638, 6)
    expect((part?.at.y ?? 0) - origin.y).toBeCloseTo(26.42108, 6)
    expect(part?.pads?.[0]?.widthMm).toBeCloseTo(4.0005, 6)
    expect(part?.pads?.[0]?.lengthMm).toBeCloseTo(1.6002, 6)
  })

  it('in units of 0.001 mm is as long as it says', async () => {
    const text = netlist(...FRAME).replace('CUST 0', 'CUST 1')
    const { description } = await read(text)
    const [a, b] = description.parts
    expect((b?.at.x ?? 0) - (a?.at.x ?? 0)).toBeCloseTo(20, 6)
  })

  it('of a through hole has a drill, and one of the other side lies there', async () => {
    const { description } = await read(
      netlist(
        ...FRAME,
        '317VCC              J1    -1    D0394PA00X+005000Y+005000X0700Y0000R000S0',
        '327VCC              C9    -1          A02X-001000Y-000500X0300Y0200R000S1',
        '327N/C              C9    -2          A02X+001000Y-000500X0300Y0200R000S1',
      ),
    )
    const parts = partsByRef(description)
    expect(parts.get('J1')?.pads).toMatchObject([{ number: '1', round: true, net: 'VCC' }])
    expect(parts.get('C9')).toMatchObject({ side: 'bottom', pads: [{ net: 'VCC' }, { number: '2' }] })
    expect(parts.get('C9')?.pads?.[1]?.net).toBeUndefined()
    const [first, second] = padPlaces(parts.get('C9') ?? expect.fail('no C9'))
    expect((second?.at.x ?? 0) - (first?.at.x ?? 0)).toBeCloseTo(5.08, 6)
  })

  it('has the long name of a net where a parameter gives it', async () => {
    const { description } = await read(
      netlist('P  NNAME1        /a long name/of a net', ...FRAME.map((line) => line.replace('GND   ', 'NNAME1'))),
    )
    expect(description.parts.flatMap(({ pads }) => pads?.map(({ net }) => net))).toEqual([
      '/a long name/of a net',
      '/a long name/of a net',
    ])
  })

  it('of the board’s edge is its outline', async () => {
    const { description } = await read(
      netlist(...FRAME, '389BOARD_EDGE X-010000Y-010000 X+030000 Y+030000 X-010000', '089           Y-010000'),
    )
    expect(description.outline.map(({ x, y }) => [x, y])).toEqual([
      [0, 0],
      [101.6, 0],
      [101.6, 101.6],
      [0, 101.6],
    ])
  })
})

describe('a file that is no good', () => {
  it('is refused with the line of the record', async () => {
    expect(await faultsOf(netlist(...FRAME, '327GND              X3    -1          A01X+0'))).toEqual([
      'netlist, line 4: a record with X and Y',
    ])
    expect(await faultsOf(netlist(...FRAME).replace('CUST 0', 'CUST 7'))).toEqual([
      'netlist, line 1: UNITS CUST 0, CUST 1, CUST 2, SI',
    ])
  })

  it('is refused where it is cut off before its last record', async () => {
    expect(await faultsOf(netlist(...FRAME).replace('999\n', ''))).toEqual(['netlist, line 4: the last record, 999'])
  })

  it('is none where no record has the form of one', () => {
    expect(boardFormatOf('327 errors\n317 errors\n')).toBeUndefined()
    expect(boardFormatOf('C  a remark\nP  UNITS CUST 0\n')).toBeUndefined()
  })
})

describe('the netlist of a board as KiCad’s exporter writes it', () => {
  let told: BoardImport
  let whole: BoardImport
  beforeAll(async () => {
    told = await importedFixtures('netlist.d356')
    whole = await imported(readFileSync(fixturePath('splint.kicad_pcb'), 'utf8'))
  })

  it('has the same pads, each with its net’s last 14 letters in capitals and question marks for blanks', () => {
    const pins = (board: BoardImport): string[] =>
      board.description.parts
        .flatMap(({ ref, pads = [] }) =>
          pads.map(
            ({ number, net = '' }) =>
              `${ref.slice(0, 6)}.${number} ${net.toUpperCase().replaceAll(' ', '?').slice(-14)}`,
          ),
        )
        .toSorted()
    const expected = pins(whole)
    expect(expected.length).toBe(372)
    expect(pins(told)).toEqual(expected)
  })

  it('says what it cuts', () => {
    expect(told.untold.join('\n')).toContain('cuts names of nets to 14 letters')
  })

  it('has the memories and their lanes by the ball map, though no pin is named', () => {
    expect(told.description.memory.channels.map(({ id }) => id).toSorted()).toEqual(['IC13', 'IC5'])
  })
})

describe('references of pcb-rnd', () => {
  it('are read whole: as many pads as records, and parts where its own table of places has them', {
    timeout: FETCH_MS,
  }, async (context) => {
    const folder = await pcbRndReferences(context)
    const names = readdirSync(folder).filter((name) => name.endsWith('.net'))
    expect(names).toHaveLength(39)
    const counts = await Promise.all(
      names.map(async (name) => {
        const text = readFileSync(join(folder, name), 'utf8')
        const records = text.split('\n').filter((line) => /^3[0-2]7/.test(line) && !/^.{20}(VIA|      )/.test(line))
        const result = await importBoard([textFile(name, text)])
        // a file without pads, or with one alone, spans no board
        const pads = result.ok ? result.value.description.parts.flatMap((part) => part.pads ?? []).length : undefined
        return { name, records: records.length, pads }
      }),
    )
    expect(counts.filter(({ records, pads }) => pads !== records && !(pads === undefined && records < 2))).toEqual([])
    const seen = counts.flatMap(({ name, pads }) => (pads === undefined ? [] : [name]))
    expect(seen).toEqual(expect.arrayContaining(['elem_sides_smd.net', 'netlist.net', 'padrot.net', 'elem_pins.net']))
  })

  it('agree with its own tables of places about places and sides', { timeout: FETCH_MS }, async (context) => {
    const folder = await pcbRndReferences(context)
    const readFrom = async (name: string) =>
      await importBoard([textFile(name, readFileSync(join(folder, name), 'utf8'))])
    for (const name of ['elem_sides_smd', 'padrot']) {
      const [nets, places] = [await readFrom(`${name}.net`), await readFrom(`${name}.xy`)]
      if (!nets.ok || !places.ok) return expect.fail(name)
      const [a, b] = [partsByRef(nets.value.description), partsByRef(places.value.description)]
      const [first] = a.keys()
      const shift = {
        x: (b.get(first ?? '')?.at.x ?? 0) - (a.get(first ?? '')?.at.x ?? 0),
        y: (b.get(first ?? '')?.at.y ?? 0) - (a.get(first ?? '')?.at.y ?? 0),
      }
      expect([...a.keys()].toSorted()).toEqual([...b.keys()].toSorted())
      for (const [ref, part] of a) {
        expect(b.get(ref)?.side).toBe(part.side)
        // both in rounded thousandths of an inch
        expect((b.get(ref)?.at.x ?? 0) - part.at.x - shift.x).toBeCloseTo(0, 1)
        expect((b.get(ref)?.at.y ?? 0) - part.at.y - shift.y).toBeCloseTo(0, 1)
      }
    }
  })
})

it('the text of a fixture is what a netlist looks like', () => {
  expect(boardFormatOf(fixtureText('netlist.d356'))).toBe('netlist')
})
