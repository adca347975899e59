/** What body a footprint stands for, if any: drawings, bare pads and holes have none, and silk lines tell none. */
import { type Box, boxOf, type Point, someOf, say } from '../../base/index.ts'
import type { Side } from '../schema.ts'
import type { Footprint, LayoutPad, Stroke } from './model.ts'
import { isConnector, prefixOf } from './references.ts'

/** Where a body lies in the footprint's own drawing (y down), and what told it. */
export type Body =
  | { readonly from: 'outline' | 'pads'; readonly box: Box }
  /** A drawing, bare pads or a hole: nothing stands on the board. */
  | { readonly from: 'none' }

const SMALLEST_OUTLINE_MM = 0.05
/** How far a fabrication outline may stand out of the courtyard around it: width of the lines. */
const OUTLINE_SLACK_MM = 0.3
/** Pads nearer to each other than this are of one row or field. Common practice, no source. */
const ROW_GAP_MM = 4

/** Drawings, marks for the camera, pads for a probe, holes, stitches and joints of bare copper: nothing is mounted. */
const BARE_LIBRARY = /logo|fiducial|mounting_?hole|test_?(point|pad)|stitch|tooling|mouse_?bite|panel_?tab/i
const BARE_PREFIXES = new Set(['FID', 'FTG', 'FD', 'TP', 'H', 'MH', 'MTG', 'LOGO', 'STITCH'])
const BARE_JOINT_LIBRARY = /solder_?(jumper|bridge|pad)|net_?tie|(^|[:_-])sj([_-]|\d|$)/i
const MOST_JOINT_PADS = 4

/** A footprint with what its place on the sheet says. */
export interface SheetFootprint {
  readonly footprint: Footprint
  readonly ref: string
  readonly side: Side
  /** Middles of its pads on the sheet. */
  readonly padsAt: readonly Point[]
}

/** The body of each footprint, in their order; what had to be guessed is said. */
export function bodiesOf(placed: readonly SheetFootprint[], untold: string[]): Body[] {
  const bodies = placed.map(bodyOf)
  const shrunk: string[] = []
  const mended = placed.map((own, i): Body => {
    const body = bodies[i] ?? { from: 'none' }
    if (body.from !== 'pads' || !standsOverOthers(own, placed)) return body
    shrunk.push(own.ref)
    return { from: 'pads', box: padsBox(largestRow(own.footprint), own.footprint.rotationDeg) }
  })
  const refsOf = (from: Body['from']): string[] =>
    placed.flatMap(({ ref }, i) => (mended[i]?.from === from ? [ref] : []))
  const guessed = refsOf('pads')
  if (guessed.length > 0)
    untold.push(
      say(
        'No outline tells the body of {parts, plural, one {# part} other {# parts}} ({guessed}); the box around the pads is taken.',
        { parts: guessed.length, guessed: someOf(guessed) },
      ),
    )
  if (shrunk.length > 0)
    untold.push(
      say('Other parts stand between the pads of {shrunk}; only their biggest row of pads has a body.', {
        shrunk: someOf(shrunk),
      }),
    )
  const padless = placed.flatMap(({ footprint, ref }) => (isUnknown(footprint) ? [ref] : []))
  if (padless.length > 0)
    untold.push(
      say(
        'Neither pads nor a size are told of {parts, plural, one {# part} other {# parts}} ({padless}); only their places are known.',
        { parts: padless.length, padless: someOf(padless) },
      ),
    )
  const bare = refsOf('none').filter((ref) => !padless.includes(ref))
  if (bare.length > 0) untold.push(say('Drawings, bare pads and holes have no body: {bare}.', { bare: someOf(bare) }))
  return mended
}

/** The fabrication outline inside the courtyard, else either of them, else the box around the pads. */
function bodyOf({ footprint, side }: SheetFootprint): Body {
  if (isBare(footprint)) return { from: 'none' }
  const fabrication = outlineBox(footprint, side, ['Fab'])
  const courtyard = outlineBox(footprint, side, ['CrtYd', 'Courtyard'])
  const pads = padsBox(footprint.pads, footprint.rotationDeg)
  if (courtyard !== undefined) {
    const told = fabrication !== undefined && isWithin(fabrication, courtyard) ? fabrication : courtyard
    return { from: 'outline', box: told }
  }
  // What is drawn around a connector is often the plug, the card or the board that goes into it.
  if (fabrication === undefined || isConnector(footprint)) return { from: 'pads', box: pads }
  return { from: 'outline', box: fabrication }
}

/** Placed as a part, and nothing more is known of it. */
const isUnknown = ({ pads, strokes, isPlaced }: Footprint): boolean =>
  isPlaced === true && pads.length === 0 && strokes.length === 0

function isBare({ pads, library, reference, strokes, isPlaced }: Footprint): boolean {
  const copper = pads.filter((pad) => pad.type !== 'np_thru_hole')
  if (copper.length === 0) return isPlaced !== true || strokes.length === 0
  if (BARE_JOINT_LIBRARY.test(library)) return copper.length <= MOST_JOINT_PADS
  if (!isOneJoint(copper)) return false
  if (BARE_LIBRARY.test(library) || BARE_PREFIXES.has(prefixOf(reference))) return true
  return !strokes.some(({ layer }) => /\.(Fab|CrtYd|Courtyard)$/.test(layer))
}

/** One pad, or several that are one: a hole with stitches around it. */
function isOneJoint(pads: readonly LayoutPad[]): boolean {
  const nets = new Set(pads.flatMap(({ net }) => net ?? []))
  const numbers = new Set(pads.flatMap(({ number }) => (number === '' ? [] : [number])))
  return nets.size <= 1 && numbers.size <= 1
}

/** By what is drawn on the part's own side, else by what is drawn on the other. */
function outlineBox({ strokes }: Footprint, side: Side, kinds: readonly string[]): Box | undefined {
  const [own, other] = side === 'top' ? ['F', 'B'] : ['B', 'F']
  const on = (letter = ''): Box | undefined =>
    strokesBox(
      strokes,
      kinds.map((kind) => `${letter}.${kind}`),
    )
  return on(own) ?? on(other)
}

function strokesBox(strokes: readonly Stroke[], layers: readonly string[]): Box | undefined {
  const points = strokes.flatMap((stroke) => (layers.includes(stroke.layer) ? stroke.points : []))
  if (points.length === 0) return undefined
  const box = boxOf(points)
  return box.maxX - box.minX > SMALLEST_OUTLINE_MM && box.maxY - box.minY > SMALLEST_OUTLINE_MM ? box : undefined
}

const isWithin = (inner: Box, outer: Box): boolean =>
  inner.minX >= outer.minX - OUTLINE_SLACK_MM &&
  inner.minY >= outer.minY - OUTLINE_SLACK_MM &&
  inner.maxX <= outer.maxX + OUTLINE_SLACK_MM &&
  inner.maxY <= outer.maxY + OUTLINE_SLACK_MM

const padsBox = (pads: readonly LayoutPad[], rotationDeg: number): Box =>
  boxOf(pads.flatMap((pad) => padCorners(pad, rotationDeg)))

/** Opposite corners of the box around a pad in the footprint's own drawing. */
function padCorners(pad: LayoutPad, rotationDeg: number): [Point, Point] {
  const angle = ((pad.rotationDeg - rotationDeg) * Math.PI) / 180
  const halfX = (Math.abs(pad.widthMm * Math.cos(angle)) + Math.abs(pad.lengthMm * Math.sin(angle))) / 2
  const halfY = (Math.abs(pad.widthMm * Math.sin(angle)) + Math.abs(pad.lengthMm * Math.cos(angle))) / 2
  return [
    { x: pad.at.x - halfX, y: pad.at.y - halfY },
    { x: pad.at.x + halfX, y: pad.at.y + halfY },
  ]
}

/** Whether pads of another part on the same side lie within the box around a part's pads: no body lies on them. */
function standsOverOthers({ footprint, side, padsAt }: SheetFootprint, all: readonly SheetFootprint[]): boolean {
  if (padsAt.length < 2) return false
  const box = boxOf(padsAt)
  return all.some(
    (other) =>
      other.footprint !== footprint &&
      other.side === side &&
      other.padsAt.some(({ x, y }) => x > box.minX && x < box.maxX && y > box.minY && y < box.maxY) &&
      !isBare(other.footprint),
  )
}

/** The pads that hang together over short gaps, of all such rows the one with most pads. */
function largestRow({ pads, rotationDeg }: Footprint): readonly LayoutPad[] {
  const boxes = pads.map((pad) => boxOf(padCorners(pad, rotationDeg)))
  const left = new Set(pads.keys())
  let best: readonly number[] = []
  for (const start of pads.keys()) {
    if (!left.delete(start)) continue
    const row = [start]
    for (const here of row)
      for (const there of left)
        if (gapBetween(boxes[here], boxes[there]) <= ROW_GAP_MM) {
          left.delete(there)
          row.push(there)
        }
    if (row.length > best.length) best = row
  }
  return best.flatMap((i) => pads[i] ?? [])
}

function gapBetween(a: Box | undefined, b: Box | undefined): number {
  if (a === undefined || b === undefined) return Infinity
  const x = Math.max(0, a.minX - b.maxX, b.minX - a.maxX)
  const y = Math.max(0, a.minY - b.maxY, b.minY - a.maxY)
  return Math.hypot(x, y)
}
