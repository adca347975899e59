/** A point on the copper: the cells that a needle there touches, with their weights. */
import { type Point } from '../../base/index.ts'
import { shortAssumptions } from './assumptions.ts'
import type { Sheet } from './sheet.ts'

/** Nodes and their weights, which add up to one. A current put in with them and a voltage read with them are reciprocal. */
export interface Contact {
  readonly nodes: readonly number[]
  readonly weights: readonly number[]
}

/** @returns undefined where the piece is farther away than a pad hangs from its plane */
export function contactAt(sheet: Sheet, at: Point): Contact | undefined {
  const around = bilinear(sheet, at)
  if (around !== undefined) return around
  const near = nearestNode(sheet, at)
  return near.distanceMm <= shortAssumptions.snapMm ? { nodes: [near.node], weights: [1] } : undefined
}

function bilinear({ grid, nodeOf }: Sheet, at: Point): Contact | undefined {
  const across = (at.x - grid.originXMm) / grid.cellMm - 0.5
  const up = (at.y - grid.originYMm) / grid.cellMm - 0.5
  const column = Math.floor(across)
  const row = Math.floor(up)
  const nodes: number[] = []
  const weights: number[] = []
  let sum = 0
  for (const [dx, dy] of CORNERS) {
    const c = column + dx
    const r = row + dy
    if (c < 0 || r < 0 || c >= grid.columns || r >= grid.rows) continue
    const node = nodeOf[r * grid.columns + c] ?? -1
    const weight = Math.abs(1 - dx - (across - column)) * Math.abs(1 - dy - (up - row))
    if (node < 0 || weight === 0) continue
    nodes.push(node)
    weights.push(weight)
    sum += weight
  }
  return nodes.length === 0 ? undefined : { nodes, weights: weights.map((weight) => weight / sum) }
}

const CORNERS = [
  [0, 0],
  [1, 0],
  [0, 1],
  [1, 1],
] as const

/** The sheet's cell whose centre lies nearest to a point, and how far in mm; also for a point off the copper. */
export function nearestNode({ grid, cells }: Sheet, at: Point): { node: number; distanceMm: number } {
  let best = Infinity
  let node = 0
  for (let i = 0; i < cells.length; i++) {
    const cell = cells[i] ?? 0
    const column = cell % grid.columns
    const dx = grid.originXMm + (column + 0.5) * grid.cellMm - at.x
    const dy = grid.originYMm + ((cell - column) / grid.columns + 0.5) * grid.cellMm - at.y
    const squared = dx * dx + dy * dy
    if (squared >= best) continue
    best = squared
    node = i
  }
  return { node, distanceMm: Math.sqrt(best) }
}

/** The value of a field over the nodes at a contact. */
export function valueAtContact(field: Float64Array, { nodes, weights }: Contact): number {
  let sum = 0
  for (const [i, node] of nodes.entries()) sum += (weights[i] ?? 0) * (field[node] ?? 0)
  return sum
}
