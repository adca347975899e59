/** Where memory packages stand around a core, and how each is turned. Sizes in mm, angles in degrees. */
import type { Point } from '../../base/index.ts'

export type CoreEdge = 'top' | 'right' | 'bottom' | 'left'

export interface MemoryRing {
  readonly core: { readonly at: Point; readonly sizeMm: number }
  /** Between the core's body and the memory's. */
  readonly gapMm: number
  /** Of a package, along its own y. */
  readonly lengthMm: number
  /** Along each side of the core, clockwise from the upper left: where the middles of the packages stand. */
  readonly offsetsMm: Readonly<Partial<Record<CoreEdge, readonly number[]>>>
}

export interface RingPlace {
  readonly at: Point
  readonly rotationDeg: number
}

/** Turned with the side of the core, so that each package has the same end towards it: that of its last row. */
const ROTATION_DEG: Record<CoreEdge, number> = { top: 0, right: 270, bottom: 180, left: 90 }

/** Clockwise from the upper left: top side left to right, right side downwards, bottom right to left, left upwards. */
export function ringPlaces({ core, gapMm, lengthMm, offsetsMm }: MemoryRing): RingPlace[] {
  const away = core.sizeMm / 2 + gapMm + lengthMm / 2
  const { x, y } = core.at
  const along: Record<CoreEdge, (offset: number) => Point> = {
    top: (offset) => ({ x: x + offset, y: y + away }),
    right: (offset) => ({ x: x + away, y: y - offset }),
    bottom: (offset) => ({ x: x - offset, y: y - away }),
    left: (offset) => ({ x: x - away, y: y + offset }),
  }
  const edges: readonly CoreEdge[] = ['top', 'right', 'bottom', 'left']
  return edges.flatMap((edge) =>
    (offsetsMm[edge] ?? []).map((offset) => ({ at: along[edge](offset), rotationDeg: ROTATION_DEG[edge] })),
  )
}

/** Turned by half a turn in its place. */
export const turnedRound = ({ at, rotationDeg }: RingPlace): RingPlace => ({
  at,
  rotationDeg: (rotationDeg + 180) % 360,
})
