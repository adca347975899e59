/** Where a setting would lead if it were held for ever: conjugate gradients on the network with its bodies eliminated. */
import { bad, good, type Result, say } from '../base/index.ts'
import { heatAssumptions } from './assumptions.ts'
import { checkSetting } from './check-setting.ts'
import { filmsFor } from './films.ts'
import { type HeatNetwork, networkOf } from './network.ts'
import { frameOf } from './recorder.ts'
import type { HeatSetting } from './result.ts'
import type { ThermalBoard } from './thermal-board.ts'
import { dot, driveOf, setGain } from './time-loop.ts'

export interface SteadyField {
  /** °C, row by row; NaN off the board. */
  readonly boardC: Float32Array
  /** Rise above the room per cell, K, in full precision. */
  readonly riseK: Float64Array
  readonly iterations: number
}

const TOLERANCE = 1e-10
const MOST_ITERATIONS = 20_000

/** @returns the field with preheat and air both held at full; faults of the setting; a fault if it doesn't settle */
export function steady(board: ThermalBoard, setting: HeatSetting): Result<SteadyField> {
  const faults = checkSetting(board, setting)
  if (faults.length > 0) return bad(...faults)
  const films = filmsFor(board, setting, 'air')
  const network = networkOf(board, films)
  const drive = driveOf(setting)
  const gain = { cells: films.cellLossWPerK.slice(), nodes: films.nodeLossWPerK.slice() }
  setGain(films, drive.preheatRiseK, drive.jetRiseK, gain)
  const solved = solveSteady(network, gain)
  if (solved === undefined)
    return bad({
      path: '$',
      found: say('no steady state'),
      expected: say('a board that loses heat to the air everywhere'),
    })
  return good({ ...solved, boardC: frameOf(board, solved.riseK, heatAssumptions.ambientC.value) })
}

/** Body b in balance: (k + loss_b)·B = k·T + gain_b; what remains is a symmetric positive system in the cells. */
export function solveSteady(
  network: HeatNetwork,
  gain: { readonly cells: Float64Array; readonly nodes: Float64Array },
): { riseK: Float64Array; iterations: number } | undefined {
  const size = network.capacity.length
  const extra = network.loss.slice()
  const side = gain.cells.slice()
  for (let n = 0; n < network.nodeCell.length; n++) {
    const cell = network.nodeCell[n] ?? 0
    const link = network.nodeLink[n] ?? 0
    // A body gives its cell what it gets times its share, and takes what it loses on the way: eliminated, it is one
    // more loss and one more gain of the cell.
    const share = link / (link + (network.nodeLoss[n] ?? 0))
    extra[cell] = (extra[cell] ?? 0) + link * (1 - share)
    side[cell] = (side[cell] ?? 0) + share * (gain.nodes[n] ?? 0)
  }
  const diagonal = new Float64Array(size).map((_, i) => diagonalAt(network, extra, i))
  return conjugateGradients(network, extra, diagonal, side)
}

function diagonalAt({ right, up, columns }: HeatNetwork, extra: Float64Array, i: number): number {
  const sum = (extra[i] ?? 0) + (right[i] ?? 0) + (right[i - 1] ?? 0) + (up[i] ?? 0) + (up[i - columns] ?? 0)
  return sum > 0 ? sum : 1
}

function conjugateGradients(
  network: HeatNetwork,
  extra: Float64Array,
  diagonal: Float64Array,
  side: Float64Array,
): { riseK: Float64Array; iterations: number } | undefined {
  const size = side.length
  const riseK = new Float64Array(size)
  const rest = side.slice()
  const scaled = rest.map((r, i) => r / (diagonal[i] ?? 1))
  const direction = scaled.slice()
  const applied = new Float64Array(size)
  let product = dot(rest, scaled)
  // The residual is measured as r·D⁻¹r with D the diagonal, so that strongly and weakly coupled cells count alike.
  const goal = product * TOLERANCE ** 2
  for (let iterations = 0; iterations < MOST_ITERATIONS; iterations++) {
    if (product <= goal) return { riseK, iterations }
    applyNetwork(network, extra, direction, applied)
    const step = product / dot(direction, applied)
    for (let i = 0; i < size; i++) {
      riseK[i] = (riseK[i] ?? 0) + step * (direction[i] ?? 0)
      rest[i] = (rest[i] ?? 0) - step * (applied[i] ?? 0)
      scaled[i] = (rest[i] ?? 0) / (diagonal[i] ?? 1)
    }
    const next = dot(rest, scaled)
    // Conjugate to all directions before, by one number alone, because the system is symmetric (Hestenes and Stiefel,
    // J. Res. Natl. Bur. Stand. 49, 1952; from memory).
    const keep = next / product
    product = next
    for (let i = 0; i < size; i++) direction[i] = (scaled[i] ?? 0) + keep * (direction[i] ?? 0)
  }
  return undefined
}

function applyNetwork(network: HeatNetwork, extra: Float64Array, x: Float64Array, out: Float64Array): void {
  const { right, up, columns } = network
  const size = x.length
  for (let i = 0; i < size; i++) out[i] = (extra[i] ?? 0) * (x[i] ?? 0)
  for (let i = 0; i + 1 < size; i++) {
    const flow = (right[i] ?? 0) * ((x[i] ?? 0) - (x[i + 1] ?? 0))
    out[i] = (out[i] ?? 0) + flow
    out[i + 1] = (out[i + 1] ?? 0) - flow
  }
  for (let i = 0; i + columns < size; i++) {
    const flow = (up[i] ?? 0) * ((x[i] ?? 0) - (x[i + columns] ?? 0))
    out[i] = (out[i] ?? 0) + flow
    out[i + columns] = (out[i + columns] ?? 0) - flow
  }
}
