/** Found places: residue as stipple, film as waves, corrosion as crosses, a clean spot as a green diamond with a tick. */
import { type Box, boxOf, type Point, spansAt } from '../../base/index.ts'
import { type AreaMark, type SlipMark } from '../../spill/index.ts'
import { outlinesOf } from './area-outline.ts'
import { circle, closedSteps, type DrawnView, openSteps, type Shape, type Step } from './shape.ts'

const SMALLEST_RADIUS_PX = 9
/** Corners of a circle where its inside is asked for. */
const CORNERS = 48
const TURN = 2 * Math.PI

/** A small circle stays large enough to be seen. @returns its radius in units of the drawing */
export const discRadius = ({ scale, unit }: DrawnView, mark: AreaMark | SlipMark): number =>
  Math.max(SMALLEST_RADIUS_PX * unit, mark.radiusMm * scale)

/** What an area covers: a way around it, and the same as closed lines. */
interface Patch {
  readonly at: Point
  readonly loops: readonly (readonly Point[])[]
  readonly edge: readonly Step[]
}

/** The shapes of one found place, those below first. */
export function areaShapes(view: DrawnView, mark: AreaMark): Shape[] {
  const patch = patchOf(view, mark)
  return mark.kind === 'clean' ? cleanShapes(view, patch) : foundShapes(view, patch, mark.kind)
}

function patchOf(view: DrawnView, mark: AreaMark): Patch {
  const at = view.at(mark.at)
  const outlines = outlinesOf(mark)
  if (outlines.length === 0) {
    const radius = discRadius(view, mark)
    return { at, loops: [ringAround(at, radius)], edge: [circle(at, radius)] }
  }
  const loops = outlines.map((outline) => outline.map(view.at))
  return { at, loops, edge: loops.flatMap(closedSteps) }
}

const ringAround = ({ x, y }: Point, radius: number): Point[] =>
  Array.from({ length: CORNERS }, (_, i) => ({
    x: x + radius * Math.cos((i / CORNERS) * TURN),
    y: y + radius * Math.sin((i / CORNERS) * TURN),
  }))

type Found = Exclude<AreaMark['kind'], 'clean'>

const EDGE_DASH: Readonly<Record<Found, readonly number[]>> = { residue: [2.5, 3], film: [7, 4], corrosion: [] }

function foundShapes(view: DrawnView, patch: Patch, kind: Found): Shape[] {
  const { unit } = view
  const dash = EDGE_DASH[kind].map((length) => length * unit)
  return [
    { steps: patch.edge, fill: { colour: 'residue', alpha: 0.12 } },
    FILLING[kind](rowsOf(view, patch), unit),
    // a light line under the edge tells it from a photo below
    { steps: patch.edge, stroke: { colour: 'sheet', width: 3.6 * unit, alpha: 0.7 } },
    { steps: patch.edge, stroke: { colour: 'residue', width: 1.6 * unit, dash } },
  ]
}

/** The inside of a patch, row by row. */
interface Rows {
  readonly at: Point
  readonly box: Box
  readonly loops: Patch['loops']
}

function rowsOf({ bounds }: DrawnView, { at, loops }: Patch): Rows {
  const box = boxOf(loops.flat())
  const seen = {
    minX: Math.max(bounds.minX, box.minX),
    minY: Math.max(bounds.minY, box.minY),
    maxX: Math.min(bounds.maxX, box.maxX),
    maxY: Math.min(bounds.maxY, box.maxY),
  }
  return { at, box: seen, loops }
}

/** Nodes of a grid that moves with the mark, every other row shifted by half a step; only those inside. */
function nodesIn({ at, box, loops }: Rows, step: number): Point[] {
  const nodes: Point[] = []
  for (let row = Math.ceil((box.minY - at.y) / step); at.y + row * step <= box.maxY; row++) {
    const y = at.y + row * step
    const left = at.x + (row % 2 === 0 ? 0 : step / 2)
    for (const [from, to] of spansAt(loops, y)) {
      const end = Math.min(to, box.maxX)
      const first = Math.ceil((Math.max(from, box.minX) - left) / step)
      for (let x = left + first * step; x <= end; x += step) nodes.push({ x, y })
    }
  }
  return nodes
}

const STIPPLE_PX = 6.5
const DOT_PX = 1.45
const CROSSES_PX = 8.5
const CROSS_PX = 2
const WAVE_ROW_PX = 7
const WAVE_PX = 8
const CREST_PX = 3.2
const LINE_PX = 1.3

/** What fills each kind of found place. */
const FILLING: Readonly<Record<Found, (rows: Rows, unit: number) => Shape>> = {
  residue: (rows, unit) => ({
    steps: nodesIn(rows, STIPPLE_PX * unit).map((node) => circle(node, DOT_PX * unit)),
    fill: { colour: 'residue' },
  }),
  corrosion: (rows, unit) => ({
    steps: nodesIn(rows, CROSSES_PX * unit).flatMap((node) => cross(node, CROSS_PX * unit)),
    stroke: { colour: 'residue', width: LINE_PX * unit },
  }),
  film: (rows, unit) => ({ steps: waves(rows, unit), stroke: { colour: 'residue', width: LINE_PX * unit } }),
}

const cross = ({ x, y }: Point, half: number): Step[] => [
  ['M', x - half, y - half],
  ['L', x + half, y + half],
  ['M', x - half, y + half],
  ['L', x + half, y - half],
]

/** Half waves, crest and trough in turn, as far as their middles lie inside. */
function waves({ at, box, loops }: Rows, unit: number): Step[] {
  const [row, length, crest] = [WAVE_ROW_PX * unit, WAVE_PX * unit, CREST_PX * unit]
  const steps: Step[] = []
  for (let y = at.y + Math.ceil((box.minY - at.y) / row) * row; y <= box.maxY; y += row) {
    for (const [from, to] of spansAt(loops, y)) {
      const [left, right] = [Math.max(from, box.minX), Math.min(to, box.maxX)]
      for (let i = Math.ceil((left - at.x) / length - 0.5); at.x + (i + 0.5) * length <= right; i++) {
        const x = at.x + i * length
        steps.push(['M', x, y], ['Q', x + length / 2, y + (i % 2 === 0 ? -crest : crest), x + length, y])
      }
    }
  }
  return steps
}

/** A clean place is ringed where it is larger than its symbol. */
const RINGED_FROM_PX = 32
const DIAMOND_PX = 10

function cleanShapes({ unit }: DrawnView, { at, loops, edge }: Patch): Shape[] {
  const box = boxOf(loops.flat())
  const ringed = Math.max(box.maxX - box.minX, box.maxY - box.minY) > RINGED_FROM_PX * unit
  const on = (x: number, y: number): Point => ({ x: at.x + x * unit, y: at.y + y * unit })
  const half = DIAMOND_PX
  const diamond = closedSteps([on(0, -half), on(half, 0), on(0, half), on(-half, 0)])
  const tick = openSteps([on(-4, 0.2), on(-1, 3.2), on(4.4, -3.4)])
  return [
    ...(ringed
      ? [{ steps: edge, stroke: { colour: 'clean', width: 1.2 * unit, dash: [3 * unit, 5 * unit] } } as const]
      : []),
    { steps: diamond, fill: { colour: 'sheet' }, stroke: { colour: 'clean', width: 2 * unit, round: true } },
    { steps: tick, stroke: { colour: 'clean', width: 2 * unit, round: true } },
  ]
}

/** Where a tool slipped: three scratches within a thin circle, in ink. */
export function slipShapes(view: DrawnView, mark: SlipMark): Shape[] {
  const { unit } = view
  const at = view.at(mark.at)
  const radius = discRadius(view, mark)
  const reach = Math.min(radius * 0.62, 16 * unit)
  const scratches = [-1, 0, 1].flatMap((k) => {
    const aside = k * reach * 0.42
    const half = reach * (k === 0 ? 1 : 0.62) * 0.75
    return openSteps([
      { x: at.x + aside - half, y: at.y + aside + half },
      { x: at.x + aside + half, y: at.y + aside - half },
    ])
  })
  return [
    {
      steps: [circle(at, radius)],
      stroke: { colour: 'ink', width: 1.5 * unit, dash: [1.5 * unit, 4 * unit], round: true },
    },
    { steps: scratches, stroke: { colour: 'sheet', width: 4.5 * unit, round: true } },
    { steps: scratches, stroke: { colour: 'ink', width: 2 * unit, round: true } },
  ]
}
