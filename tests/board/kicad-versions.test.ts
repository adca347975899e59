/** Small layouts made by hand: what older and newer versions write, and what a reader must survive. Values by hand. */
import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { boxOf, placePoint, type Point, polygonContains, signedArea } from '../../src/base/index.ts'
import { type KicadImport, loadBoard, type Part } from '../../src/board/index.ts'
import { footprintText, imported, importText, layoutText } from '../support/kicad-text.ts'

const fixture = (name: string): string => readFileSync(`tests/fixtures/kicad/${name}.kicad_pcb`, 'utf8')

function partOf({ description }: KicadImport, ref: string): Part {
  const part = description.parts.find((one) => one.ref === ref)
  if (part === undefined) throw new Error(`no part ${ref}`)
  return part
}

function padAt(part: Part, index: number): Point {
  const pad = part.pads?.[index]
  if (pad === undefined) throw new Error(`no pad ${index}`)
  return placePoint(pad.at, { at: part.at, rotationDeg: part.rotationDeg, mirrored: part.side === 'bottom' })
}

describe('a layout of version 5', () => {
  let board: KicadImport
  beforeAll(async () => {
    board = await imported(fixture('version-5'))
  })

  it('takes the side from the layer ordinal where the layers have the user’s names', () => {
    expect(board.description.parts.map((part) => [part.ref, part.side])).toEqual([
      ['U1', 'top'],
      ['U2', 'bottom'],
      ['R1', 'top'],
      ['R1#2', 'top'],
      ['unnamed-1', 'top'],
      ['TP9', 'top'],
    ])
  })

  it('says which references were repeated or empty', () => {
    expect(board.untold.join('\n')).toMatch(/used more than once.*R1#2/)
    expect(board.untold.join('\n')).toMatch(/1 parts have no reference/)
  })

  // By KiCad's rule for a part turned by a: x' = x cos a + y sin a, y' = -x sin a + y cos a, in the file's own axes.
  it('puts a turned part’s pads where the file has them: (-2, 1) at 90 degrees about (110, 60) is (111, 62)', () => {
    const part = partOf(board, 'U1')
    expect(part.at).toEqual({ x: 10, y: 20 })
    expect(part.rotationDeg).toBe(90)
    expect(padAt(part, 0)).toEqual({ x: 11, y: 18 })
    expect(padAt(part, 1)).toEqual({ x: 11, y: 22 })
  })

  it('puts a bottom part’s pads where the file has them: (-2, 1) at 270 degrees about (130, 70) is (129, 68)', () => {
    const part = partOf(board, 'U2')
    expect(part.at).toEqual({ x: 30, y: 10 })
    expect(padAt(part, 0)).toEqual({ x: 29, y: 12 })
    expect(padAt(part, 1)).toEqual({ x: 29, y: 8 })
  })

  it('turns a pad by what is left of its angle on the board', () => {
    const model = loadBoard(board.description)
    if (!model.ok) throw new Error(JSON.stringify(model.faults))
    const turned = (ref: string, index: number) =>
      (((model.value.partByRef.get(ref)?.pads[index]?.rotationDeg ?? NaN) % 360) + 360) % 360
    expect([turned('U1', 0), turned('U2', 0), turned('U2', 1)]).toEqual([90, 300, 270])
  })

  it('keeps bare and quoted nets, values and pads without number', () => {
    expect(partOf(board, 'U1').value).toBe('4k7 "1%" (thin)')
    expect(partOf(board, 'U1').pads?.map((pad) => [pad.number, pad.net])).toEqual([
      ['1', '/data/D,1&2'],
      ['2', 'GND'],
      ['', undefined],
    ])
    expect(partOf(board, 'U2').pads?.[1]?.net).toBe('/odd name/~RESET')
  })

  it('rounds the corner that an arc of the old form cuts', () => {
    const { outline } = board.description
    expect(boxOf(outline)).toEqual({ minX: 0, minY: 0, maxX: 40, maxY: 30 })
    // A 40 x 30 rectangle less the corner outside a quarter circle of 5 mm.
    expect(Math.abs(signedArea(outline))).toBeCloseTo(1200 - (25 - (25 * Math.PI) / 4), 1)
    expect(polygonContains(outline, { x: 1, y: 29 })).toBe(false)
    expect(polygonContains(outline, { x: 2, y: 28 })).toBe(true)
  })

  it('takes a circle inside as a hole, an unplated drill as a hole, and says that there is a second edge', () => {
    expect(board.description.holes).toEqual([
      { at: { x: 4, y: 4 }, diameterMm: 3.2, plated: false },
      { at: { x: 20, y: 15 }, diameterMm: 6, plated: false },
    ])
    expect(board.untold.join('\n')).toContain('1 more closed edge lies beside the biggest one')
  })

  it('takes the courtyard as the body where there is no fabrication outline', () => {
    expect(partOf(board, 'U1').body).toMatchObject({ widthMm: 6, lengthMm: 4 })
  })

  it('keeps a part that lies off the board', () => {
    expect(partOf(board, 'TP9').at).toEqual({ x: 100, y: 20 })
  })

  it('reads thickness, keeps the copper layers without a stack-up with a thickness that is assumed, and counts tracks and vias', () => {
    expect(board.description.thicknessMm).toBe(1.2)
    expect(board.description.copper).toMatchObject([
      { name: 'Oben', thicknessUm: 35, thicknessFrom: 'assumed' },
      { name: 'Masse', thicknessUm: 35, thicknessFrom: 'assumed' },
      { name: 'Unten', thicknessUm: 35, thicknessFrom: 'assumed' },
    ])
    expect(board.untold.join('\n')).toContain('Oben, Masse, Unten')
    expect(board.counts).toMatchObject({ version: 20171130, copperLayers: 3, tracks: 2, vias: 1 })
  })
})

describe('a layout whose nets have names only', () => {
  let board: KicadImport
  beforeAll(async () => {
    board = await imported(fixture('names-only'))
  })

  it('reads nets that look like numbers or like parts of the language as names', () => {
    expect(partOf(board, 'X"1"').pads?.map((pad) => pad.net)).toEqual(['5', '__proto__', undefined])
    expect(board.counts).toMatchObject({ nets: 2, tracks: 1 })
  })

  it('takes ordinal 2 as the bottom in the new numbering', () => {
    expect(partOf(board, 'X"1"').side).toBe('bottom')
  })

  it('reads escapes and letters beyond ASCII', () => {
    expect(partOf(board, 'X"1"').value).toBe('first line\nsecond Ω')
  })

  it('keeps rotation 45 and places a bottom pad by it', () => {
    const part = partOf(board, 'X"1"')
    expect(part.rotationDeg).toBe(45)
    expect(padAt(part, 0).x).toBeCloseTo(2 + Math.SQRT2, 6)
    expect(padAt(part, 0).y).toBeCloseTo(7 + Math.SQRT2, 6)
  })

  it('reads the stack-up and says what it leaves out', () => {
    expect(board.description.copper.map(({ name, thicknessUm }) => [name, thicknessUm])).toEqual([
      ['Vorne', 18],
      ['In1.Cu', 35],
      ['B.Cu', 70],
    ])
    expect(board.untold.join('\n')).toContain('no thickness for In1.Cu')
  })

  it('takes an arc of three points with its chord as a cut-out', () => {
    const [hole] = board.description.holes
    if (hole === undefined || !('polygon' in hole)) throw new Error('no cut-out')
    // Half a disc of radius 2 about (10, 10) on the board.
    expect(Math.abs(signedArea(hole.polygon))).toBeCloseTo(2 * Math.PI, 1)
    expect(boxOf(hole.polygon).maxY).toBeCloseTo(12, 6)
  })
})

const line = (x1: number, y1: number, x2: number, y2: number): string =>
  `(gr_line (start ${x1} ${y1}) (end ${x2} ${y2}) (layer "Edge.Cuts") (width 0.1))`

const drawn = (x1: number, y1: number, x2: number, y2: number): string =>
  line(x1, y1, x2, y2).replace('gr_line', 'fp_line')

describe('an edge that is not one closed line', () => {
  const part = footprintText('U1', [{ number: '1', x: 0, y: 0 }], { x: 50, y: 50 })
  it('is closed over a small gap, which is said', async () => {
    const forms = [line(0, 0, 80, 0), line(80, 0.2, 80, 60), line(80, 60, 0, 60), line(0, 60, 0, 0), part]
    const board = await imported(layoutText(forms, { edge: false }))
    expect(board.description.outline.length).toBeGreaterThanOrEqual(4)
    expect(board.untold.join('\n')).toMatch(/gaps of up to 0\.200 mm/)
  })

  it('is replaced by its hull over a wide gap, which is said', async () => {
    const forms = [line(0, 0, 80, 0), line(80, 0, 80, 60), line(80, 60, 0, 60), part]
    const board = await imported(layoutText(forms, { edge: false }))
    expect(boxOf(board.description.outline)).toEqual({ minX: 0, minY: 0, maxX: 80, maxY: 60 })
    expect(board.untold.join('\n')).toContain('not closed')
  })

  it('is replaced by the box around all pads where nothing is drawn, which is said', async () => {
    const pads = [
      { number: '1', x: -5, y: -2 },
      { number: '2', x: 5, y: 2 },
    ]
    const board = await imported(layoutText([footprintText('U1', pads, { x: 50, y: 50 })], { edge: false }))
    expect(boxOf(board.description.outline)).toEqual({ minX: 0, minY: 0, maxX: 10, maxY: 4 })
    expect(board.untold.join('\n')).toContain('No board edge is drawn')
  })

  it('may be drawn inside a footprint', async () => {
    const edges = [drawn(0, 0, 20, 0), drawn(20, 0, 20, 10), drawn(20, 10, 0, 10), drawn(0, 10, 0, 0)]
    const carrier = `(footprint "own:edge" (layer "F.Cu") (at 30 40 90) (fp_text reference "M1" (at 0 0) (layer "F.Fab")) ${edges.join(' ')})`
    const board = await imported(layoutText([carrier], { edge: false }))
    expect(boxOf(board.description.outline)).toEqual({ minX: 0, minY: 0, maxX: 10, maxY: 20 })
  })
})

const faultsOf = async (text: string) => {
  const result = await importText(text)
  return result.ok ? [] : result.faults
}

describe('a layout that can’t be read', () => {
  it('names the line of a part without a place', async () => {
    const text = layoutText(['(footprint "x" (layer "F.Cu")\n(at here 5))'])
    expect(await faultsOf(text)).toEqual([
      { path: 'line 5', found: "(footprint …) that can't be read", expected: '(at x y) with two numbers' },
    ])
  })

  it('refuses another kind of file by its first form', async () => {
    expect((await faultsOf('(kicad_sch (version 1))'))[0]).toMatchObject({ path: 'line 1', expected: '(kicad_pcb …' })
    expect((await faultsOf('\nPCBNEW-BOARD Version 1'))[0]).toMatchObject({ path: 'line 2' })
    expect((await faultsOf(''))[0]?.found).toBe('no form at all')
  })

  it('says that a file was cut off', async () => {
    const text = fixture('version-5')
    const [fault] = await faultsOf(text.slice(0, text.length / 2))
    expect(fault?.found).toMatch(/the end of the file inside \d+ open brackets/)
  })

  it('refuses a board without parts', async () => {
    expect((await faultsOf(layoutText([])))[0]?.found).toBe('a layout without a footprint')
  })
})
