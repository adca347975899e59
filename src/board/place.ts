/** From a part's description to the part as it stands on the board. */
import { boxOf, placePoint, type Placement, type Point, rectangleAround } from '../base/index.ts'
import { ballsOf } from './ball-field.ts'
import type { PlacedPad, PlacedPart } from './model.ts'
import type { PackageOutline } from './package-outline.ts'
import { partKinds } from './part-kinds.ts'
import type { Pad, Part } from './schema.ts'

/** Gap under a part that does not tell: a film of solder; under a core or memory: a soldered ball. From memory. */
const FILM_STANDOFF_MM = 0.05
const BALL_STANDOFF_MM = 0.3

const NO_BODY = { widthMm: 1, lengthMm: 1, heightMm: 0 }

const bodyOf = (description: Part, outline: PackageOutline | undefined) => description.body ?? outline?.body ?? NO_BODY

/** How a part stands on the board, from its description: mm and degrees, a bottom part mirrored. */
export const placementOf = ({ at, rotationDeg, side }: Part): Placement => ({
  at,
  rotationDeg,
  mirrored: side === 'bottom',
})

/** Corners of a part's body on the board in mm, in the order of its own drawing. */
export function bodyCorners(description: Part, outline: PackageOutline | undefined): Point[] {
  const body = bodyOf(description, outline)
  const middle = description.body?.centre ?? { x: 0, y: 0 }
  const placement = placementOf(description)
  return rectangleAround(body.widthMm, body.lengthMm).map((corner) =>
    placePoint({ x: corner.x + middle.x, y: corner.y + middle.y }, placement),
  )
}

/** The part on the board: body, gap and pads, from its own words first, else from its package. */
export function placePart(description: Part, outline: PackageOutline | undefined): PlacedPart {
  const body = bodyOf(description, outline)
  const placement = placementOf(description)
  const corners = bodyCorners(description, outline)
  const stands = partKinds[description.kind].onBalls ? BALL_STANDOFF_MM : FILM_STANDOFF_MM
  return {
    ref: description.ref,
    kind: description.kind,
    side: description.side,
    placement,
    widthMm: body.widthMm,
    lengthMm: body.lengthMm,
    heightMm: body.heightMm,
    standoffMm: description.standoffMm ?? outline?.standoffMm ?? stands,
    outline: placement.mirrored ? corners.toReversed() : corners,
    box: boxOf(corners),
    description,
    pads: placedPads(description, outline, placement),
    ballPitchMm: pitchOf(description, outline),
  }
}

function placedPads(description: Part, outline: PackageOutline | undefined, placement: Placement): PlacedPad[] {
  const balls = outline ? ballsOf(outline) : []
  if (description.pads !== undefined) {
    const signals = new Map(balls.map((ball) => [ball.name, ball.signal]))
    return description.pads.map((pad) => placePad(pad, placement, pad.signal ?? signals.get(pad.number)))
  }
  const diameterMm = outline?.ballDiameterMm ?? 0
  return balls.map(({ name, at, signal }) => ({
    number: name,
    at: placePoint(at, placement),
    widthMm: diameterMm,
    lengthMm: diameterMm,
    rotationDeg: 0,
    round: true,
    net: undefined,
    signal,
  }))
}

function placePad(pad: Pad, placement: Placement, signal: string | undefined): PlacedPad {
  const own = pad.rotationDeg ?? 0
  return {
    number: pad.number,
    at: placePoint(pad.at, placement),
    widthMm: pad.widthMm,
    lengthMm: pad.lengthMm,
    rotationDeg: placement.rotationDeg + (placement.mirrored ? -own : own),
    round: pad.round ?? false,
    net: pad.net,
    signal,
  }
}

const FEWEST_BALLS = 16

/** That of its package, else the smallest step of a field that is given pad by pad; undefined without balls. */
function pitchOf(description: Part, outline: PackageOutline | undefined): number | undefined {
  if (outline?.joints === 'balls') return Math.min(outline.grid.pitchXMm, outline.grid.pitchYMm)
  const pads = description.pads ?? []
  if (!partKinds[description.kind].onBalls || pads.length < FEWEST_BALLS) return undefined
  const steps = [smallestStep(pads.map((pad) => pad.at.x)), smallestStep(pads.map((pad) => pad.at.y))]
  const pitch = Math.min(...steps)
  return Number.isFinite(pitch) ? pitch : undefined
}

/** Steps below this are drawing noise, not a pitch. */
const NOISE_MM = 0.05

function smallestStep(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  let smallest = Infinity
  for (let i = 1; i < sorted.length; i++) {
    const step = (sorted[i] ?? 0) - (sorted[i - 1] ?? 0)
    if (step > NOISE_MM && step < smallest) smallest = step
  }
  return smallest
}
