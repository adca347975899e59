/** Small boards and settings for the heat room. */
import type { z } from 'zod'
import { type Result, sayFault } from '../../src/base/index.ts'
import { type BoardModel, type boardSchema, loadBoard } from '../../src/board/index.ts'
import {
  buildThermalBoard,
  type HeatSetting,
  type ThermalBoard,
  type ThermalBoardOptions,
} from '../../src/heat/index.ts'

export type BoardInput = z.input<typeof boardSchema>

export function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.faults.map(sayFault).join('\n'))
  return result.value
}

const ball = (number: string, x: number, y: number) => ({
  number,
  at: { x, y },
  widthMm: 0.45,
  lengthMm: 0.45,
  round: true,
})

/** A package of 12 by 14 mm on a 10 by 12 field of balls. */
export function packageAt(ref: string, x: number, y: number, more: object = {}): BoardInput['parts'][number] {
  const pads = Array.from({ length: 120 }, (_, i) =>
    ball(`B${i}`, ((i % 10) - 4.5) * 1, (Math.floor(i / 10) - 5.5) * 1),
  )
  return {
    ref,
    kind: 'memory',
    side: 'top',
    at: { x, y },
    body: { widthMm: 12, lengthMm: 14, heightMm: 1.1 },
    standoffMm: 0.35,
    jointAlloy: 'SAC305',
    pads,
    ...more,
  }
}

export function boardWith(parts: BoardInput['parts'], more: Partial<BoardInput> = {}): BoardModel {
  return value(
    loadBoard({
      format: 'liftmap-board',
      version: 1,
      name: 'fixture',
      outline: [
        { x: 0, y: 0 },
        { x: 90, y: 0 },
        { x: 90, y: 70 },
        { x: 0, y: 70 },
      ],
      copper: [
        { name: 'top', thicknessUm: 35, fill: 0.3 },
        { name: 'plane', thicknessUm: 35, fill: 0.8 },
        { name: 'plane 2', thicknessUm: 35, fill: 0.8 },
        { name: 'bottom', thicknessUm: 35, fill: 0.3 },
      ],
      parts,
      ...more,
    } satisfies BoardInput),
  )
}

export const twoPackages = (): BoardModel => boardWith([packageAt('U1', 40, 35), packageAt('U2', 55, 35)])

export const thermal = (model: BoardModel, options: ThermalBoardOptions = {}): ThermalBoard =>
  value(buildThermalBoard(model, options))

export const settingAt = (x: number, y: number, more: Partial<HeatSetting> = {}): HeatSetting => ({
  side: 'top',
  preheatC: 240,
  preheatS: 120,
  airC: 350,
  airS: 60,
  nozzle: { name: 'square 16', shape: 'square', sizeMm: 16 },
  at: { x, y },
  shields: [],
  ...more,
})
