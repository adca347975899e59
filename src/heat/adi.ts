/**
 * One implicit time step in two sweeps of tridiagonal systems (alternating directions in delta form, Douglas 1962):
 * (C - θ·h·A1)(C)^-1(C - θ·h·A2)·δ = h·(A1 + A2)·u + h·gain; A1 = rows, films and bodies, A2 = columns.
 * θ = 1/2 is of second order and keeps steady states exactly; θ = 1 damps jumps and is used to start a phase.
 * Off-board cells have no faces, so the recurrences run through them without a mask. No allocation after the set-up.
 */
import type { HeatGain, HeatNetwork, HeatState } from './network.ts'

export interface AdiStep {
  /** Moves the state by one step under a constant gain. */
  readonly advance: (state: HeatState, gain: HeatGain) => void
}

/** @param stepS length of a step in s; @param theta 1/2 or 1 */
export function prepareAdi(network: HeatNetwork, stepS: number, theta: number): AdiStep {
  const h = theta * stepS
  const bodies = bodyFactors(network, h)
  const factors = { rows: rowFactors(network, h, bodies.extra), columns: columnFactors(network, h) }
  const work: Work = {
    supply: new Float64Array(network.capacity.length),
    first: new Float64Array(network.capacity.length),
    change: new Float64Array(network.capacity.length),
    nodeChange: new Float64Array(network.nodeCell.length),
  }
  const cells = network.capacity.length
  return {
    advance: (state, gain) => {
      // Bodies first: each is coupled to one cell alone, so it is eliminated by hand and leaves rows that are
      // tridiagonal.
      work.supply.set(gain.cells)
      gatherBodies(network, state, gain, stepS, bodies, work)
      for (let row = 0; row < cells; row += network.columns) {
        // Row by row, first sweep: while a row is in the cache its right-hand side is made, eliminated and
        // substituted.
        const isInner = row > 0 && row + network.columns < cells
        if (isInner) eliminateInnerRow(network, state, stepS, factors.rows, work, row)
        else eliminateOuterRow(network, state, stepS, factors.rows, work, row)
        // What the row leaves is at once eliminated downwards in all columns, so the grid is read once and not per
        // column.
        substituteRow(network, factors.rows, factors.columns, work, row)
      }
      // Second sweep: back up through the columns, which ends with the change of every cell.
      substituteColumns(network, factors.columns, work.change, state, stepS)
      // The bodies belong to A1: they follow the cells as the first sweep left them, before the columns were swept.
      finishBodies(network, bodies, work, state, stepS)
    },
  }
}

interface Work {
  /** Gain and flows from bodies, W. */
  readonly supply: Float64Array
  /** What the row sweep leaves. */
  readonly first: Float64Array
  readonly change: Float64Array
  readonly nodeChange: Float64Array
}

interface BodyFactors {
  /** Added to the diagonal of each cell: h·link - (h·link)²/(body's own diagonal). */
  readonly extra: Float64Array
  /** h·link / diagonal, and 1 / diagonal, per node. */
  readonly share: Float64Array
  readonly inverse: Float64Array
}

function bodyFactors(network: HeatNetwork, h: number): BodyFactors {
  const nodes = network.nodeCell.length
  const extra = new Float64Array(network.capacity.length)
  const share = new Float64Array(nodes)
  const inverse = new Float64Array(nodes)
  for (let n = 0; n < nodes; n++) {
    const link = h * (network.nodeLink[n] ?? 0)
    const diagonal = (network.nodeCapacity[n] ?? 0) + link + h * (network.nodeLoss[n] ?? 0)
    const cell = network.nodeCell[n] ?? 0
    // (C_b + h·k + h·loss)·δB - h·k·δT = rhs: solved for δB and put into the cell's row.
    inverse[n] = 1 / diagonal
    share[n] = link / diagonal
    extra[cell] = (extra[cell] ?? 0) + link - (link * link) / diagonal
  }
  return { extra, share, inverse }
}

interface LineFactors {
  /** Per cell: h·face before it / its pivot, 1 / its pivot, h·face after it / its pivot. */
  readonly below: Float64Array
  readonly inverse: Float64Array
  readonly above: Float64Array
}

function rowFactors(network: HeatNetwork, h: number, extra: Float64Array): LineFactors {
  const { right, capacity, loss } = network
  return lineFactors(right, 1, h, (i) => (capacity[i] ?? 0) + h * (loss[i] ?? 0) + (extra[i] ?? 0))
}

/** The second sweep's right-hand side is C·δ, so C is folded into its inverse pivots. */
function columnFactors(network: HeatNetwork, h: number): LineFactors {
  const { up, capacity, columns } = network
  const factors = lineFactors(up, columns, h, (i) => capacity[i] ?? 0)
  for (let i = 0; i < capacity.length; i++) factors.inverse[i] = (factors.inverse[i] ?? 0) * (capacity[i] ?? 0)
  return factors
}

function lineFactors(face: Float64Array, stride: number, h: number, diagonalAt: (i: number) => number): LineFactors {
  const below = new Float64Array(face.length)
  const inverse = new Float64Array(face.length)
  const above = new Float64Array(face.length)
  for (let i = 0; i < face.length; i++) {
    const before = i >= stride ? h * (face[i - stride] ?? 0) : 0
    const after = h * (face[i] ?? 0)
    // Thomas' recurrence. A system of diffusion is diagonally dominant, so it needs no pivoting.
    const pivot = diagonalAt(i) + before + after - before * (i >= stride ? (above[i - stride] ?? 0) : 0)
    // Off the board there is no capacity and no face: an inverse of 0 lets the recurrence run through such a cell.
    const inversePivot = pivot > 0 ? 1 / pivot : 0
    below[i] = before * inversePivot
    inverse[i] = inversePivot
    above[i] = after * inversePivot
  }
  return { below, inverse, above }
}

/** Heat from bodies to their cells, with what eliminating the bodies adds, as W into `supply`. */
function gatherBodies(
  network: HeatNetwork,
  state: HeatState,
  gain: HeatGain,
  stepS: number,
  bodies: BodyFactors,
  work: Work,
): void {
  const { nodeCell, nodeLink, nodeLoss } = network
  const { supply, nodeChange } = work
  const { cells, nodes } = state
  for (let n = 0; n < nodeCell.length; n++) {
    const cell = nodeCell[n] ?? 0
    const body = nodes[n] ?? 0
    // The explicit part is taken at the state before the step: flow between body and cell, losses and gain.
    const flow = (nodeLink[n] ?? 0) * ((cells[cell] ?? 0) - body)
    const own = flow - (nodeLoss[n] ?? 0) * body + (gain.nodes[n] ?? 0)
    nodeChange[n] = own * stepS
    // The cell gets the flow, and the share of the body's own change that eliminating it moves into the cell's row.
    supply[cell] = (supply[cell] ?? 0) - flow + (bodies.share[n] ?? 0) * own
  }
}

/** Right-hand side h·(faces, films, supply) of a row that has rows on both sides, and its forward elimination. */
function eliminateInnerRow(
  network: HeatNetwork,
  state: HeatState,
  stepS: number,
  factors: LineFactors,
  work: Work,
  first: number,
): void {
  const { columns, right, up, loss } = network
  const { below, inverse } = factors
  const { supply, change } = work
  const { cells } = state
  let fromLeft = 0
  let last = 0
  let here = cells[first] ?? 0
  for (let i = first; i < first + columns; i++) {
    // Each face is read once: what leaves to the right is what enters the next cell from the left. At the row's end
    // the face is 0.
    const next = cells[i + 1] ?? 0
    const toRight = (right[i] ?? 0) * (next - here)
    const vertical =
      (up[i] ?? 0) * ((cells[i + columns] ?? 0) - here) - (up[i - columns] ?? 0) * (here - (cells[i - columns] ?? 0))
    const side = stepS * ((supply[i] ?? 0) - (loss[i] ?? 0) * here + toRight - fromLeft + vertical)
    last = side * (inverse[i] ?? 0) + (below[i] ?? 0) * last
    change[i] = last
    fromLeft = toRight
    here = next
  }
}

/** The same for the first and last row; kept apart so that the inner rows never read beyond an array. */
function eliminateOuterRow(
  network: HeatNetwork,
  state: HeatState,
  stepS: number,
  factors: LineFactors,
  work: Work,
  first: number,
): void {
  const { columns, right, up, loss } = network
  const { cells } = state
  let fromLeft = 0
  let last = 0
  for (let i = first; i < first + columns; i++) {
    const here = cells[i] ?? 0
    const toRight = i + 1 < first + columns ? (right[i] ?? 0) * ((cells[i + 1] ?? 0) - here) : 0
    const above = i + columns < cells.length ? (up[i] ?? 0) * ((cells[i + columns] ?? 0) - here) : 0
    const under = i >= columns ? (up[i - columns] ?? 0) * (here - (cells[i - columns] ?? 0)) : 0
    const side = stepS * ((work.supply[i] ?? 0) - (loss[i] ?? 0) * here + toRight - fromLeft + above - under)
    last = side * (factors.inverse[i] ?? 0) + (factors.below[i] ?? 0) * last
    work.change[i] = last
    fromLeft = toRight
  }
}

/** Back substitution along a row, and this row's part of the forward elimination of all columns at once. */
function substituteRow(network: HeatNetwork, rows: LineFactors, columns: LineFactors, work: Work, first: number): void {
  const across = network.columns
  const { above } = rows
  const { below, inverse } = columns
  const { change } = work
  let last = 0
  if (first === 0) {
    for (let i = across - 1; i >= 0; i--) {
      last = (change[i] ?? 0) + (above[i] ?? 0) * last
      work.first[i] = last
      change[i] = last * (inverse[i] ?? 0)
    }
    return
  }
  for (let i = first + across - 1; i >= first; i--) {
    last = (change[i] ?? 0) + (above[i] ?? 0) * last
    work.first[i] = last
    change[i] = last * (inverse[i] ?? 0) + (below[i] ?? 0) * (change[i - across] ?? 0)
  }
}

/** Back substitution of all columns, row after row; adds the change and the step's trapezoid to the time integral. */
function substituteColumns(
  network: HeatNetwork,
  factors: LineFactors,
  change: Float64Array,
  state: HeatState,
  stepS: number,
): void {
  const { columns } = network
  const { above } = factors
  const { cells, cellSecondsK } = state
  const lastRow = change.length - columns
  for (let i = change.length - 1; i >= 0; i--) {
    // Upwards, since every column was eliminated downwards; the last row has nothing above it.
    const delta = i >= lastRow ? (change[i] ?? 0) : (change[i] ?? 0) + (above[i] ?? 0) * (change[i + columns] ?? 0)
    const before = cells[i] ?? 0
    change[i] = delta
    cellSecondsK[i] = (cellSecondsK[i] ?? 0) + stepS * (before + 0.5 * delta)
    cells[i] = before + delta
  }
}

/** Bodies follow from what the row sweep left in their cells. */
function finishBodies(network: HeatNetwork, bodies: BodyFactors, work: Work, state: HeatState, stepS: number): void {
  const { nodeCell } = network
  const { nodes, nodeSecondsK } = state
  for (let n = 0; n < nodeCell.length; n++) {
    const delta =
      (work.nodeChange[n] ?? 0) * (bodies.inverse[n] ?? 0) +
      (bodies.share[n] ?? 0) * (work.first[nodeCell[n] ?? 0] ?? 0)
    const before = nodes[n] ?? 0
    // The trapezoid rule: from this integral the heat lost over a phase is read, to the order of the scheme.
    nodeSecondsK[n] = (nodeSecondsK[n] ?? 0) + stepS * (before + 0.5 * delta)
    nodes[n] = before + delta
  }
}
