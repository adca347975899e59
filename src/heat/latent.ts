/**
 * Latent heat of the joints, in enthalpy form: after each step the heat of a joint cell is shared between its
 * temperature and the melted share of its solder, so that no energy is lost. First order in the few seconds of melting.
 */
import type { ThermalBoard } from './thermal-board.ts'

export interface LatentStore {
  /** Applies melting and freezing to cell rises above the room. */
  readonly settle: (cells: Float64Array) => void
  /** Heat bound in molten solder now, J. */
  readonly boundJ: () => number
}

/**
 * With T* the temperature without latent heat, f the melted share: C·(T* - T) = L·(f' - f) and
 * T = solidus + f'·(liquidus - solidus) while 0 < f' < 1, so f' = (T* - solidus + f·L/C) / (liquidus - solidus + L/C).
 */
export function latentStore(board: ThermalBoard, ambientC: number): LatentStore {
  const { cell, heatJ, solidusC, liquidusC } = board.latent
  const melted = new Float64Array(cell.length)
  return {
    settle: (cells) => {
      for (let k = 0; k < cell.length; k++) {
        const i = cell[k] ?? 0
        const above = (cells[i] ?? 0) + ambientC - (solidusC[k] ?? 0)
        const before = melted[k] ?? 0
        if (above <= 0 && before === 0) continue
        const kelvin = (heatJ[k] ?? 0) / (board.capacityJPerK[i] ?? 1)
        const range = (liquidusC[k] ?? 0) - (solidusC[k] ?? 0)
        const after = Math.max(0, Math.min(1, (above + before * kelvin) / (range + kelvin)))
        cells[i] = (cells[i] ?? 0) - (after - before) * kelvin
        melted[k] = after
      }
    },
    boundJ: () => melted.reduce((sum, share, k) => sum + share * (heatJ[k] ?? 0), 0),
  }
}
