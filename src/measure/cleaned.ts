/** Whether a later clean spot takes care of what was seen at a place. */
import { distanceToSegment, type Point, polygonContains } from '../base/index.ts'
import type { Side } from '../board/index.ts'

/** What of a mark matters here. */
export interface SeenMark {
  readonly id?: string
  readonly kind: string
  readonly side?: Side
  readonly at?: Point
  readonly radiusMm?: number
  /** Of a spill: how sure its point is. */
  readonly sdMm?: number
  /** Painted: the circle swept along it. */
  readonly path?: readonly Point[] | undefined
  /** Drawn around: the area itself. */
  readonly outline?: readonly Point[] | undefined
}

/**
 * Every point of the mark's middle line or outline lies under later clean spots of its side, none narrower than its brush,
 * and over a spill none narrower than twice the deviation of its point.
 */
export function cleanedLater(mark: SeenMark, later: readonly SeenMark[]): boolean {
  const { side, at, path, outline } = mark
  const radiusMm = mark.radiusMm ?? 2 * (mark.sdMm ?? 0)
  const points = outline ?? path ?? (at === undefined ? [] : [at])
  const least = outline === undefined ? radiusMm : 0
  const clean = later.filter((each) => each.kind === 'clean' && each.side === side && isWide(each, least))
  return points.length > 0 && points.every((point) => clean.some((spot) => covers(spot, point)))
}

const isWide = ({ outline, radiusMm = 0 }: SeenMark, least: number): boolean =>
  outline !== undefined || radiusMm >= least

function covers({ at, path, outline, radiusMm = 0 }: SeenMark, point: Point): boolean {
  if (outline !== undefined) return outlineCovers(outline, point)
  const line = path ?? (at === undefined ? [] : [at])
  return line.some((from, i) => distanceToSegment(point, from, line[i + 1] ?? from) <= radiusMm)
}

const ON_OUTLINE_MM = 0.01

const outlineCovers = (outline: readonly Point[], point: Point): boolean =>
  polygonContains(outline, point) ||
  outline.some((from, i) => distanceToSegment(point, from, outline[(i + 1) % outline.length] ?? from) <= ON_OUTLINE_MM)
