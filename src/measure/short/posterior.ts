/** From the weight of each place to what can be said of it: probabilities, best place, spread, the area that holds 90 %. */
import { cellCentre, type Point } from '../../base/index.ts'
import type { Sheet } from './sheet.ts'

export interface Posterior {
  /** Probability of each node; they add up to one. */
  readonly probability: Float64Array
  readonly bestNode: number
  readonly best: Point
  readonly mean: Point
  /** Root of the variance in the plane, that within a cell among it. */
  readonly sdMm: number
  readonly radius90Mm: number
  readonly area90Mm2: number
  readonly level90: number
}

const HELD = 0.9

/** @param logWeights up to a constant; every place of the copper is equally likely before the readings */
export function posteriorOf(sheet: Sheet, logWeights: Float64Array): Posterior {
  const probability = normalised(logWeights)
  const { grid, cells } = sheet
  const xs = new Float64Array(cells.length)
  const ys = new Float64Array(cells.length)
  let bestNode = 0
  let meanX = 0
  let meanY = 0
  for (let i = 0; i < cells.length; i++) {
    const { x, y } = cellCentre(grid, cells[i] ?? 0)
    xs[i] = x
    ys[i] = y
    const p = probability[i] ?? 0
    meanX += p * x
    meanY += p * y
    if (p > (probability[bestNode] ?? 0)) bestNode = i
  }
  const best = { x: xs[bestNode] ?? 0, y: ys[bestNode] ?? 0 }
  let variance = grid.cellMm ** 2 / 6
  const away = new Float64Array(cells.length)
  for (let i = 0; i < cells.length; i++) {
    const dx = (xs[i] ?? 0) - meanX
    const dy = (ys[i] ?? 0) - meanY
    variance += (probability[i] ?? 0) * (dx * dx + dy * dy)
    away[i] = Math.hypot((xs[i] ?? 0) - best.x, (ys[i] ?? 0) - best.y)
  }
  const likeliest = heldBy(probability, (a, b) => (probability[b] ?? 0) - (probability[a] ?? 0))
  const nearest = heldBy(probability, (a, b) => (away[a] ?? 0) - (away[b] ?? 0))
  return {
    probability,
    bestNode,
    best,
    mean: { x: meanX, y: meanY },
    sdMm: Math.sqrt(variance),
    radius90Mm: (away[nearest.last] ?? 0) + grid.cellMm / 2,
    area90Mm2: likeliest.count * grid.cellMm ** 2,
    level90: probability[likeliest.last] ?? 0,
  }
}

function normalised(logWeights: Float64Array): Float64Array {
  let highest = -Infinity
  for (const value of logWeights) if (value > highest) highest = value
  const probability = new Float64Array(logWeights.length)
  let sum = 0
  for (let i = 0; i < logWeights.length; i++) {
    const weight = Math.exp((logWeights[i] ?? 0) - highest)
    probability[i] = weight
    sum += weight
  }
  for (let i = 0; i < probability.length; i++) probability[i] = (probability[i] ?? 0) / sum
  return probability
}

/** Nodes in an order until they hold 90 %: how many, and the last of them. */
function heldBy(probability: Float64Array, order: (a: number, b: number) => number): { count: number; last: number } {
  const sorted = Int32Array.from({ length: probability.length }, (_, i) => i).toSorted(order)
  let held = 0
  for (let i = 0; i < sorted.length; i++) {
    held += probability[sorted[i] ?? 0] ?? 0
    if (held >= HELD) return { count: i + 1, last: sorted[i] ?? 0 }
  }
  return { count: sorted.length, last: sorted[sorted.length - 1] ?? 0 }
}

/** Nodes that stand for the whole: each carries an equal share of the probability. */
export function equalShares(probability: Float64Array, count: number): Int32Array {
  const chosen = new Int32Array(count)
  let held = 0
  let next = 0
  for (let node = 0; node < probability.length && next < count; node++) {
    held += probability[node] ?? 0
    while (next < count && (next + 0.5) / count <= held) chosen[next++] = node
  }
  while (next < count) chosen[next++] = probability.length - 1
  return chosen
}
