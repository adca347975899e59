/** From footprints to the parts of a board description: references made unique, mirrored and turned, with a body. */
import { type Box, type Placement, placePoint, type Point } from '../../base/index.ts'
import type { Pad, Part, Side } from '../schema.ts'
import { bodiesOf, type Body } from './bodies.ts'
import type { Footprint, Layout, LayoutPad } from './model.ts'
import { sideOfLayer } from './layers.ts'
import { uniqueReferences } from './references.ts'

/** A part together with what the file says beyond the description. */
export interface ImportedPart {
  readonly part: Part
  readonly footprint: Footprint
  /** False for drawings, bare pads and holes; their `part.body` is a speck without height. */
  readonly hasBody: boolean
  /** Same order as `part.pads`. */
  readonly pads: readonly { readonly pad: Pad; readonly raw: LayoutPad; readonly at: Point }[]
}

const SMALLEST_BODY_MM = 0.05
/** What stands for no body at all: a description needs one. */
const SPECK = { widthMm: SMALLEST_BODY_MM, lengthMm: SMALLEST_BODY_MM, heightMm: 0 }

/** Rounds away the noise of turning, far below the nanometre of layout files. */
export const tidy = (value: number): number => Math.round(value * 1e7) / 1e7 + 0
/** A point whose coordinates, mm, are rounded to 1e-7. */
export const tidyPoint = (point: Point): Point => ({ x: tidy(point.x), y: tidy(point.y) })

/** A layout's y points down, a board description's up. */
export const upright = (point: Point): Point => ({ x: point.x, y: 0 - point.y })

/** A point of a footprint's own drawing (y down) on the sheet (y up). */
export function onSheet(local: Point, footprint: Footprint): Point {
  return placePoint(upright(local), { at: upright(footprint.at), rotationDeg: footprint.rotationDeg, mirrored: false })
}

/** @param origin the outline's lower-left corner on the sheet (y up) */
export function importParts(layout: Layout, origin: Point, untold: string[]): ImportedPart[] {
  const names = uniqueReferences(
    layout.footprints.map((footprint) => footprint.reference),
    untold,
  )
  const refs = layout.footprints.map((_, i) => names[i] ?? `unnamed-${i + 1}`)
  const sideOf = (footprint: Footprint): Side => sideOfLayer(layout.layers, footprint.layer) ?? 'top'
  const bodies = bodiesOf(
    layout.footprints.map((footprint, i) => ({
      footprint,
      ref: refs[i] ?? '',
      side: sideOf(footprint),
      padsAt: footprint.pads.map((pad) => onSheet(pad.at, footprint)),
    })),
    untold,
  )
  return layout.footprints.map((footprint, i) =>
    importPart({ footprint, ref: refs[i] ?? '', side: sideOf(footprint), body: bodies[i] ?? { from: 'none' } }, origin),
  )
}

interface NamedFootprint {
  readonly footprint: Footprint
  readonly ref: string
  readonly side: Side
  readonly body: Body
}

function importPart({ footprint, ref, side, body }: NamedFootprint, origin: Point): ImportedPart {
  const sheet = upright(footprint.at)
  const at = tidyPoint({ x: sheet.x - origin.x, y: sheet.y - origin.y })
  const placement: Placement = { at, rotationDeg: footprint.rotationDeg, mirrored: side === 'bottom' }
  const pads = footprint.pads.map((raw) => {
    const pad = importPad(raw, footprint, placement)
    return { pad, raw, at: placePoint(pad.at, placement) }
  })
  const value = footprint.value.slice(0, 200)
  const part: Part = {
    ref,
    kind: 'other',
    side,
    at,
    rotationDeg: footprint.rotationDeg % 360,
    ...(value === '' ? {} : { value }),
    body: body.from === 'none' ? SPECK : bodyFrom(body.box, placement.mirrored),
    bonding: 'none',
    ...(pads.length === 0 ? {} : { pads: pads.map(({ pad }) => pad) }),
  }
  return { part, footprint, hasBody: body.from !== 'none', pads }
}

/**
 * A pad in the part's own drawing. A layout has a bottom part's pads as they lie seen from the top; the description
 * mirrors them when it places the part, so x changes its sign here. A layout's pad angle is the one on the board.
 */
function importPad(raw: LayoutPad, footprint: Footprint, placement: Placement): Pad {
  const onBoardDeg = raw.rotationDeg - footprint.rotationDeg
  const ownDeg = normalAngle(placement.mirrored ? -onBoardDeg : onBoardDeg)
  const round = raw.shape === 'circle' || (raw.shape === 'oval' && raw.widthMm === raw.lengthMm)
  return {
    number: raw.number.slice(0, 40),
    at: ownDrawing(raw.at, placement.mirrored),
    widthMm: raw.widthMm,
    lengthMm: raw.lengthMm,
    ...(ownDeg === 0 ? {} : { rotationDeg: ownDeg }),
    ...(round ? { round } : {}),
    ...(raw.net === undefined ? {} : { net: raw.net }),
    ...(raw.signal === undefined || raw.signal === '' ? {} : { signal: raw.signal.slice(0, 200) }),
  }
}

const ownDrawing = (local: Point, mirrored: boolean): Point =>
  tidyPoint({ x: mirrored ? -local.x : local.x, y: -local.y })

/** Into [0, 360). */
const normalAngle = (deg: number): number => tidy(((deg % 360) + 360) % 360)

const widthOf = (box: Box): number => box.maxX - box.minX
const lengthOf = (box: Box): number => box.maxY - box.minY

function bodyFrom(box: Box, mirrored: boolean): NonNullable<Part['body']> {
  const centre = ownDrawing({ x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }, mirrored)
  const centred = Math.hypot(centre.x, centre.y) < 1e-6
  return {
    widthMm: tidy(Math.max(SMALLEST_BODY_MM, widthOf(box))),
    lengthMm: tidy(Math.max(SMALLEST_BODY_MM, lengthOf(box))),
    heightMm: 0,
    ...(centred ? {} : { centre }),
  }
}
