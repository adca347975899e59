/** Isotherms of one moment of a heat run, as closed lines in board millimetres. */
import { contours } from 'd3-contour'
import { type Box, type Grid, type Point, loopOnBoard } from '../../../base/index.ts'

export interface Isotherm {
  readonly levelC: number
  /** From here on the joints are molten. */
  readonly molten: boolean
  readonly label: string
  /** Closed loops, holes among them; each a list of x, y in mm without the repeated last point. */
  readonly loops: readonly Float32Array[]
  /** The field's edge: a loop that runs along it is closed there, and has no line there. */
  readonly edge: Box
}

const STEPS_C = [10, 20, 25, 50, 100]
const MOST_LEVELS = 11
const LOWEST_C = 50
/** A round level so near to the liquidus would run into its line. */
const CLEAR_OF_LIQUIDUS_K = 8

/** Round temperatures from 50 °C to the run's highest, few enough to read, and the liquidus among them. */
export function isothermLevels(highestC: number, liquidusC: number): number[] {
  if (!Number.isFinite(highestC) || highestC <= LOWEST_C) return []
  const stepC = STEPS_C.find((step) => (highestC - LOWEST_C) / step < MOST_LEVELS) ?? 100
  const first = Math.ceil(LOWEST_C / stepC) * stepC
  const round = Array.from({ length: MOST_LEVELS + 1 }, (_, i) => first + i * stepC).filter(
    (level) => level < highestC && Math.abs(level - liquidusC) > CLEAR_OF_LIQUIDUS_K,
  )
  return (liquidusC < highestC ? [...round, liquidusC] : round).toSorted((a, b) => a - b)
}

/** @param boardC row by row from the lower left; NaN off the board: lines run on there and are cut at the outline in drawing */
export function isothermsOf(
  grid: Grid,
  boardC: Float32Array,
  levelsC: readonly number[],
  liquidusC: number,
): Isotherm[] {
  const filled = Array.from(withoutGaps(grid, boardC))
  const contour = contours().size([grid.columns, grid.rows])
  return levelsC.flatMap((levelC) => {
    const loops = contour
      .contour(filled, levelC)
      .coordinates.flat()
      .map((loop) => loopOnBoard(loop, grid))
    const molten = levelC === liquidusC
    const label = `${Math.round(levelC)} °C${molten ? ' molten' : ''}`
    return loops.length === 0 ? [] : [{ levelC, molten, label, loops, edge: edgeOf(grid) }]
  })
}

/** The field with each gap filled from the nearest cell of its row, and whole empty rows from the nearest row. */
export function withoutGaps(grid: Grid, values: Float32Array): Float32Array {
  const { columns, rows } = grid
  const filled = Float32Array.from(values)
  const full: number[] = []
  for (let row = 0; row < rows; row++) if (fillRow(filled, row * columns, columns)) full.push(row)
  for (let row = 0; row < rows; row++) {
    if (full.length === 0 || full.includes(row)) continue
    const nearest = full.reduce((best, other) => (Math.abs(other - row) < Math.abs(best - row) ? other : best))
    filled.copyWithin(row * columns, nearest * columns, (nearest + 1) * columns)
  }
  return filled
}

/** @returns false where the row holds nothing */
function fillRow(values: Float32Array, from: number, columns: number): boolean {
  let known = -1
  for (let i = 0; i < columns; i++) {
    if (Number.isNaN(values[from + i])) continue
    const here = values[from + i] ?? 0
    const middle = known < 0 ? 0 : Math.ceil((known + i) / 2)
    if (known >= 0) values.fill(values[from + known] ?? 0, from + known + 1, from + Math.max(known + 1, middle))
    values.fill(here, from + Math.max(known + 1, middle), from + i)
    known = i
  }
  if (known < 0) return false
  values.fill(values[from + known] ?? 0, from + known + 1, from + columns)
  return true
}

const edgeOf = ({ originXMm, originYMm, cellMm, columns, rows }: Grid): Box => ({
  minX: originXMm,
  minY: originYMm,
  maxX: originXMm + columns * cellMm,
  maxY: originYMm + rows * cellMm,
})

const NEAR_MM = 1e-3

/** The lines of an isotherm without what only closes its loops along the field's edge: open runs of points. */
export function openLines({ loops, edge }: Pick<Isotherm, 'loops' | 'edge'>): Point[][] {
  const atEdge = ({ x, y }: Point): boolean =>
    x <= edge.minX + NEAR_MM || x >= edge.maxX - NEAR_MM || y <= edge.minY + NEAR_MM || y >= edge.maxY - NEAR_MM
  return loops.flatMap((loop) => {
    const points = Array.from({ length: loop.length / 2 }, (_, i) => ({ x: loop[2 * i] ?? 0, y: loop[2 * i + 1] ?? 0 }))
    const first = points.findIndex(atEdge)
    if (first < 0) return points[0] === undefined ? [] : [[...points, points[0]]]
    const runs: Point[][] = [[]]
    for (const point of [...points.slice(first), ...points.slice(0, first + 1)]) {
      if (atEdge(point) && atEdge(runs.at(-1)?.at(-1) ?? point)) runs.push([point])
      else runs.at(-1)?.push(point)
    }
    return runs.filter((run) => run.length > 1)
  })
}
