/**
 * Gerber files: the worked example of the standard, arcs and turns by hand, files of an invented board as KiCad's exporter
 * writes them, and examples that many other programs drew.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { boxOf, type Point, signedArea } from '../../src/base/index.ts'
import {
  boardFormatOf,
  type BoardDescription,
  type BoardImport,
  hullOf,
  importBoard,
  loadBoard,
} from '../../src/board/index.ts'
import {
  fixtureText,
  gerbvExample,
  gerbvExamples,
  importedFixtures,
  lanesOf,
  originShift,
  padPlaces,
  padsElsewhere,
  partsByRef,
  pinGroups,
  textFile,
} from '../support/board-data.ts'
import { npmPackage } from '../support/npm-package.ts'

const FETCH_MS = 300_000
const HEAD = '%MOMM*%\n%FSLAX46Y46*%\nG75*\n'
const PEN = '%ADD10C,0.1*%\nD10*\n'
const FRAME = 'X0Y0D02*\nG01*\nX300000000Y0D01*\nX300000000Y-200000000D01*\nX0Y-200000000D01*\nX0Y0D01*\n'
const profile = (drawn: string): string => `%TF.FileFunction,Profile,NP*%\n${HEAD}${PEN}${drawn}M02*\n`

async function read(...texts: string[]): Promise<BoardDescription> {
  const result = await importBoard(texts.map((text, i) => textFile(`file-${i + 1}`, text)))
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value.description
}
const faultsOf = async (text: string) => {
  const result = await importBoard([textFile('file', text)])
  return result.ok ? [] : result.faults.map(({ path, expected }) => `${path}: ${expected}`)
}
/** One resistor, so that there is a board. */
const PARTS = `%TF.FileFunction,Component,L1,Top*%
${HEAD}%TA.AperFunction,ComponentMain*%
%ADD10C,0.300*%
%TA.AperFunction,ComponentPin*%
%ADD12P,0.360X4X0.0*%
%TD*%
D10*
%TO.C,R301*%
%TO.CRot,-90*%
%TO.CVal,10k*%
%TO.CMnt,SMD*%
%TO.CPgN,0805*%
X218250000Y-73000000D03*
D12*
%TO.P,R301,1*%
X218250000Y-72045000D03*
%TO.P,R301,2*%
X218250000Y-73955000D03*
%TD*%
M02*
`
const outlineOf = async (drawn: string) => (await read(PARTS, profile(drawn))).outline

describe('a component layer', () => {
  it('as the standard’s own example has it: R301 at 218.25, -73.0, turned by -90 degrees, pins at -72.045 and -73.955', async () => {
    // Ucamco, "The Gerber Layer Format Specification", revision 2022.02, example of section 6.9
    const description = await read(PARTS, profile(FRAME))
    const part = partsByRef(description).get('R301')
    expect(part).toMatchObject({ side: 'top', rotationDeg: -90, value: '10k', at: { x: 218.25, y: 127 } })
    expect(padPlaces(part ?? expect.fail('no R301'))).toMatchObject([
      { number: '1', at: { x: expect.closeTo(218.25, 9), y: expect.closeTo(200 - 72.045, 9) } },
      { number: '2', at: { x: expect.closeTo(218.25, 9), y: expect.closeTo(200 - 73.955, 9) } },
    ])
  })
})

describe('an edge', () => {
  it('of half circles has the area that it should: a slot of 20 mm between two ends of 5 mm', async () => {
    // area of a slot: length x width + pi r^2 (geometry)
    const outline = await outlineOf(
      'X205000000Y-78000000D02*\nG01*\nX225000000Y-78000000D01*\nG03*\nX225000000Y-68000000I0J5000000D01*\nG01*\nX205000000Y-68000000D01*\nG03*\nX205000000Y-78000000I0J-5000000D01*\n',
    )
    expect(Math.abs(signedArea(outline))).toBeCloseTo(200 + Math.PI * 25, 0)
    const box = boxOf(outline)
    expect(box.maxX - box.minX).toBeCloseTo(30, 3)
  })

  it('drawn clockwise is the same', async () => {
    const outline = await outlineOf(
      'X205000000Y-78000000D02*\nG02*\nX205000000Y-68000000I0J5000000D01*\nG01*\nX225000000Y-68000000D01*\nG02*\nX225000000Y-78000000I0J-5000000D01*\nG01*\nX205000000Y-78000000D01*\n',
    )
    expect(Math.abs(signedArea(outline))).toBeCloseTo(200 + Math.PI * 25, 0)
  })

  it('of a full circle is one in the multi quadrant mode', async () => {
    const outline = await outlineOf('X228250000Y-73000000D02*\nG02*\nX228250000Y-73000000I-10000000J0D01*\n')
    expect(Math.abs(signedArea(outline))).toBeCloseTo(Math.PI * 100, 0)
  })

  it('in the single quadrant mode finds its centre without signs', async () => {
    // a square of 20 mm whose four corners are quarter circles of 2 mm: 400 - (4 - pi) * 4
    const corner = (x: number, y: number): string => `X${x}Y${y}I2000000J2000000D01*\n`
    const outline = await outlineOf(
      `G74*\nX210000000Y-83000000D02*\nG01*\nX226000000Y-83000000D01*\nG03*\n${corner(228000000, -81000000)}G01*\nX228000000Y-65000000D01*\nG03*\n${corner(226000000, -63000000)}G01*\nX210000000Y-63000000D01*\nG03*\n${corner(208000000, -65000000)}G01*\nX208000000Y-81000000D01*\nG03*\n${corner(210000000, -83000000)}`.replaceAll(
        /I2000000J2000000/g,
        (_, at: number, all: string) => {
          // each corner's offset lies along one axis only
          const before = all.slice(0, at)
          return (before.match(/I\d+J\d+|I2000000/g) ?? []).length % 2 === 0 ? 'I0J2000000' : 'I2000000J0'
        },
      ),
    )
    expect(Math.abs(signedArea(outline))).toBeCloseTo(400 - (4 - Math.PI) * 4, 1)
  })

  it('as a region, in inches with zeros left out behind, is as large', async () => {
    const text =
      '%TF.FileFunction,Profile,NP*%\n%FSTAX24Y24*%\n%MOIN*%\nG36*\nX08Y-025D02*\nG01X09D01*\nY-035D01*\nX08D01*\nY-025D01*\nG37*\nM02*\n'
    const box = boxOf((await read(PARTS, text)).outline)
    expect(box.maxX - box.minX).toBeCloseTo(25.4, 6)
    expect(box.maxY - box.minY).toBeCloseTo(25.4, 6)
  })
})

describe('what is drawn to take away', () => {
  // a pin of 1 mm twice, the second time in clear polarity, which takes it away (4.8.1 of the standard)
  const copper = (polarity: string): string =>
    `%TF.FileFunction,Copper,L1,Top*%\n${HEAD}%TA.AperFunction,SMDPad,CuDef*%\n%ADD10C,1.0*%\nD10*\n%TO.P,U1,1*%\n%TO.N,VCC*%\nX10000000Y-10000000D03*\n%LP${polarity}*%\n%TO.P,U1,2*%\nX20000000Y-10000000D03*\nM02*\n`

  it('is no pad', async () => {
    const padsOf = async (polarity: string) => (await read(copper(polarity), profile(FRAME))).parts[0]?.pads
    expect(await padsOf('D')).toMatchObject([{ number: '1', widthMm: 1 }, { number: '2' }])
    expect(await padsOf('C')).toMatchObject([{ number: '1', net: 'VCC' }])
    expect(await padsOf('C')).toHaveLength(1)
  })

  it('is a cut-out, where it is of the edge', async () => {
    const hole =
      '%LPC*%\nG36*\nX20000000Y-20000000D02*\nG01*\nX40000000Y-20000000D01*\nX40000000Y-40000000D01*\nX20000000Y-20000000D01*\nG37*\n'
    expect((await read(PARTS, profile(`${FRAME}${hole}`))).holes).toHaveLength(1)
  })
})

describe('the role of a file', () => {
  it('comes from its function and never from its name', async () => {
    const files = [textFile('copper.gtl', profile(FRAME)), textFile('board.gko', PARTS)]
    const result = await importBoard(files)
    expect(result.ok && result.value.description.outline).toHaveLength(4)
  })

  it('stands in a comment where the writer wants older readers to go on', async () => {
    const hidden = PARTS.replaceAll(/%(T[FAOD][^%]*)\*%/g, 'G04 #@! $1*')
    expect(hidden).not.toContain('%TF')
    expect(boardFormatOf(hidden)).toBe('gerber')
    expect((await read(hidden, profile(FRAME))).parts).toEqual((await read(PARTS, profile(FRAME))).parts)
  })

  it('that tells nothing of a board is said', async () => {
    const mask = `%TF.FileFunction,Soldermask,Top*%\n${HEAD}M02*\n`
    const result = await importBoard([textFile('a', PARTS), textFile('b', profile(FRAME)), textFile('mask', mask)])
    expect(result.ok && result.value.untold.join('\n')).toContain("tell nothing of a board and weren't used: mask")
    expect(await faultsOf(mask)).toEqual([
      expect.stringContaining('an edge, parts or copper in Gerber with attributes'),
    ])
  })
})

describe('a file that is no good', () => {
  it.each([
    ['is cut off', profile(FRAME).replace('M02*\n', ''), 'file, line 12: the last command, M02'],
    ['is cut within a command', profile(FRAME).slice(0, -12), 'file, line 12: a star'],
    ['is cut within an extended command', '%TF.FileFunction,Profile,NP*%\n%MOMM', 'file, line 2: a percent sign'],
    ['uses an aperture that is none', profile('D77*\n'), 'file, line 7: an aperture that was defined before'],
    [
      'draws before it says its unit',
      '%TF.FileFunction,Profile,NP*%\n%FSLAX46Y46*%\nX1Y1D02*\nM02*\n',
      'file, line 3: unit and format of numbers before them (MO, FS)',
    ],
    ['has a place on the moon', profile('X999999999999999Y0D02*\n'), 'file, line 7: within 100000 mm'],
    ['has coordinates that are none', profile('X1.5Y0D02*\n'), 'file, line 7: coordinates with an operation'],
  ])('%s', async (_, text, fault) => {
    expect((await faultsOf(text))[0]).toBe(fault)
  })
})

describe('edge, parts and copper of one board, as KiCad’s exporter writes them', () => {
  const COPPER = ['copper-1.gbr', 'copper-2.gbr', 'copper-3.gbr', 'copper-4.gbr']
  const PLACES = ['places-top.gbr', 'places-bottom.gbr']
  let layout: BoardDescription
  let board: BoardImport
  beforeAll(async () => {
    layout = (await importedFixtures('splint.kicad_pcb')).description
    board = await importedFixtures('edge.gbr', ...PLACES, ...COPPER)
  })

  it('have the edge, its arc and its round cut-out', () => {
    expect(board.description.outline).toHaveLength(layout.outline.length)
    expect(signedArea(board.description.outline)).toBeCloseTo(signedArea(layout.outline), 2)
    expect(board.description.holes).toEqual([
      { at: { x: expect.closeTo(76, 6), y: expect.closeTo(64, 6) }, diameterMm: expect.closeTo(4, 3), plated: false },
    ])
  })

  it('have all parts with their places, turns, sides and values, and all pads, nets and lanes', () => {
    const shift = originShift(layout, board.description, 'IC14')
    // the hole has no copper, so these files don't have it
    expect(padsElsewhere(layout, board.description, shift, 1e-6)).toEqual(['H1.'])
    expect(padsElsewhere(board.description, layout, { x: -shift.x, y: -shift.y }, 1e-6)).toEqual([])
    expect(pinGroups(board.description)).toEqual(pinGroups(layout))
    expect(lanesOf(board.description)).toEqual(lanesOf(layout))
    const rows = (description: BoardDescription) =>
      description.parts
        .filter(({ ref }) => ref !== 'H1')
        .map(({ ref, side, value, rotationDeg }) => ({ ref, side, value, turn: (rotationDeg + 720) % 360 }))
        .toSorted((a, b) => a.ref.localeCompare(b.ref))
    expect(rows(board.description)).toEqual(rows(layout))
  })

  it('name functions of pins, where the design does', () => {
    const pads = partsByRef(board.description).get('IC20')?.pads ?? []
    expect(pads.slice(0, 4).map(({ signal }) => signal)).toEqual(['GND', 'SW', 'VIN', 'EN'])
  })

  it('say that they tell no drills', () => {
    expect(board.untold).toContain('No file tells the drill of 7 pads that go through the board.')
  })

  it('load as a board', () => {
    expect(loadBoard(JSON.parse(JSON.stringify(board.description))).ok).toBe(true)
  })

  it('with the edge alone, parts from a table and nets from a netlist are the same board', async () => {
    const { description, untold } = await importedFixtures('edge.gbr', 'places.csv', 'netlist.d356')
    expect(untold[0]).toBe(
      'The board is put together: edge from edge.gbr; places from places.csv; pads and nets from netlist.d356.',
    )
    expect(description.outline).toEqual(board.description.outline)
    const shift = originShift(layout, description, 'IC14')
    expect(padsElsewhere(layout, description, shift, 0.006)).toEqual([])
    expect(pinGroups(description)).toEqual(pinGroups(layout))
  })

  it('that contradict the nets of a netlist say so, and the first file counts', async () => {
    const text = fixtureText('netlist.d356').replace(/^327P1V2( +)(L1)/m, '327GND $1$2')
    const files = [...PLACES, ...COPPER, 'edge.gbr'].map((name) => textFile(name, fixtureText(name)))
    const result = await importBoard([...files, textFile('netlist', text)])
    if (!result.ok) return expect.fail(JSON.stringify(result.faults))
    expect(result.value.untold.join('\n')).toContain('these pads are on different nets: L1.2; the first file counts')
    expect(partsByRef(result.value.description).get('L1')?.pads?.[1]?.net).toBe('P1V2')
  })
})

describe('examples that other programs drew', () => {
  it('are read, or refused with a line where they lack a unit or are broken', {
    timeout: FETCH_MS,
  }, async (context) => {
    const folder = await gerbvExamples(context)
    const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      statSync(join(folder, name)).isFile(),
    )
    const texts = names.map((name) => ({ name, text: readFileSync(join(folder, name), 'latin1') }))
    const gerbers = texts.filter(({ text }) => boardFormatOf(text) === 'gerber')
    expect(gerbers.length).toBeGreaterThan(50)
    const outcomes = await Promise.all(
      gerbers.map(async ({ name, text }) => {
        const result = await importBoard([textFile(name, text)])
        // none of them says its function, so none tells a board
        const isRead = !result.ok && (result.faults[0]?.expected ?? '').includes('in Gerber with attributes')
        return { name, text, isRead, where: result.ok ? '' : result.faults[0]?.path }
      }),
    )
    const refused = outcomes.filter(({ isRead }) => !isRead)
    const hasUnit = ({ text }: { readonly text: string }): boolean => /%MO(IN|MM)|MOIN|MOMM|G70|G71/.test(text)
    expect(refused.filter(hasUnit).map(({ name }) => name)).toEqual([])
    expect(outcomes.filter(({ isRead }) => isRead).length).toBeGreaterThan(30)
    expect(refused.filter(({ where = '' }) => !/, line \d+$/.test(where))).toEqual([])
  })

  it('with a board’s edge, once it is said to be one, hold the parts of its table of places', {
    timeout: FETCH_MS,
  }, async (context) => {
    const table = readFileSync(await gerbvExample('protel-pnp/Pick_Place_for_SE_SG_IF_V2.csv', context), 'latin1')
    const edge = readFileSync(await gerbvExample('protel-pnp/SE_SG_IF_V2.GM1', context), 'latin1')
    const result = await importBoard([
      textFile('edge', `%TF.FileFunction,Profile,NP*%\n${edge}`),
      textFile('places', table),
    ])
    if (!result.ok) return expect.fail(JSON.stringify(result.faults))
    // its coordinates, found by regular expression alone: thousandths of an inch, as its format says
    const across = [...edge.matchAll(/X(-?\d+)(?=[^*]*D0?[12]\*)/g)].map(([, digits]) => Number(digits))
    const box = boxOf(result.value.description.outline)
    expect(box.maxX - box.minX).toBeCloseTo((Math.max(...across) - Math.min(...across)) * 0.0254, 6)
    const off = result.value.untold.filter((remark) => remark.startsWith('These parts lie off the board'))
    expect(off).toEqual(['These parts lie off the board: HEAD.'])
  })
})

describe('arcs that another program drew as curves', () => {
  /** Points along the curves of an SVG's paths, as they stand there. */
  const curvesOf = (svg: string): Point[] =>
    [...svg.matchAll(/ d="([^"]*)"/g)].flatMap(([, path = '']) => {
      const points: Point[] = []
      for (const [, letter, list = ''] of path.matchAll(/([MLC])([^MLCZ]*)/g)) {
        const numbers = list
          .trim()
          .split(/[\s,]+/)
          .map(Number)
        const ends = Array.from({ length: numbers.length / 2 }, (_, i) => ({
          x: numbers[2 * i] ?? 0,
          y: numbers[2 * i + 1] ?? 0,
        }))
        const [start] = points.slice(-1)
        if (letter === 'C' && start !== undefined) points.push(...bezierAlong([start, ...ends]))
        else points.push(...ends)
      }
      return points
    })
  const bezierAlong = ([a, b, c, d]: readonly Point[]): Point[] =>
    Array.from({ length: 40 }, (_, i) => (i + 1) / 40).map((t) => {
      const mix = (p = 0, q = 0, r = 0, s = 0): number =>
        (1 - t) ** 3 * p + 3 * (1 - t) ** 2 * t * q + 3 * (1 - t) * t ** 2 * r + t ** 3 * s
      return { x: mix(a?.x, b?.x, c?.x, d?.x), y: mix(a?.y, b?.y, c?.y, d?.y) }
    })
  const sizeOf = (points: readonly Point[]): readonly number[] => {
    const box = boxOf(points)
    return [box.maxX - box.minX, box.maxY - box.minY, Math.abs(signedArea(hullOf(points)))]
  }

  it('in all pairs of quadrants have the same outermost points and the same hull', {
    timeout: FETCH_MS,
  }, async (context) => {
    // test files of tracespace (M. Cousins, version 4.2.7), whose pictures were drawn by gerbv; in inches, y up
    const folder = join(await npmPackage('@tracespace/fixtures@4.2.7', context), 'gerbers/arc-strokes')
    const names = readdirSync(folder).filter((name) => /^multi-quadrant.*\.gbr$/.test(name))
    expect(names).toHaveLength(12)
    const sizes = await Promise.all(
      names.map(async (name) => {
        const text = readFileSync(join(folder, name), 'utf8')
        const { outline } = await read(PARTS, `%TF.FileFunction,Profile,NP*%\n${text}`)
        const [width = 0, length = 0, area = 0] = sizeOf(
          curvesOf(readFileSync(join(folder, name.replace('.gbr', '.svg')), 'utf8')),
        )
        return { name, ours: sizeOf(outline), theirs: [width * 25.4, length * 25.4, area * 25.4 ** 2] }
      }),
    )
    const apart = sizes.filter(({ ours, theirs }) =>
      ours.some((size, i) => Math.abs(size / (theirs[i] ?? 0) - 1) > 0.002),
    )
    expect(apart).toEqual([])
  })
})
