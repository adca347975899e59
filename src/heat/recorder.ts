/** Keeps what a run is asked for: frames now and then, every part's hottest and coldest joint, every body's peak. */
import { extremes } from './joint-points.ts'
import type { HeatState } from './network.ts'
import type { PartCurves } from './part-heat.ts'
import type { HeatRun } from './result.ts'
import type { ThermalBoard } from './thermal-board.ts'

export interface Recorder {
  /** Called at time 0 and after each step. */
  readonly step: (timeS: number) => void
  readonly done: () => { frames: HeatRun['frames']; nodePeakC: Float64Array; curves: PartCurves[] }
}

/**
 * Watches a state that a march moves in place. Keeps joint temperatures of every step, board frames at most each
 * `keepEveryS` seconds, and the peak of each body node; all in °C.
 */
export function recorder(board: ThermalBoard, state: HeatState, ambientC: number, keepEveryS: number): Recorder {
  const { cells, nodes } = state
  const times: number[] = []
  const hottest: number[][] = board.parts.map(() => [])
  const coldest: number[][] = board.parts.map(() => [])
  const nodePeakK = new Float64Array(nodes.length)
  const frames: { timeS: number; boardC: Float32Array }[] = []
  return {
    step: (timeS) => {
      times.push(timeS)
      for (let p = 0; p < board.jointPoints.length; p++) {
        const joints = board.jointPoints[p]
        if (joints === undefined) continue
        const { high, low } = extremes(joints, cells)
        hottest[p]?.push(high + ambientC)
        coldest[p]?.push(low + ambientC)
      }
      raisePeaks(nodePeakK, nodes)
      if (timeS >= frames.length * keepEveryS - 1e-6) frames.push({ timeS, boardC: frameOf(board, cells, ambientC) })
    },
    done: () => {
      const timeS = Float32Array.from(times)
      return {
        frames,
        nodePeakC: nodePeakK.map((rise) => rise + ambientC),
        curves: board.parts.map((_, p) => ({
          timeS,
          hottestC: Float32Array.from(hottest[p] ?? []),
          coldestC: Float32Array.from(coldest[p] ?? []),
        })),
      }
    },
  }
}

function raisePeaks(peaks: Float64Array, values: Float64Array): void {
  for (let n = 0; n < values.length; n++) {
    const value = values[n] ?? 0
    if (value > (peaks[n] ?? 0)) peaks[n] = value
  }
}

/** Board temperatures in °C, NaN off the board. */
export function frameOf(board: ThermalBoard, rises: Float64Array, ambientC: number): Float32Array {
  const frame = new Float32Array(rises.length)
  for (let i = 0; i < frame.length; i++)
    frame[i] = board.capacityJPerK[i] === 0 ? Number.NaN : (rises[i] ?? 0) + ambientC
  return frame
}
