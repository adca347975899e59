/** What is wrong with a setting, each thing with its own message. */
import { say } from '../base/index.ts'
import type { Fault } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { heatAssumptions } from './assumptions.ts'
import type { HeatSetting } from './result.ts'
import type { ThermalBoard } from './thermal-board.ts'

const MOST_C = 600
const MOST_S = 3600

/**
 * Faults of a setting for this thermal board: temperatures from ambient to 600 °C, times from 0 to 3600 s, a nozzle
 * that fits, the side for which the board was built, and a nozzle's place within the board's box. Empty when it can
 * run.
 */
export function checkSetting(board: ThermalBoard, setting: HeatSetting): Fault[] {
  const ambientC = heatAssumptions.ambientC.value
  const faults: Fault[] = []
  const within = (path: string, value: number, least: number, most: number, what: string): void => {
    if (!(value >= least && value <= most))
      faults.push({ path, found: String(value), expected: say('{what} from {least} to {most}', { what, least, most }) })
  }
  within('$.preheatC', setting.preheatC, ambientC, MOST_C, say('a temperature in °C'))
  within('$.airC', setting.airC, ambientC, MOST_C, say('a temperature in °C'))
  within('$.preheatS', setting.preheatS, 0, MOST_S, say('seconds'))
  within('$.airS', setting.airS, 0, MOST_S, say('seconds'))
  const nozzle = nozzleFault(board.model, setting.nozzle, '$.nozzle')
  if (nozzle !== undefined) faults.push(nozzle)
  if (setting.side !== board.side)
    faults.push({
      path: '$.side',
      found: setting.side,
      expected: say('{side, select, top {top} other {bottom}}, for which the thermal board was built', {
        side: board.side,
      }),
    })
  const { minX, maxX, minY, maxY } = board.model.box
  const { x, y } = setting.at
  if (!(x >= minX && x <= maxX && y >= minY && y <= maxY))
    faults.push({
      path: '$.at',
      found: `${x}, ${y}`,
      expected: say('a point over the board'),
      todo: say('Move the nozzle over the board.'),
    })
  return faults
}

/** A nozzle must have a size, and be no wider than the board's shorter way across. */
export function nozzleFault(model: BoardModel, nozzle: { readonly sizeMm: number }, path: string): Fault | undefined {
  const shortMm = Math.min(model.box.maxX - model.box.minX, model.box.maxY - model.box.minY)
  if (nozzle.sizeMm > 0 && nozzle.sizeMm <= shortMm) return undefined
  return {
    path: `${path}.sizeMm`,
    found: String(nozzle.sizeMm),
    expected: say('more than 0 and at most {shortMm} mm, as wide as the board', { shortMm }),
    todo:
      nozzle.sizeMm > shortMm
        ? say('Choose a nozzle that is smaller than the board.')
        : say('Give the nozzle’s width.'),
  }
}
