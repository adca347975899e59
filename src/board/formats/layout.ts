/** From a piece that tells all that is known of a board to the layout that every format becomes. */
import { type Point, someOf, say } from '../../base/index.ts'
import type { LayerTable } from '../layout/layers.ts'
import type { Footprint, Layout, LayoutPad, Stroke } from '../layout/model.ts'
import { pourInside } from '../layout/pour.ts'
import { sizeInName } from './package-size.ts'
import { groupedBy } from '../group.ts'
import { middleOf } from './pads.ts'
import type { Piece, PiecePad, PiecePart, PieceStroke, PieceVia } from './pieces.ts'

const [TOP, BOTTOM] = ['F.Cu', 'B.Cu']
/** What stands for a pad without a size. */
const UNSIZED_MM = 0.3
const MOST_NET_LETTERS = 120

const upDown = ({ x, y }: Point): Point => ({ x, y: 0 - y })

/** @param untold gets a sentence for each thing that was put in the place of what the piece doesn't tell */
export function layoutFrom(piece: Piece, untold: string[]): Layout {
  const layers = layerTable(piece)
  const parts = piece.parts.filter((part) => part.at !== undefined || part.pads.length > 0)
  sayGuesses(parts, untold)
  const named = new Set<string>()
  const netOf = (net: string): string => {
    if (net.length > MOST_NET_LETTERS) named.add(net)
    return net.slice(0, MOST_NET_LETTERS)
  }
  return {
    thicknessMm: piece.thicknessMm,
    layers,
    stackup: piece.copper.some(({ thicknessMm }) => thicknessMm !== undefined) ? stackupOf(piece, layers) : [],
    footprints: parts.map((part) => footprintOf(part, netOf)),
    edges: piece.outline.map((stroke) => strokeOf(stroke, 'Edge.Cuts', upDown)),
    tracks: piece.tracks.map((track) => ({
      ...track,
      net: netOf(track.net),
      layer: layerNamed(layers, track.layer),
      points: track.points.map(upDown),
    })),
    vias: joinedVias(piece).map((via) => ({
      ...via,
      net: netOf(via.net),
      at: upDown(via.at),
      layers: via.layers.map((layer) => layerNamed(layers, layer)),
    })),
    pours: piece.pours.map(({ net, layer, points }) =>
      pourInside(points.map(upDown), { net: netOf(net), layer: layerNamed(layers, layer), isFilled: true }),
    ),
    drills: piece.drills.map((drill) => ({ ...drill, path: drill.path.map(upDown) })),
    shortenedNets: named.size,
  }
}

/** The outer copper layers get the names that all stages know them by. */
function layerTable({ copper }: Piece): LayerTable {
  const namedBy = { top: TOP, bottom: BOTTOM }
  return {
    copper: copper.map(({ name, side }) => ({ name: side === undefined ? name : namedBy[side], shown: name })),
    topName: TOP,
    bottomName: BOTTOM,
  }
}

/** Files of single layers show a via once each: at one place and of one net they are one. */
function joinedVias({ vias }: Piece): PieceVia[] {
  const byPlace = groupedBy(vias, ({ net, at }) => `${net} ${at.x.toFixed(3)} ${at.y.toFixed(3)}`)
  return [...byPlace.values()].flatMap((own) => {
    const [first] = own
    return first === undefined ? [] : [{ ...first, layers: [...new Set(own.flatMap(({ layers }) => layers))] }]
  })
}

const layerNamed = (table: LayerTable, shown: string): string =>
  table.copper.find((layer) => layer.shown === shown)?.name ?? shown

const stackupOf = ({ copper }: Piece, { copper: named }: LayerTable): Layout['stackup'] =>
  copper.map(({ thicknessMm }, i) => ({ name: named[i]?.name ?? '', thicknessMm }))

function sayGuesses(parts: readonly PiecePart[], untold: string[]): void {
  const unturned = parts.filter(({ rotationDeg }) => rotationDeg === undefined)
  if (unturned.length > 0)
    untold.push(
      say("How these parts are turned isn't told: {unturned}; their drawings lie as on the board.", {
        unturned: refsOf(unturned),
      }),
    )
  const sideless = parts.filter(({ side }) => side === undefined)
  if (sideless.length > 0)
    untold.push(
      say("On which side these parts are isn't told: {sideless}; the top is taken.", { sideless: refsOf(sideless) }),
    )
  const unsized = parts.filter(({ pads }) => pads.some(({ widthMm, lengthMm }) => widthMm <= 0 || lengthMm <= 0))
  if (unsized.length > 0)
    untold.push(
      say('No size of pads is told of {parts, plural, one {# part} other {# parts}}; {unsizedMm} mm is taken.', {
        parts: unsized.length,
        unsizedMm: UNSIZED_MM,
      }),
    )
  const undrilled = parts.flatMap(({ pads }) =>
    pads.filter(({ access, hole }) => access === 'through' && hole === undefined),
  )
  if (undrilled.length > 0)
    untold.push(
      say('No file tells the drill of {pads, plural, one {# pad} other {# pads}} that go through the board.', {
        pads: undrilled.length,
      }),
    )
  const byName = parts.filter((part) => part.pads.length === 0 && rectangleOf(part) !== undefined)
  if (byName.length > 0)
    untold.push(
      say("The body of {parts, plural, one {# part} other {# parts}} is the one that the package's name gives.", {
        parts: byName.length,
      }),
    )
}

const refsOf = (parts: readonly PiecePart[]): string =>
  someOf(parts.map(({ ref }) => ref || say('one without a reference')))

function footprintOf(part: PiecePart, netOf: (net: string) => string): Footprint {
  const { rotationDeg = 0 } = part
  const at = part.at ?? middleOf(part.pads)
  const toLocal = localAbout(at, rotationDeg)
  const side = part.side ?? 'top'
  const letter = side === 'top' ? 'F' : 'B'
  const named = part.pads.length > 0 || part.bodies.length > 0 ? undefined : rectangleOf(part)
  const strokes = [
    ...part.bodies.map((stroke) => strokeOf(stroke, `${letter}.Fab`, toLocal)),
    ...part.courtyards.map((stroke) => strokeOf(stroke, `${letter}.CrtYd`, toLocal)),
    ...(named === undefined
      ? []
      : [strokeOf(named, `${letter}.Fab`, upDown), strokeOf(named, `${letter}.CrtYd`, upDown)]),
  ]
  const { heightMm = sizeInName(part.packageName ?? '')?.heightMm } = part
  return {
    library: part.packageName ?? '',
    layer: side === 'top' ? TOP : BOTTOM,
    at: upDown(at),
    rotationDeg,
    reference: part.ref,
    value: part.value ?? '',
    pads: part.pads.map((pad) => padOf(pad, { toLocal, netOf })),
    strokes,
    line: 0,
    isPlaced: part.at !== undefined,
    ...(heightMm === undefined ? {} : { heightMm }),
  }
}

/** From the board to a part's own drawing, which is not mirrored and has y down. */
function localAbout(at: Point, rotationDeg: number): (point: Point) => Point {
  const turn = (rotationDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
  return ({ x, y }) => {
    const [dx, dy] = [x - at.x, y - at.y]
    return { x: dx * cos + dy * sin, y: 0 - (dy * cos - dx * sin) }
  }
}

function rectangleOf({ packageName, pads }: PiecePart): PieceStroke | undefined {
  const size = pads.length > 0 ? undefined : sizeInName(packageName ?? '')
  if (size === undefined) return undefined
  const [x, y] = [size.widthMm / 2, size.lengthMm / 2]
  const points = [
    { x: -x, y: -y },
    { x, y: -y },
    { x, y },
    { x: -x, y },
  ]
  return { points, isClosed: true }
}

function strokeOf({ points, isClosed, circle }: PieceStroke, layer: string, move: (point: Point) => Point): Stroke {
  return {
    layer,
    points: points.map(move),
    closed: isClosed,
    ...(circle === undefined ? {} : { circle: { at: move(circle.at), radiusMm: circle.radiusMm } }),
    line: 0,
  }
}

interface OnPart {
  readonly toLocal: (point: Point) => Point
  readonly netOf: (net: string) => string
}

function padOf(pad: PiecePad, { toLocal, netOf }: OnPart): LayoutPad {
  const { hole } = pad
  const widthMm = pad.widthMm > 0 ? pad.widthMm : UNSIZED_MM
  const lengthMm = pad.lengthMm > 0 ? pad.lengthMm : UNSIZED_MM
  return {
    number: pad.number,
    type: typeOf(pad),
    shape: pad.isRound ? 'circle' : 'rect',
    at: toLocal(pad.at),
    rotationDeg: pad.rotationDeg,
    widthMm,
    lengthMm,
    drill: hole === undefined ? undefined : { widthMm: hole.diameterMm, lengthMm: hole.diameterMm },
    layers: pad.access === 'through' ? ['*.Cu'] : [pad.access === 'top' ? TOP : BOTTOM],
    net: pad.net === undefined ? undefined : netOf(pad.net),
    signal: pad.signal,
    pinType: undefined,
  }
}

function typeOf({ hole, access }: PiecePad): string {
  if (hole === undefined) return access === 'through' ? 'thru_hole' : 'smd'
  return hole.isPlated ? 'thru_hole' : 'np_thru_hole'
}
