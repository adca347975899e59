/** What drill files and the rest of a board have in common: pads that go through it. How both lie, and which hole is whose. */
import { boxOf, distance, type Point } from '../../base/index.ts'
import { type Alignment, offsetOnBoard } from './align.ts'
import { middleOfPath } from './drill/read.ts'
import type { Piece, PieceDrill, PiecePad } from './pieces.ts'

/** A hole so far from the middle of a pad is another's: rounding of both formats is below. */
const SAME_MM = 0.1
/** Of pads that go through the board, so many must have a hole, else the files do not lie on each other so. */
const FEWEST_SHARE = 0.6
/** Differences that are compared: enough to meet the right one, few enough for boards of thousands of holes. */
const MOST_TRIED = 400

const goesThrough = ({ access, hole }: PiecePad): boolean => access === 'through' || hole !== undefined

/** Places by cells of a grid, for the nearest within the tolerance. */
class PlaceGrid<T> {
  private readonly cells = new Map<string, { readonly at: Point; readonly value: T }[]>()

  add(at: Point, value: T): void {
    const key = this.keyOf(Math.round(at.x / SAME_MM), Math.round(at.y / SAME_MM))
    const cell = this.cells.get(key) ?? []
    cell.push({ at, value })
    this.cells.set(key, cell)
  }

  nearest(at: Point): T | undefined {
    const [column, row] = [Math.round(at.x / SAME_MM), Math.round(at.y / SAME_MM)]
    let best: { readonly value: T; readonly mm: number } | undefined
    for (let dx = -1; dx <= 1; dx++)
      for (let dy = -1; dy <= 1; dy++)
        for (const { at: there, value } of this.cells.get(this.keyOf(column + dx, row + dy)) ?? []) {
          const mm = distance(at, there)
          if (mm <= SAME_MM && (best === undefined || mm < best.mm)) best = { value, mm }
        }
    return best?.value
  }

  private keyOf(column: number, row: number): string {
    return `${column} ${row}`
  }
}

/** How a piece of holes alone lies to the rest: by pads that go through the board, else by its edge. */
export function drillAlignment(base: Piece, { drills, outline, parts }: Piece): Alignment {
  const wanted = [
    ...base.parts.flatMap(({ pads }) => pads.filter(goesThrough).map(({ at }) => at)),
    ...base.vias.map(({ at }) => at),
  ]
  const holes = drills.map(({ path }) => middleOfPath(path))
  const best = wanted.length === 0 ? undefined : bestOffset(wanted, holes)
  const fits = best !== undefined && best.fitting >= FEWEST_SHARE * Math.min(wanted.length, holes.length)
  const onBoard = fits || wanted.length > 0 ? undefined : offsetOnBoard(base, { drills, outline, parts })
  const offset = fits ? best.offset : (onBoard ?? { x: 0, y: 0 })
  return {
    move: ({ x, y }) => ({ x: x + offset.x, y: y + offset.y }),
    offset,
    mirror: 'none',
    by: fits ? 'places' : onBoard === undefined ? 'nothing' : 'edge',
    fitting: best?.fitting ?? 0,
    compared: Math.min(wanted.length, holes.length),
  }
}

interface Offset {
  readonly offset: Point
  readonly fitting: number
}

/** No way at all where it fits as well as any, else the difference that most pads agree on. */
function bestOffset(wanted: readonly Point[], holes: readonly Point[]): Offset {
  const grid = new PlaceGrid<true>()
  for (const hole of holes) grid.add(hole, true)
  const fittingAt = ({ x, y }: Point): number =>
    wanted.filter((at) => grid.nearest({ x: at.x - x, y: at.y - y }) !== undefined).length
  let best: Offset = { offset: { x: 0, y: 0 }, fitting: fittingAt({ x: 0, y: 0 }) }
  if (best.fitting >= FEWEST_SHARE * wanted.length || holes.length === 0) return best
  const [box, there] = [boxOf(wanted), boxOf(holes)]
  const corners = [
    { x: box.minX - there.minX, y: box.minY - there.minY },
    { x: box.maxX - there.maxX, y: box.maxY - there.maxY },
  ]
  const [first] = wanted
  const fromFirst = first === undefined ? [] : holes.map((hole) => ({ x: first.x - hole.x, y: first.y - hole.y }))
  for (const offset of [...corners, ...fromFirst.slice(0, MOST_TRIED)]) {
    const fitting = fittingAt(offset)
    if (fitting > best.fitting) best = { offset, fitting }
  }
  return best
}

/** The piece with holes given to the pads that they go through; what is left belongs to no pad, and vias are none of it. */
export function withPadHoles(piece: Piece): Piece {
  if (piece.drills.length === 0) return piece
  const grid = new PlaceGrid<PieceDrill>()
  for (const drill of piece.drills) grid.add(middleOfPath(drill.path), drill)
  const taken = new Set<PieceDrill>()
  const holed = (pad: PiecePad): PiecePad => {
    if (!goesThrough(pad)) return pad
    const drill = grid.nearest(pad.at)
    if (drill === undefined) return pad
    taken.add(drill)
    return { ...pad, hole: pad.hole ?? { diameterMm: drill.diameterMm, isPlated: drill.isPlated ?? true } }
  }
  const parts = piece.parts.map((part) => (part.pads.length === 0 ? part : { ...part, pads: part.pads.map(holed) }))
  for (const { at } of piece.vias) {
    const drill = grid.nearest(at)
    if (drill !== undefined) taken.add(drill)
  }
  return { ...piece, parts, drills: piece.drills.filter((drill) => !taken.has(drill)) }
}
