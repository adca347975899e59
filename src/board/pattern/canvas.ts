/** A board under construction: parts are put down by ref, and small ones only where there is room. */
import type { z } from 'zod'
import { type Box, distance, type Point, polygonContains } from '../../base/index.ts'
import type { partSchema, Side } from '../schema.ts'

/** A part as a board file says it. */
export type FilePart = z.input<typeof partSchema>

interface DrilledHole {
  readonly at: Point
  readonly diameterMm: number
}

interface Taken {
  readonly side: Side
  readonly box: Box
}

const CLEARANCE_MM = 0.25
const EDGE_MM = 0.8

export class Canvas {
  readonly parts: FilePart[] = []
  private readonly taken: Taken[] = []
  private readonly counts = new Map<string, number>()

  private readonly outline: readonly Point[]
  private readonly holes: readonly DrilledHole[]

  constructor(outline: readonly Point[], holes: readonly DrilledHole[]) {
    this.outline = outline
    this.holes = holes
  }

  /** The next free ref with this letter: C1, C2 and so on. */
  nextRef(letter: string, from = 1): string {
    const number = Math.max((this.counts.get(letter) ?? 0) + 1, from)
    this.counts.set(letter, number)
    return `${letter}${number}`
  }

  /** Puts a part down; its size is needed to keep others away. */
  put(part: FilePart, widthMm: number, lengthMm: number): string {
    this.parts.push(part)
    this.taken.push({ side: part.side, box: boxAround(part, widthMm, lengthMm) })
    return part.ref
  }

  /** Puts a part down if nothing stands there yet, no hole is near and the board goes on beneath it. */
  putIfFree(part: Omit<FilePart, 'ref'>, letter: string): string | undefined {
    const { body } = part
    if (body === undefined) return undefined
    const box = boxAround(part, body.widthMm + 2 * CLEARANCE_MM, body.lengthMm + 2 * CLEARANCE_MM)
    if (!this.isFree(part.side, box)) return undefined
    return this.put({ ref: this.nextRef(letter), ...part }, body.widthMm, body.lengthMm)
  }

  private isFree(side: Side, box: Box): boolean {
    const corners = [
      { x: box.minX - EDGE_MM, y: box.minY - EDGE_MM },
      { x: box.maxX + EDGE_MM, y: box.minY - EDGE_MM },
      { x: box.maxX + EDGE_MM, y: box.maxY + EDGE_MM },
      { x: box.minX - EDGE_MM, y: box.maxY + EDGE_MM },
    ]
    if (corners.some((corner) => !polygonContains(this.outline, corner))) return false
    const reachMm = Math.hypot(box.maxX - box.minX, box.maxY - box.minY) / 2
    const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
    if (this.holes.some((hole) => distance(hole.at, middle) < hole.diameterMm / 2 + reachMm + EDGE_MM)) return false
    return !this.taken.some((other) => other.side === side && boxesMeet(other.box, box))
  }
}

function boxAround(part: Omit<FilePart, 'ref'>, widthMm: number, lengthMm: number): Box {
  const turned = (part.rotationDeg ?? 0) % 180 !== 0
  const x = (turned ? lengthMm : widthMm) / 2
  const y = (turned ? widthMm : lengthMm) / 2
  return { minX: part.at.x - x, maxX: part.at.x + x, minY: part.at.y - y, maxY: part.at.y + y }
}

const boxesMeet = (a: Box, b: Box): boolean => a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY
