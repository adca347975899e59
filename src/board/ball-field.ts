/** From a package outline: where its balls are, what each carries, and the patches of its regions. */
import type { Point } from '../base/index.ts'
import type { PackageOutline, PackageRegion } from './package-outline.ts'

export interface Ball {
  readonly name: string
  /** In the package's own drawing: mm from the body's centre, seen from the top. */
  readonly at: Point
  readonly signal: string | undefined
}

/** All balls of an outline, row by row from A1; none where it has bumps. */
export function ballsOf(outline: PackageOutline): readonly Ball[] {
  if (outline.joints === 'bumps') return []
  const { grid } = outline
  const empty = new Set(grid.emptyRows)
  const absent = new Set(grid.absent)
  const signals = signalByBall(outline)
  const balls: Ball[] = []
  for (const row of grid.rows) {
    if (empty.has(row)) continue
    for (const column of grid.columns) {
      const name = `${row}${column}`
      if (absent.has(name)) continue
      balls.push({ name, at: gridPoint(outline, row, column), signal: signals.get(name) })
    }
  }
  return balls
}

/** Signal of each ball that the outline knows: its `signals`, and `<region> DQ<i>` for the data balls of its lanes. */
function signalByBall(outline: PackageOutline): ReadonlyMap<string, string> {
  const signals = new Map(Object.entries(outline.signals ?? {}))
  for (const region of outline.regions)
    for (const [bit, ball] of (region.dq ?? []).entries()) signals.set(ball, `${region.name} DQ${bit}`)
  return signals
}

function gridPoint(outline: PackageOutline, row: string, column: number): Point {
  const { grid } = outline
  const middleColumn = ((grid.columns[0] ?? 1) + (grid.columns.at(-1) ?? 1)) / 2
  const middleRow = (grid.rows.length - 1) / 2
  return { x: (column - middleColumn) * grid.pitchXMm, y: (middleRow - grid.rows.indexOf(row)) * grid.pitchYMm }
}

/** The region's rectangle in the package's own drawing, half a pitch around its outermost balls, counter-clockwise. */
export function patchOf(outline: PackageOutline, region: PackageRegion): Point[] {
  const upperLeft = gridPoint(outline, region.rows[0], region.columns[0])
  const lowerRight = gridPoint(outline, region.rows[1], region.columns[1])
  const halfX = outline.grid.pitchXMm / 2
  const halfY = outline.grid.pitchYMm / 2
  const left = upperLeft.x - halfX
  const right = lowerRight.x + halfX
  const top = upperLeft.y + halfY
  const bottom = lowerRight.y - halfY
  return [
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ]
}

/** Width and length of the whole ball field, half a pitch around the outermost balls, in mm. */
export function fieldSizeOf(outline: PackageOutline): { readonly widthMm: number; readonly lengthMm: number } {
  const { grid } = outline
  const columns = (grid.columns.at(-1) ?? 1) - (grid.columns[0] ?? 1) + 1
  return { widthMm: columns * grid.pitchXMm, lengthMm: grid.rows.length * grid.pitchYMm }
}
