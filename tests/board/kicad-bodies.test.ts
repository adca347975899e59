/** What stands on an imported board and what is only drawn on it. Small layouts by hand, and real ones. */
import { readFile } from 'node:fs/promises'
import { describe, expect, it } from 'vitest'
import { polygonContains } from '../../src/base/index.ts'
import { type KicadImport, loadBoard, type PlacedPart } from '../../src/board/index.ts'
import { footprintText, imported, layoutText, type PadText, rectangleText } from '../support/kicad-text.ts'
import { importedFile, kicadTruth, packagedFile } from '../support/kicad-truth.ts'

/** Below this nothing stands on a board that a liquid or a nozzle would meet. */
const NOTHING_MM = 0.1
const FETCH_MS = 300_000

function placedParts({ description }: KicadImport): readonly PlacedPart[] {
  const model = loadBoard(description)
  if (!model.ok) throw new Error(JSON.stringify(model.faults))
  return model.value.parts
}

function placed(board: KicadImport, ref: string): PlacedPart {
  const part = placedParts(board).find((one) => one.ref === ref)
  if (part === undefined) throw new Error(`no part ${ref}`)
  return part
}

const sizeOf = ({ widthMm, lengthMm, heightMm }: PlacedPart) => ({ widthMm, lengthMm, heightMm })
const stands = ({ widthMm, lengthMm, heightMm }: PlacedPart): boolean =>
  heightMm > 0 || widthMm > NOTHING_MM || lengthMm > NOTHING_MM

const row = (count: number, y: number, from = 1): PadText[] =>
  Array.from({ length: count }, (_, k) => ({
    number: String(from + k),
    x: (k - (count - 1) / 2) * 2.54,
    y,
    net: `/H${from + k}`,
  }))
const chip = (reference: string, options = {}): string =>
  footprintText(
    reference,
    Array.from({ length: 16 }, (_, k) => ({ number: String(k + 1), x: k % 4, y: Math.floor(k / 4), net: `/N${k}` })),
    { x: 50, y: 50, ...options },
  )

describe('a header whose silk draws the board that goes onto it', () => {
  it('has its body where its pads are, and not over the parts inside the frame', async () => {
    const frame = rectangleText('F.SilkS', 46, 50)
    const board = await imported(
      layoutText([chip('U1'), footprintText('J1', row(10, -20), { x: 50, y: 50, drawings: frame })]),
    )
    // Ten pads of 0.4 mm in steps of 2.54 mm: 9 · 2.54 + 0.4 = 23.26.
    expect(sizeOf(placed(board, 'J1'))).toMatchObject({ widthMm: 23.26, lengthMm: 0.4 })
    expect(polygonContains(placed(board, 'J1').outline, { x: 50, y: 50 })).toBe(false)
  })

  it('has it at one row where its rows stand around other parts, which is said', async () => {
    const rows = [...row(10, -20), ...row(8, 20, 11)]
    const board = await imported(layoutText([chip('U1'), footprintText('J1', rows, { x: 50, y: 50 })]))
    const { outline } = placed(board, 'J1')
    expect(polygonContains(outline, { x: 50, y: 50 })).toBe(false)
    expect(polygonContains(outline, { x: 50, y: 70 })).toBe(true)
    expect(board.untold.join('\n')).toContain('Other parts stand between the pads of J1')
  })

  it('keeps one body over two rows with nothing between them', async () => {
    const rows = [...row(10, -3.81), ...row(10, 3.81, 11)]
    const board = await imported(layoutText([footprintText('U1', rows, { x: 50, y: 50 })]))
    expect(sizeOf(placed(board, 'U1'))).toMatchObject({ widthMm: 23.26, lengthMm: 8.02 })
  })

  it('is as large as its courtyard where it has one', async () => {
    const drawings = rectangleText('F.CrtYd', 26, 6)
    const board = await imported(layoutText([footprintText('J1', row(10, 0), { x: 50, y: 50, drawings })]))
    expect(sizeOf(placed(board, 'J1'))).toMatchObject({ widthMm: 26, lengthMm: 6 })
  })

  it('has no body where only the fabrication layer draws the plug', async () => {
    const drawings = rectangleText('F.Fab', 60, 80)
    const board = await imported(layoutText([footprintText('J1', row(10, 0), { x: 50, y: 50, drawings })]))
    expect(sizeOf(placed(board, 'J1'))).toMatchObject({ widthMm: 23.26, lengthMm: 0.4 })
  })
})

describe('the body of a chip', () => {
  it('is its fabrication outline within the courtyard', async () => {
    const drawings = `${rectangleText('F.Fab', 6, 5)} ${rectangleText('F.CrtYd', 7, 6)} ${rectangleText('F.SilkS', 9, 9)}`
    const board = await imported(layoutText([chip('U1', { drawings })]))
    expect(sizeOf(placed(board, 'U1'))).toMatchObject({ widthMm: 6, lengthMm: 5 })
  })

  it('is its courtyard where the fabrication layer draws more than the part', async () => {
    const drawings = `${rectangleText('F.Fab', 40, 40)} ${rectangleText('F.CrtYd', 7, 6)}`
    const board = await imported(layoutText([chip('U1', { drawings })]))
    expect(sizeOf(placed(board, 'U1'))).toMatchObject({ widthMm: 7, lengthMm: 6 })
  })

  it('is the box around its pads where nothing but silk is drawn, which is said', async () => {
    const board = await imported(layoutText([chip('U1', { drawings: rectangleText('F.SilkS', 9, 9) })]))
    expect(sizeOf(placed(board, 'U1'))).toMatchObject({ widthMm: 3.4, lengthMm: 3.4 })
    expect(board.untold.join('\n')).toMatch(/No outline tells the body of 1 part \(U1\)/)
  })

  it('is taken from its own side', async () => {
    const drawings = `${rectangleText('F.CrtYd', 20, 20)} ${rectangleText('B.CrtYd', 7, 6)}`
    const board = await imported(layoutText([chip('U1', { drawings, layer: 'B.Cu' })]))
    expect(sizeOf(placed(board, 'U1'))).toMatchObject({ widthMm: 7, lengthMm: 6 })
  })
})

describe('what is only drawn or bare', () => {
  const one = [{ number: '1', x: 0, y: 0, net: '/A' }]
  const circle = '(fp_circle (center 0 0) (end 3 0) (layer "F.CrtYd") (width 0.05))'
  const cases: Readonly<Record<string, string>> = {
    'a logo': footprintText('G***', [], { drawings: rectangleText('F.SilkS', 46, 50) }),
    'a drawing with a courtyard': footprintText('REF**', [], { drawings: rectangleText('F.CrtYd', 30, 30) }),
    'a fiducial': footprintText('FID1', [{ number: '', x: 0, y: 0 }], { drawings: circle }),
    'a test pad': footprintText('TP1', one, { drawings: circle, library: 'TestPoint:TestPoint_Pad_D2.0mm' }),
    'a plated mounting hole': footprintText('H1', one, { drawings: circle, library: 'x:MountingHole_3mm_Pad' }),
    'an unplated hole': footprintText('X9', one, { drawings: circle }).replace('smd rect', 'np_thru_hole circle'),
    'a stitching via': footprintText('ST1', one),
    'a solder jumper': footprintText('JP1', [...one, { number: '2', x: 1, y: 0, net: '/B' }], {
      drawings: circle,
      library: 'Jumper:SolderJumper-2_P1.3mm_Open',
    }),
  }

  it.each(Object.entries(cases))('%s has no body, and that is said', async (_, footprint) => {
    const board = await imported(layoutText([chip('U1'), footprint]))
    expect(placedParts(board).map(stands)).toEqual([true, false])
    expect(board.untold.join('\n')).toContain('have no body')
  })

  it('is not a spring contact of one pad with a courtyard', async () => {
    const board = await imported(layoutText([footprintText('E1', one, { drawings: rectangleText('F.CrtYd', 3, 2) })]))
    expect(sizeOf(placed(board, 'E1'))).toMatchObject({ widthMm: 3, lengthMm: 2 })
  })
})

/** References of footprints without a pad of copper, found by their indentation alone. */
async function padlessRefs(path: string): Promise<string[]> {
  const text = await readFile(path, 'utf8')
  return text.split(/\n(?=\s{1,2}\(footprint )/).flatMap((form) => {
    const body = form.split(/\n(?=\s{1,2}\((?:gr_|segment|via|zone|group))/)[0] ?? ''
    const ref = /\((?:fp_text reference|property "Reference") "([^"]*)"/.exec(body)?.[1]
    const pads = [...body.matchAll(/\(pad "[^"]*" (\w+)/g)].filter(([, type]) => type !== 'np_thru_hole')
    return ref === undefined || pads.length > 0 || !body.trimStart().startsWith('(footprint ') ? [] : [ref]
  })
}

describe.each([
  'usr/share/kicad/demos/vme-wren/vme-wren.kicad_pcb',
  'usr/share/kicad/demos/tiny_tapeout/tinytapeout-demo.kicad_pcb',
  'usr/share/kicad/demos/stickhub/StickHub.kicad_pcb',
])('%s', (path) => {
  it('has a body for no footprint without pads', { timeout: FETCH_MS }, async (context) => {
    const file = await packagedFile({ ...kicadTruth('vme-wren').package, path }, context)
    const padless = await padlessRefs(file)
    const parts = placedParts(await importedFile(file))
    expect(padless.length).toBeGreaterThan(1)
    expect(parts.filter((part) => padless.includes(part.ref) && stands(part))).toEqual([])
  })
})
