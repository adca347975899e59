/** The bare equations that a time step solves: what the kernels need of a thermal board and its films, no more. */
import type { Films } from './films.ts'
import type { ThermalBoard } from './thermal-board.ts'

/**
 * C·dT/dt = Σ faces g·(T_j - T_i) + Σ bodies k·(B - T_i) - loss·T_i + gain, and for a body
 * C_b·dB/dt = k·(T - B) - loss·B + gain. Row by row from the lower left; faces to the right and upper neighbour.
 */
export interface HeatNetwork {
  readonly columns: number
  readonly rows: number
  /** J/K; 0 where there is no board. */
  readonly capacity: Float64Array
  readonly right: Float64Array
  readonly up: Float64Array
  readonly loss: Float64Array
  readonly nodeCell: Int32Array
  readonly nodeCapacity: Float64Array
  readonly nodeLink: Float64Array
  readonly nodeLoss: Float64Array
}

/** The equations of one phase. Arrays are shared with the board and the films, not copied. */
export const networkOf = (board: ThermalBoard, films: Films): HeatNetwork => ({
  columns: board.grid.columns,
  rows: board.grid.rows,
  capacity: board.capacityJPerK,
  right: board.rightWPerK,
  up: board.upWPerK,
  loss: films.cellLossWPerK,
  nodeCell: board.bodies.cell,
  nodeCapacity: board.bodies.capacityJPerK,
  nodeLink: board.bodies.linkWPerK,
  nodeLoss: films.nodeLossWPerK,
})

/** Rises above the room of cells and body nodes, K, and their time integrals, K·s, from which the heat lost is read. */
export interface HeatState {
  readonly cells: Float64Array
  readonly nodes: Float64Array
  readonly cellSecondsK: Float64Array
  readonly nodeSecondsK: Float64Array
}

/** Heat that flows in from outside, W, before losses. */
export interface HeatGain {
  readonly cells: Float64Array
  readonly nodes: Float64Array
}

/** Everything at room temperature: rises of 0 K, and nothing integrated yet. */
export const zeroState = (cells: number, nodes: number): HeatState => ({
  cells: new Float64Array(cells),
  nodes: new Float64Array(nodes),
  cellSecondsK: new Float64Array(cells),
  nodeSecondsK: new Float64Array(nodes),
})
