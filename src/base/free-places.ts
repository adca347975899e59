/** Free places for labels: they cover neither each other nor what must stay visible. */
import type { Box, Point } from './geometry.ts'

export interface LabelRequest {
  readonly id: string
  readonly width: number
  readonly height: number
  /** Upper-left corners, best first, in the drawing's unit, y down. */
  readonly candidates: readonly Point[]
  /** A required label takes its least bad place; any other is left out rather than laid over something. */
  readonly required: boolean
}

/** Share of a label that may be covered before an optional one is left out. */
const TOLERATED = 0.06
/** Each step down the list of candidates counts as so much covered share, so that the first place wins ties. */
const PREFERENCE = 0.01

/**
 * Greedy, in the order given: each label goes to the candidate that is covered least.
 * @param bounds labels should stay inside; what sticks out counts as covered
 * @returns upper-left corners by id, without the labels that found no place
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  obstacles: readonly Box[],
  bounds: Box,
): Map<string, Point> {
  const taken = [...obstacles]
  const places = new Map<string, Point>()
  for (const request of requests) {
    const area = request.width * request.height
    let best: Point | undefined
    let bestCost = Infinity
    for (const [rank, corner] of request.candidates.entries()) {
      const box = boxAt(corner, request)
      let covered = area - overlap(box, bounds)
      for (const other of taken) covered += overlap(box, other)
      const cost = covered / area + rank * PREFERENCE
      if (cost < bestCost) {
        best = corner
        bestCost = cost
      }
    }
    if (best === undefined || (!request.required && bestCost > TOLERATED + PREFERENCE * request.candidates.length))
      continue
    places.set(request.id, best)
    taken.push(boxAt(best, request))
  }
  return places
}

const boxAt = (corner: Point, size: { readonly width: number; readonly height: number }): Box => ({
  minX: corner.x,
  minY: corner.y,
  maxX: corner.x + size.width,
  maxY: corner.y + size.height,
})

/** Area that two boxes share, in the square of their unit; 0 where they only touch. */
export function overlap(a: Box, b: Box): number {
  const width = Math.min(a.maxX, b.maxX) - Math.max(a.minX, b.minX)
  const height = Math.min(a.maxY, b.maxY) - Math.max(a.minY, b.minY)
  return width > 0 && height > 0 ? width * height : 0
}

/** Eight places around a box, the right-hand ones first. */
export function placesAround(box: Box, width: number, height: number, gap: number): Point[] {
  const middleX = (box.minX + box.maxX - width) / 2
  const middleY = (box.minY + box.maxY - height) / 2
  const left = box.minX - gap - width
  const right = box.maxX + gap
  return [
    { x: right, y: middleY },
    { x: right, y: box.minY - height },
    { x: middleX, y: box.minY - gap - height },
    { x: left, y: middleY },
    { x: left, y: box.minY - height },
    { x: middleX, y: box.maxY + gap },
    { x: right, y: box.maxY },
    { x: left, y: box.maxY },
  ]
}
