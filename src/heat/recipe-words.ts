/**
 * A heat setting as a recipe for the bench, whole: whoever sets what is written gets the temperatures that are computed.
 * Temperatures are those of the tools; the board stays below them.
 */
import { drawnMm } from '../base/index.ts'
import type { HeatSetting } from './result.ts'

/**
 * `Top side up. Plate of 260 by 180 mm under the site at 212 °C. After 240 s air through a square nozzle of 60 mm, its
 * middle at x 150, y 100: from 158 °C up to 322 °C within 20 s. Air and plate off 122 s after it came on. U12 under tape.`
 */
export function recipeWords(setting: HeatSetting): string {
  return [
    sideWords(setting),
    ...plateWords(setting),
    airWords(setting),
    endWords(setting),
    ...shieldWords(setting),
  ].join(' ')
}

const sideWords = ({ side }: HeatSetting): string => `${side === 'top' ? 'Top' : 'Bottom'} side up.`

const degrees = (valueC: number): string => `${Math.round(valueC)} °C`
const tenths = (mm: number): string => String(Math.round(mm * 10) / 10)
const seconds = (valueS: number): string => `${Math.round(valueS)} s`

function plateWords({ preheater, preheatC, preheatS }: HeatSetting): string[] {
  if (preheatS <= 0) return []
  const plate =
    preheater === undefined
      ? 'Plate under the whole board'
      : `Plate of ${drawnMm(preheater.widthMm)} by ${drawnMm(preheater.lengthMm)} mm under the site`
  return [`${plate} at ${degrees(preheatC)}.`]
}

function airWords({ airC, airRamp, preheatS, nozzle, at }: HeatSetting): string {
  const start = preheatS > 0 ? `After ${seconds(preheatS)} air` : 'Air'
  const where = `through a ${nozzle.shape} nozzle of ${drawnMm(nozzle.sizeMm)} mm, its middle at x ${tenths(at.x)}, y ${tenths(at.y)}`
  const hasRamp = airRamp !== undefined && airRamp.overS > 0
  const heat = hasRamp
    ? `from ${degrees(airRamp.fromC)} up to ${degrees(airC)} within ${seconds(airRamp.overS)}`
    : `at ${degrees(airC)}`
  return `${start} ${where}: ${heat}.`
}

const endWords = ({ airS, preheatS }: HeatSetting): string =>
  `${preheatS > 0 ? 'Air and plate' : 'Air'} off ${seconds(airS)} after it came on.`

/**
 * When to pull: as soon as every joint is liquid, with the air still on. Common practice, no source: once the air is off the
 * joints freeze, and the pads come off with the part.
 */
export const liftWords = (liftFromS: number): string =>
  `From ${seconds(liftFromS)} of air on every joint should be liquid: nudge the part, and lift it straight up while the air is still on, never after.`

const shieldWords = ({ shields }: HeatSetting): string[] =>
  shields.map(({ ref, kind }) => `${ref} under ${kind === 'tape' ? 'tape' : 'a heat sink'}.`)
