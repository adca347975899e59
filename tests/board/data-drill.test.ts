/**
 * Drill files: numbers and commands by hand, files of an invented board, and files that other programs wrote, held to the netlists,
 * drawings and pictures that those programs wrote of the same board.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it, test } from 'vitest'
import { boxOf, distance, type Point, signedArea } from '../../src/base/index.ts'
import { boardFormatOf, type BoardDescription, importBoard, loadBoard } from '../../src/board/index.ts'
import { fileKindOf } from '../../src/case/index.ts'
import {
  fixtureText,
  gerbvExamples,
  importedFixtures,
  originShift,
  partsByRef,
  pcbRndReferences,
  textFile,
} from '../support/board-data.ts'
import { npmPackage } from '../support/npm-package.ts'

const FETCH_MS = 300_000
/** Half of the edge of a square board about the origin, mm. */
const REACH_MM = 500
const um = (mm: number): string => String(Math.round(mm * 1e6))
const corners = [
  [-REACH_MM, -REACH_MM],
  [REACH_MM, -REACH_MM],
  [REACH_MM, REACH_MM],
  [-REACH_MM, REACH_MM],
  [-REACH_MM, -REACH_MM],
] as const
const EDGE = `%TF.FileFunction,Profile,NP*%
%MOMM*%
%FSLAX46Y46*%
%ADD10C,0.1*%
D10*
G01*
${corners.map(([x, y], i) => `X${um(x)}Y${um(y)}D0${i === 0 ? 2 : 1}*`).join('\n')}
M02*
`
const TABLE = 'Ref,Val,Package,PosX,PosY,Rot,Side\nR1,10k,0402,-480mm,-480mm,0,top\n'
const UNPLATED = '; #@! TF.FileFunction,NonPlated,1,2,NPTH\n'
/** The same file, saying that none of its holes is plated. */
const unplated = (text: string): string => text.replace(/M48\r?\n/, `M48\n${UNPLATED}`)

/** Every hole counts where none is plated, so that the board tells all that was read; places about the file's origin. */
async function holesOf(text: string, edge = EDGE, origin: Point = { x: -REACH_MM, y: -REACH_MM }) {
  const result = await importBoard([textFile('edge', edge), textFile('places', TABLE), textFile('drill', text)])
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value.description.holes.map((hole) => {
    const moved = ({ x, y }: Point): Point => ({ x: x + origin.x, y: y + origin.y })
    return 'polygon' in hole ? { polygon: hole.polygon.map(moved) } : { ...hole, at: moved(hole.at) }
  })
}
const faultsOf = async (text: string): Promise<string[]> => {
  const result = await importBoard([textFile('file', text)])
  return result.ok ? [] : result.faults.map(({ path, expected }) => `${path}: ${expected}`)
}
const drill = (head: string, body: string): string => `M48\n${UNPLATED}${head}\n%\nG90\nG05\nT1\n${body}\nM30\n`

// Ucamco, "The XNC Format Specification" (2021): numbers carry their point. Without one, by common practice of older files: 3.3
// digits in mm and 2.4 in inches, LZ keeps leading zeros and leaves trailing ones out, TZ the other way round.
test.each([
  ['METRIC\nT1C1.0', 'X1.5Y-2.25', { x: 1.5, y: -2.25 }],
  ['INCH\nT1C.04', 'X1.5Y.25', { x: 38.1, y: 6.35 }],
  ['METRIC,TZ\nT1C1.0', 'X1500Y-250', { x: 1.5, y: -0.25 }],
  ['METRIC,LZ\nT1C1.0', 'X0015Y-0102', { x: 1.5, y: -10.2 }],
  ['INCH,LZ\nT1C.04', 'X01Y0025', { x: 25.4, y: 6.35 }],
  ['INCH,TZ\nT1C.04', 'X000665Y023500', { x: 0.0665 * 25.4, y: 2.35 * 25.4 }],
  ['METRIC,TZ,0000.00\nT1C1.0', 'X150Y25', { x: 1.5, y: 0.25 }],
  ['METRIC,LZ,0000.00\nT1C1.0', 'X00015Y0100', { x: 1.5, y: 100 }],
  ['INCH,LZ\n;FILE_FORMAT=2:5\nT1C.04', 'X0100000Y00025', { x: 25.4, y: 0.025 * 25.4 }],
  [';FORMAT={3:3/ absolute / metric / suppress leading zeros}\nMETRIC\nT1C1.0', 'X1500Y250', { x: 1.5, y: 0.25 }],
  ['M71\nT1C1.0', 'X1.5Y.25', { x: 1.5, y: 0.25 }],
])('%s: %s is there', async (head, body, at) => {
  const [hole] = await holesOf(drill(head, body))
  if (hole === undefined || 'polygon' in hole) return expect.fail('no round hole')
  expect(distance(hole.at, at)).toBeLessThan(1e-4)
  expect(hole.diameterMm).toBeCloseTo(head.includes('.04') ? 1.016 : 1, 4)
})

describe('the body of a file', () => {
  const places = async (body: string) =>
    (await holesOf(drill('METRIC\nT1C1.0\nT2C3.2', body))).map((hole) =>
      'polygon' in hole ? ['slot', boxOf(hole.polygon)] : [hole.diameterMm, hole.at.x, hole.at.y],
    )

  it('keeps a coordinate that is left out, changes tools, counts from the last hole in G91, repeats', async () => {
    expect(await places('X1.0Y2.0\nX3.0\nY4.0\nT2\nX10.0Y10.0\nG91\nX1.0\nR2X0.5Y1.0\nG90\nX0Y0')).toEqual([
      [1, 1, 2],
      [1, 3, 2],
      [1, 3, 4],
      [3.2, 10, 10],
      [3.2, 11, 10],
      [3.2, 11.5, 11],
      [3.2, 12, 12],
      [3.2, 0, 0],
    ])
  })

  it('has slots by G85, and by a mill between M15 and M16, each as long as its tool goes and round at its ends', async () => {
    const [first, second] = await holesOf(
      drill('METRIC\nT1C1.0', 'X10.0Y10.0G85X14.0Y10.0\nG00X20.0Y20.0\nM15\nG01X20.0Y25.0\nM16\nG05'),
    )
    if (first === undefined || second === undefined || !('polygon' in first) || !('polygon' in second))
      return expect.fail('two slots')
    // by geometry: length x width and a circle of the tool's radius, 24 corners a circle leaving out about 1 %
    expect(Math.abs(signedArea(first.polygon))).toBeCloseTo(4 * 1 + Math.PI * 0.25, 1)
    expect(boxOf(first.polygon)).toEqual({ minX: 9.5, maxX: 14.5, minY: 9.5, maxY: 10.5 })
    expect(boxOf(second.polygon)).toEqual({ minX: 19.5, maxX: 20.5, minY: 19.5, maxY: 25.5 })
  })

  it('mills arcs by their radius and by their middle', async () => {
    // a quarter circle of 5 mm about (0, 0) from (5, 0) to (0, 5): its points lie 5 mm from the middle
    const arcs = ['G03X0.0Y5.0A5.0', 'G03X0.0Y5.0I-5.0J0.0']
    const all = await Promise.all(
      arcs.map(async (arc) => holesOf(drill('METRIC\nT1C1.0', `G00X5.0Y0.0\nM15\n${arc}\nM16`))),
    )
    for (const holes of all) {
      expect(holes.length).toBeGreaterThan(10)
      const far = holes.flatMap((hole) => ('polygon' in hole ? hole.polygon.map(({ x, y }) => Math.hypot(x, y)) : []))
      expect(Math.max(...far)).toBeLessThan(5.52)
      expect(Math.min(...far)).toBeGreaterThan(4.45)
    }
  })

  it('ends with M30: what follows counts nothing', async () => {
    expect(await places('X1.0Y2.0\nM30\nX5.0Y5.0')).toEqual([[1, 1, 2]])
  })
})

describe('plated or not', () => {
  const both = (text: string) =>
    importBoard([textFile('edge', EDGE), textFile('places', TABLE), textFile('drill', text)])
  const holesIn = async (text: string) => {
    const result = await both(text)
    if (!result.ok) return expect.fail(JSON.stringify(result.faults))
    return result.value.description.holes
  }
  const plain = (comment: string, tool = 'T1C3.0'): string => `M48\n${comment}\nMETRIC\n${tool}\n%\nT1\nX1.0Y1.0\nM30\n`

  it.each([
    ['; #@! TF.FileFunction,Plated,1,4,PTH', true],
    ['; #@! TF.FileFunction,NonPlated,1,4,NPTH', false],
    [';TYPE=PLATED', true],
    [';TYPE=NON_PLATED', false],
    ['; Contents: Thru / Mill / Plated', true],
  ])('%s', async (comment, plated) => {
    expect(await holesIn(plain(comment))).toMatchObject([{ diameterMm: 3, plated }])
  })

  it('a tool says it for itself, over what the file says', async () => {
    const text = `M48\n; #@! TF.FileFunction,MixedPlating,1,2\nMETRIC\n; #@! TA.AperFunction,Plated,PTH,ComponentDrill\nT1C3.0\n; #@! TA.AperFunction,NonPlated,NPTH,MechanicalDrill\nT2C3.2\n%\nT1\nX1.0Y1.0\nT2\nX9.0Y9.0\nM30\n`
    expect(await holesIn(text)).toMatchObject([{ plated: true }, { plated: false }])
  })

  it('narrow plated ones are filled, and so are those of which nothing is told; unplated ones are open', async () => {
    expect(await holesIn(plain(';TYPE=PLATED', 'T1C0.3'))).toEqual([])
    expect(await holesIn(plain('; nothing told', 'T1C0.3'))).toEqual([])
    expect(await holesIn(plain(';TYPE=NON_PLATED', 'T1C0.9'))).toMatchObject([{ diameterMm: 0.9, plated: false }])
    const [wide] = await holesIn(plain('; nothing told'))
    expect(wide).toEqual({ at: expect.anything(), diameterMm: 3 })
  })

  it('blind holes are none of the board’s: the file tells nothing', async () => {
    const result = await both(plain('; #@! TF.FileFunction,NonPlated,1,2,Blind'))
    if (!result.ok) return expect.fail(JSON.stringify(result.faults))
    expect(result.value.description.holes).toEqual([])
    expect(result.value.untold).toContain("These files tell nothing of a board and weren't used: drill.")
  })
})

describe('a file that is no good', () => {
  it.each([
    ['is cut off', 'M48\nMETRIC\nT1C1.0\n%\nT1\nX1.0Y1.0\n', 'file, line 6: the last command, M30'],
    ['has no unit', 'M48\nT1\n%\nT1\nX1.0Y1.0\nM30\n', 'file, line 5: the unit before them, METRIC or INCH'],
    ['gives a tool before its unit', 'M48\nT1C1.0\n%\nM30\n', 'file, line 2: the unit before it, METRIC or INCH'],
    [
      'has a tool without a diameter',
      'M48\nMETRIC\n%\nT1\nX1.0Y1.0\nM30\n',
      'file, line 5: a tool with a diameter before it, such as T1C0.3',
    ],
    ['has a place on the moon', 'M48\nMETRIC\nT1C1.0\n%\nT1\nX999999.0Y0\nM30\n', 'file, line 6: within 100000 mm'],
    [
      'has words of something else',
      'M48\nMETRIC\nT1C1.0\n%\nT1\nHELLO\nM30\n',
      'file, line 6: a tool, a hole or a mode of a drill file',
    ],
    [
      'repeats without end',
      'M48\nMETRIC\nT1C1.0\n%\nT1\nX0Y0\nR999999X0.1\nM30\n',
      'file, line 7: at most 10000 repeats such as R5X0.1',
    ],
    ['repeats off any board', 'M48\nMETRIC\nT1C1.0\n%\nT1\nX0Y0\nR9X90000.0\nM30\n', 'file, line 7: within 100000 mm'],
    [
      'repeats a pattern',
      'M48\nMETRIC\nT1C1.0\n%\nT1\nM25\nX0Y0\nM01\nM02X5.0\nM08\nM30\n',
      'file, line 6: each hole by itself',
    ],
    ['has a tool as wide as a table', 'M48\nMETRIC\nT1C9999.0\n%\nM30\n', 'file, line 3: a diameter of at most 500 mm'],
    [
      'has a number that is none',
      'M48\nMETRIC\nT1C1.0\n%\nT1\nX1.2.3Y0\nM30\n',
      'file, line 6: a tool, a hole or a mode of a drill file',
    ],
  ])('%s', async (_, text, fault) => {
    expect((await faultsOf(text))[0]).toBe(fault)
  })

  it('of a million repeats of ten thousand holes ends with a fault, and no sooner than it may', async () => {
    const body = Array.from({ length: 200 }, () => 'R10000X0.001').join('\n')
    expect((await faultsOf(`M48\nMETRIC\nT1C1.0\n%\nT1\nX0Y0\n${body}\nM30\n`))[0]).toContain('at most 500000 holes')
  })

  it('is told from a report and from a Gerber file', () => {
    expect(boardFormatOf('; made by hand\nM48\nMETRIC\n')).toBe('drill')
    expect(boardFormatOf('%\nT1C0.028F200S100\nX002250Y002300\n')).toBe('drill')
    expect(boardFormatOf('T1 passed\nT2 failed at 0x1234\n')).toBeUndefined()
    expect(boardFormatOf(EDGE)).toBe('gerber')
    expect(fileKindOf(new TextEncoder().encode('M48\nMETRIC\n'))).toBe('drill')
  })

  it('alone tells no board', async () => {
    expect(await faultsOf(drill('METRIC\nT1C1.0', 'X1.0Y1.0'))).toEqual(['file: at least one part on the board'])
  })
})

/** Of a layout by its text alone: each drilled pad, with its place on the board, y up. */
function drillsOfLayout(text: string): { at: Point; mm: number; plated: boolean }[] {
  return text
    .split('\n  (footprint')
    .slice(1)
    .flatMap((block) => {
      const [, x = '0', y = '0', turn = '0'] = /\(at ([\d.-]+) ([\d.-]+)(?: ([\d.-]+))?\)/.exec(block) ?? []
      const rad = (Number(turn) * Math.PI) / 180
      const pads = block.matchAll(
        /\(pad "[^"]*" (thru_hole|np_thru_hole) \w+ \(at ([\d.-]+) ([\d.-]+)[^)]*\).*?\(drill ([\d.]+)\)/g,
      )
      return [...pads].map(([, kind, px, py, mm]) => {
        const [dx, dy] = [Number(px), Number(py)]
        const at = {
          x: Number(x) + dx * Math.cos(rad) + dy * Math.sin(rad),
          y: -(Number(y) - dx * Math.sin(rad) + dy * Math.cos(rad)),
        }
        return { at, mm: Number(mm), plated: kind === 'thru_hole' }
      })
    })
}

/** As XNC has it, counted from `origin`. */
function xncOf(drills: ReturnType<typeof drillsOfLayout>, plated: boolean, origin: Point = { x: 0, y: 0 }): string {
  const own = drills.filter((each) => each.plated === plated)
  const sizes = [...new Set(own.map(({ mm }) => mm))]
  const head = `M48\n; #@! TF.FileFunction,${plated ? 'Plated,1,4,PTH' : 'NonPlated,1,4,NPTH'}\nMETRIC\n`
  const tools = sizes.map((mm, i) => `T${i + 1}C${mm.toFixed(3)}\n`).join('')
  const body = sizes
    .map(
      (mm, i) =>
        `T${i + 1}\n${own
          .filter((each) => each.mm === mm)
          .map(({ at }) => `X${(at.x - origin.x).toFixed(4)}Y${(at.y - origin.y).toFixed(4)}\n`)
          .join('')}`,
    )
    .join('')
  return `${head}${tools}%\nG90\nG05\n${body}M30\n`
}

describe('holes of one board beside its other files', () => {
  const layoutText = fixtureText('splint.kicad_pcb')
  const drills = drillsOfLayout(layoutText)
  const OTHERS = [
    'edge.gbr',
    'places-top.gbr',
    'places-bottom.gbr',
    'copper-1.gbr',
    'copper-2.gbr',
    'copper-3.gbr',
    'copper-4.gbr',
  ]
  const withDrills = async (origin?: Point, others = OTHERS) => {
    const files = others.map((name) => textFile(name, fixtureText(name)))
    const result = await importBoard([
      ...files,
      textFile('plated.drl', xncOf(drills, true, origin)),
      textFile('unplated.drl', xncOf(drills, false, origin)),
    ])
    if (!result.ok) throw new Error(JSON.stringify(result.faults))
    return result.value
  }
  const roundHoles = (description: BoardDescription, shift: Point = { x: 0, y: 0 }) =>
    description.holes
      .flatMap((hole) => ('polygon' in hole ? [] : [[hole.at.x + shift.x, hole.at.y + shift.y, hole.diameterMm]]))
      .map((row) => row.map((value) => value.toFixed(2)).join(' '))
      .toSorted()

  it('are those that the layout itself has: seven pads and one mounting hole', async () => {
    expect(drills.map(({ mm }) => mm).toSorted((a, b) => a - b)).toEqual([1, 1, 1, 1, 1, 1, 1, 3.2])
    const layout = await importedFixtures('splint.kicad_pcb')
    const board = await withDrills()
    const shift = originShift(board.description, layout.description, 'IC14')
    expect(roundHoles(board.description, shift)).toEqual(roundHoles(layout.description))
    expect(roundHoles(board.description)).toHaveLength(2)
    expect(board.untold.join('\n')).not.toContain('drill of')
    expect(loadBoard(JSON.parse(JSON.stringify(board.description))).ok).toBe(true)
  })

  it('are laid onto the pads that go through the board where they count from elsewhere, which is said', async () => {
    const board = await withDrills({ x: 17, y: -9 })
    expect(roundHoles(board.description)).toEqual(roundHoles((await withDrills()).description))
    expect(board.untold.join('\n')).toContain(
      'counts from another origin; it was moved by 17, -9 mm, where 7 of 8 places fit',
    )
  })

  it('give a netlist its drills, with edge and places from elsewhere', async () => {
    const blank = fixtureText('netlist.d356').replaceAll(/D\d{4}[PU]/g, '      ')
    const bare = await importBoard([textFile('edge', fixtureText('edge.gbr')), textFile('net', blank)])
    expect(bare.ok && bare.value.untold.join('\n')).toContain('No file tells the drill of 8 pads')
    const result = await importBoard([
      textFile('edge', fixtureText('edge.gbr')),
      textFile('net', blank),
      textFile('plated.drl', xncOf(drills, true)),
      textFile('unplated.drl', xncOf(drills, false)),
    ])
    if (!result.ok) return expect.fail(JSON.stringify(result.faults))
    expect(result.value.untold.join('\n')).not.toContain('No file tells the drill')
    expect(result.value.untold[0]).toContain('holes from plated.drl, unplated.drl')
  })

  it('in Gerber with attributes are the same as in XNC', async () => {
    const gerberOf = (plated: boolean): string => {
      const own = drills.filter((each) => each.plated === plated)
      const flashes = own.map(({ at, mm }) => `D${mm === 1 ? 10 : 11}*\nX${um(at.x)}Y${um(at.y)}D03*\n`).join('')
      return `%TF.FileFunction,${plated ? 'Plated,1,4,PTH' : 'NonPlated,1,4,NPTH'}*%\n%MOMM*%\n%FSLAX46Y46*%\n%ADD10C,1.0*%\n%ADD11C,3.2*%\n${flashes}M02*\n`
    }
    const files = OTHERS.map((name) => textFile(name, fixtureText(name)))
    const result = await importBoard([...files, textFile('p.gbr', gerberOf(true)), textFile('n.gbr', gerberOf(false))])
    if (!result.ok) return expect.fail(JSON.stringify(result.faults))
    expect(result.value.description).toEqual((await withDrills()).description)
  })
})

describe('files that other programs wrote', () => {
  it('by pcb-rnd hold the holes of its netlists in IPC-D-356, place by place and size by size', {
    timeout: FETCH_MS,
  }, async (context) => {
    const folder = await pcbRndReferences(context)
    const cases = readdirSync(folder).filter(
      (name) => name.endsWith('.net') && existsSync(join(folder, name.replace('.net', '.exc'))),
    )
    expect(cases.length).toBeGreaterThan(20)
    let compared = 0
    for (const name of cases) {
      const stem = name.replace('.net', '')
      const net = readFileSync(join(folder, name), 'latin1')
      // columns 33 to 38 the drill in 0.0001 inch, from 42 the place: IPC-D-356, units CUST 0
      const wanted = net.split(/\r?\n/).flatMap((line) => {
        const found = /D(\d{4})[PU].{3}X([+-]\d{6})Y([+-]\d{6})/.exec(line)
        return found === null ? [] : [found.slice(1).map((digits) => Number(digits) * 0.00254)]
      })
      const texts = ['plated', 'unplated'].map((kind) =>
        readFileSync(join(folder, `${stem}.exc`, `${stem}.${kind}.cnc`), 'latin1'),
      )
      const holes = (
        await Promise.all(texts.filter((text) => text.startsWith('M48')).map((text) => holesOf(unplated(text))))
      ).flat()
      for (const [mm = 0, x = 0, y = 0] of wanted) {
        const hole = holes.find((each) => !('polygon' in each) && distance(each.at, { x, y }) < 0.003)
        // sizes of these drill files are rounded to a thousandth of an inch
        expect({
          name,
          near: hole !== undefined && 'diameterMm' in hole && Math.abs(hole.diameterMm - mm) <= 0.0254,
        }).toEqual({ name, near: true })
        compared++
      }
    }
    expect(compared).toBeGreaterThan(20)
  })

  it('of tracespace are as large as the pictures of them', { timeout: FETCH_MS }, async (context) => {
    // test files of tracespace (M. Cousins, version 4.2.7); the pictures say their size in inches
    const folder = join(await npmPackage('@tracespace/fixtures@4.2.7', context), 'gerbers/drill')
    const sizes = await Promise.all(
      ['hit', 'slot', 'linear-route', 'arc-route'].map(async (name) => {
        const holes = await holesOf(unplated(readFileSync(join(folder, `${name}.drl`), 'utf8')))
        const box = boxOf(
          holes.flatMap((hole) => {
            if ('polygon' in hole) return hole.polygon
            const r = hole.diameterMm / 2
            return [
              { x: hole.at.x - r, y: hole.at.y - r },
              { x: hole.at.x + r, y: hole.at.y + r },
            ]
          }),
        )
        const svg = readFileSync(join(folder, `${name}.svg`), 'utf8')
        const [, width = '', height = ''] = /width="([\d.]+)in" height="([\d.]+)in"/.exec(svg) ?? []
        const found = [box.maxX - box.minX, box.maxY - box.minY].map((mm) => Number((mm / 25.4).toFixed(2)))
        return { name, found, wanted: [Number(width), Number(height)] }
      }),
    )
    for (const { name, found, wanted } of sizes) expect({ name, size: found }).toEqual({ name, size: wanted })
  })

  it('of open boards lie within the board’s own edge, all of them', { timeout: FETCH_MS }, async (context) => {
    const folder = join(await npmPackage('@tracespace/fixtures@4.2.7', context), 'boards')
    const pairs = [
      ['clockblock/clockblock-Edge_Cuts.gbr', 'clockblock/clockblock.drl'],
      ['clockblock/clockblock-Edge_Cuts.gbr', 'clockblock/clockblock-NPTH.drl'],
      ['mchck/mchck-Edge_Cuts.pho', 'mchck/mchck.drl'],
      ['arduino-uno/arduino-uno.gko', 'arduino-uno/arduino-uno.drd', 4],
      // says tool by tool which are plated: 38 narrow holes that are, two of tool 5 that are not
      ['usbvil/pic18f14k50.gko', 'usbvil/pic18f14k50.txt', 38],
    ] as const
    for (const [edge, name, elsewhere = 0] of pairs) {
      const text = unplated(readFileSync(join(folder, name), 'latin1'))
      const hits = text.split('\n').filter((line) => /^[XY]/.test(line)).length
      const drawn = `%TF.FileFunction,Profile,NP*%\n${readFileSync(join(folder, edge), 'latin1')}`
      const result = await importBoard([textFile('edge', drawn), textFile('places', TABLE), textFile('drill', text)])
      if (!result.ok) return expect.fail(`${name} ${JSON.stringify(result.faults)}`)
      const off = result.value.untold.filter((words) =>
        /drilled hole.*off the board|does not say which zeros/.test(words),
      )
      expect({ name, off }).toEqual({ name, off: [] })
      // some edges have round cut-outs of their own, one draws four holes that are drilled as well
      const bare = await importBoard([textFile('edge', drawn), textFile('places', TABLE)])
      const own = bare.ok ? bare.value.description.holes.length : 0
      expect({ name, holes: result.value.description.holes.length - own }).toEqual({ name, holes: hits - elsewhere })
    }
  })

  it('among the examples of gerbv are read, or refused with a line', { timeout: FETCH_MS }, async (context) => {
    const folder = await gerbvExamples(context)
    const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      /\.(drl|drd|exc|cnc|ncd|tap)$/i.test(name),
    )
    const outcomes: string[] = []
    for (const name of names) {
      const text = readFileSync(join(folder, name), 'latin1')
      if (boardFormatOf(text) !== 'drill') continue
      const faults = await faultsOf(text)
      const read = faults.length === 1 && faults[0] === 'file: at least one part on the board'
      outcomes.push(`${name}: ${read ? 'read' : (faults[0] ?? 'none')}`)
    }
    expect(outcomes.filter((line) => line.endsWith(': read')).length).toBeGreaterThanOrEqual(3)
    expect(outcomes.filter((line) => !line.endsWith(': read') && !/file, line \d+:/.test(line))).toEqual([])
  })
})

test('a mounting hole stands where the board says it is, for whoever lays photos onto it', async () => {
  const layout = await importedFixtures('splint.kicad_pcb')
  const loaded = loadBoard(layout.description)
  expect(partsByRef(layout.description).has('H1')).toBe(true)
  expect(loaded.ok && loaded.value.drills.some(({ diameterMm }) => diameterMm === 3.2)).toBe(true)
})
