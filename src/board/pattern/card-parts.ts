/** The kinds of part that a card of the usual form has, at usual sizes (from memory) and with nothing said of their state. */
import type { Point } from '../../base/index.ts'
import type { Side } from '../schema.ts'
import type { FilePart } from './canvas.ts'
import type { RingPlace } from './memory-ring.ts'

type Body = NonNullable<FilePart['body']>

export const STAGE_BODY = { widthMm: 5, lengthMm: 6, heightMm: 0.8 }
export const SMALL_STAGE_BODY = { widthMm: 3, lengthMm: 3, heightMm: 0.8 }
export const INDUCTOR_BODY = { widthMm: 8, lengthMm: 8, heightMm: 4.5 }
export const SMALL_INDUCTOR_BODY = { widthMm: 4, lengthMm: 4, heightMm: 2 }
export const BULK_BODY = { widthMm: 4.3, lengthMm: 7.3, heightMm: 2.8 }
const STAGE_STANDOFF_MM = 0.05

/** A memory of a named package; its body comes from there, its place from the ring. */
export const memoryPart = (ref: string, side: Side, place: RingPlace, name: string): FilePart => ({
  ref,
  kind: 'memory',
  side,
  ...place,
  package: name,
})

/** A power stage on the top side, centre and body in mm, seated on its exposed pad. */
export const stagePart = (ref: string, at: Point, body: Body): FilePart => ({
  ref,
  kind: 'power-stage',
  side: 'top',
  at,
  body,
  standoffMm: STAGE_STANDOFF_MM,
})

/** An inductor on the top side, centre and body in mm, not turned. */
export const inductorPart = (ref: string, at: Point, body: Body): FilePart => ({
  ref,
  kind: 'inductor',
  side: 'top',
  at,
  body,
})

/** A square controller on the top side, 0.9 mm high; `sizeMm` is its edge. */
export const controllerPart = (ref: string, at: Point, sizeMm: number): FilePart => ({
  ref,
  kind: 'controller',
  side: 'top',
  at,
  body: { widthMm: sizeMm, lengthMm: sizeMm, heightMm: 0.9 },
})

/** A connector on the top side, centre and body in mm, not turned. */
export const connectorPart = (ref: string, at: Point, body: Body): FilePart => ({
  ref,
  kind: 'connector',
  side: 'top',
  at,
  body,
})
