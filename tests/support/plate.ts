/** Plain plates and strips as networks of heat, and a slow explicit march: what the fast kernels are held against. */
import type { HeatGain, HeatNetwork, HeatState } from '../../src/heat/index.ts'

export interface PlateSize {
  readonly columns: number
  readonly rows: number
  readonly cellM: number
  /** k·d in W/K, ρc·d in J/(m²·K), film in W/(m²·K). */
  readonly conductance: number
  readonly capacityPerM2: number
  readonly filmPerM2: number
}

/** A rectangle with insulated edges and no bodies. */
export function plate(size: PlateSize): HeatNetwork {
  const cells = size.columns * size.rows
  const area = size.cellM ** 2
  const right = new Float64Array(cells)
  const up = new Float64Array(cells)
  for (let i = 0; i < cells; i++) {
    if ((i + 1) % size.columns !== 0) right[i] = size.conductance
    if (i + size.columns < cells) up[i] = size.conductance
  }
  return {
    columns: size.columns,
    rows: size.rows,
    capacity: new Float64Array(cells).fill(size.capacityPerM2 * area),
    right,
    up,
    loss: new Float64Array(cells).fill(size.filmPerM2 * area),
    nodeCell: new Int32Array(0),
    nodeCapacity: new Float64Array(0),
    nodeLink: new Float64Array(0),
    nodeLoss: new Float64Array(0),
  }
}

export const noGain = (network: HeatNetwork): HeatGain => ({
  cells: new Float64Array(network.capacity.length),
  nodes: new Float64Array(network.nodeCell.length),
})

/** One explicit step, written from the equations alone; stable only for short steps. */
export function explicitStep(network: HeatNetwork, state: HeatState, gain: HeatGain, stepS: number): void {
  const power = network.loss.map((loss, i) => (gain.cells[i] ?? 0) - loss * (state.cells[i] ?? 0))
  const flow = (from: number, to: number, conductance: number): void => {
    const watts = conductance * ((state.cells[from] ?? 0) - (state.cells[to] ?? 0))
    power[from] = (power[from] ?? 0) - watts
    power[to] = (power[to] ?? 0) + watts
  }
  for (let i = 0; i < power.length; i++) {
    if ((network.right[i] ?? 0) > 0) flow(i, i + 1, network.right[i] ?? 0)
    if ((network.up[i] ?? 0) > 0) flow(i, i + network.columns, network.up[i] ?? 0)
  }
  for (let n = 0; n < network.nodeCell.length; n++) {
    const cell = network.nodeCell[n] ?? 0
    const body = state.nodes[n] ?? 0
    const watts = (network.nodeLink[n] ?? 0) * ((state.cells[cell] ?? 0) - body)
    power[cell] = (power[cell] ?? 0) - watts
    const own = watts - (network.nodeLoss[n] ?? 0) * body + (gain.nodes[n] ?? 0)
    state.nodes[n] = body + (stepS * own) / (network.nodeCapacity[n] ?? 1)
  }
  for (let i = 0; i < power.length; i++) {
    const capacity = network.capacity[i] ?? 0
    if (capacity > 0) state.cells[i] = (state.cells[i] ?? 0) + (stepS * (power[i] ?? 0)) / capacity
  }
}
