/** All free labels of a drawing in one placement: marks first, then rings; each is set clear of parts' refs and badges. */
import { type Box, placeLabels, type LabelRequest, placesAround, type Point } from '../../base/index.ts'
import { labelPoints, type Mark, type Ring } from '../../spill/index.ts'
import { symbolBox } from './mark-shapes.ts'
import { wordsOfMark } from './mark-words.ts'
import type { Colour, DrawnText, DrawnView, MeasureText, Shape, TextLook } from './shape.ts'

export interface FreeLabelsInput {
  readonly marks: readonly Mark[]
  readonly rings: readonly Ring[]
  /** What labels keep off, in units of the drawing. */
  readonly obstacles: readonly Box[]
  readonly substanceName: (id: string) => string
  readonly measure: MeasureText
}

/** A label that found a place; a mark's words lie on a light ground, so that rings and hatch do not run through them. */
export interface FreeLabel {
  readonly id: string
  readonly ground: Shape | undefined
  readonly lines: readonly DrawnText[]
}

interface Wanted {
  readonly request: LabelRequest
  readonly grounded: boolean
  /** Kept clear on both sides of the words. */
  readonly padding?: number
  readonly lines: readonly (TextLook & { readonly text: string; readonly height: number })[]
}

/** Room at the edges, and that which the scale bar takes at the foot. */
const EDGE_PX = 4
const FOOT_PX = 34

/** The labels of a side's marks and of its rings, those without a free place left out; a spill's always has one. */
export function freeLabels(view: DrawnView, input: FreeLabelsInput): FreeLabel[] {
  const { unit, bounds } = view
  const here = input.marks.filter((mark) => mark.side === view.side)
  const wanted = [
    ...here.map((mark) => markLabel(view, mark, input)),
    ...input.rings.map((ring, i) => ringLabel(view, ring, i, input.measure)),
  ]
  const within = {
    minX: bounds.minX + EDGE_PX * unit,
    minY: bounds.minY + EDGE_PX * unit,
    maxX: bounds.maxX - EDGE_PX * unit,
    maxY: bounds.maxY - FOOT_PX * unit,
  }
  const symbols = here.filter((mark) => mark.kind !== 'dam').map((mark) => symbolBox(view, mark))
  const places = placeLabels(
    wanted.map(({ request }) => request),
    [...input.obstacles, ...symbols],
    within,
  )
  return wanted.flatMap((label) => {
    const corner = places.get(label.request.id)
    return corner === undefined ? [] : [placed(label, corner, unit)]
  })
}

function placed({ request, grounded, padding = 0, lines }: Wanted, corner: Point, unit: number): FreeLabel {
  let { y } = corner
  const drawn = lines.map(({ height, ...line }): DrawnText => {
    const at = { x: corner.x + padding, y: y + height / 2 }
    y += height
    return { ...line, at, align: 'left' }
  })
  return { id: request.id, ground: grounded ? groundOf(request, corner, unit) : undefined, lines: drawn }
}

function groundOf({ width, height }: LabelRequest, { x, y }: Point, unit: number): Shape {
  const [left, right] = [x - 5 * unit, x + width + 5 * unit]
  const [top, foot] = [y - 2 * unit, y + height + 2 * unit]
  return {
    steps: [['M', left, top], ['L', right, top], ['L', right, foot], ['L', left, foot], ['Z']],
    fill: { colour: 'sheet', alpha: 0.78 },
  }
}

const GAPS_PX = [6, 28, 56, 90] as const
const LINE_PX = 17
const SPILL_LINE_PX = 20

function markLabel(view: DrawnView, mark: Mark, { substanceName, measure }: FreeLabelsInput): Wanted {
  const { unit } = view
  const { title, detail } = wordsOfMark(mark, substanceName)
  const spill = mark.kind === 'spill'
  const look = { size: 13 * unit, weight: 500, colour: MARK_COLOURS[mark.kind], halo: 'sheet' } as const
  const first = spill ? ({ ...look, size: 16 * unit, weight: 700 } as const) : look
  const lines = [
    { ...first, text: title, height: (spill ? SPILL_LINE_PX : LINE_PX) * unit },
    ...(detail === undefined ? [] : [{ ...look, text: detail, height: LINE_PX * unit }]),
  ]
  const width = Math.max(...lines.map((line) => measure(line.text, line)))
  const height = lines.reduce((sum, line) => sum + line.height, 0)
  const symbol = symbolBox(view, mark)
  const candidates = GAPS_PX.flatMap((gap) => placesAround(symbol, width, height, gap * unit))
  return { request: { id: `mark ${mark.id}`, width, height, required: spill, candidates }, grounded: true, lines }
}

/** What a kind of mark is written in. */
const MARK_COLOURS: Readonly<Record<Mark['kind'], Colour>> = {
  spill: 'reachText',
  clean: 'cleanText',
  residue: 'residueText',
  film: 'residueText',
  corrosion: 'residueText',
  dam: 'ink',
  slip: 'ink',
  note: 'ink',
}

const RING_LINE_PX = 16
/** Two rings that lie close keep so much between their words, twice. */
const RING_PADDING_PX = 4

function ringLabel(view: DrawnView, ring: Ring, index: number, measure: MeasureText): Wanted {
  const { unit } = view
  const look = { size: 13 * unit, weight: ring.solid ? 700 : 500, colour: 'reachText', halo: 'sheet' } as const
  const height = RING_LINE_PX * unit
  const padding = RING_PADDING_PX * unit
  const width = measure(ring.label, look) + 2 * padding
  const candidates = labelPoints(ring).map((at) => {
    const p = view.at(at)
    return { x: p.x - width / 2, y: p.y - height / 2 }
  })
  return {
    request: { id: `ring ${index}`, width, height, required: false, candidates },
    grounded: false,
    padding,
    lines: [{ ...look, text: ring.label, height }],
  }
}
