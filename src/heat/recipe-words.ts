/**
 * A heat setting as a recipe for the bench, whole: whoever sets what is written gets the temperatures that are computed.
 * Temperatures are those of the tools; the board stays below them.
 */
import { drawnMm, say } from '../base/index.ts'
import type { HeatSetting } from './result.ts'

/**
 * `Top side up. Plate of 260 by 180 mm under the site at 212 °C. After 240 s air through a square nozzle of 60 mm, its
 * middle at x 150, y 100: set to 158 °C, then up to 322 °C within 20 s. Air and plate off 122 s after the air came on. U12 under tape.`
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

const sideWords = ({ side }: HeatSetting): string =>
  say('{value} side up.', { value: side === 'top' ? 'Top' : 'Bottom' })

const degrees = (valueC: number): string => `${Math.round(valueC)} °C`
const tenths = (mm: number): string => String(Math.round(mm * 10) / 10)
const seconds = (valueS: number): string => `${Math.round(valueS)} s`

function plateWords({ preheater, preheatC, preheatS }: HeatSetting): string[] {
  if (preheatS <= 0) return []
  const plate =
    preheater === undefined
      ? say('Plate under the whole board')
      : say('Plate of {widthMm} by {lengthMm} mm under the site', {
          widthMm: drawnMm(preheater.widthMm),
          lengthMm: drawnMm(preheater.lengthMm),
        })
  return [say('{plate} at {preheatC}.', { plate, preheatC: degrees(preheatC) })]
}

function airWords({ airC, airRamp, preheatS, nozzle, at }: HeatSetting): string {
  const start = preheatS > 0 ? say('After {preheatS} air', { preheatS: seconds(preheatS) }) : 'Air'
  const where = say('through a {shape} nozzle of {sizeMm} mm, its middle at x {x}, y {y}', {
    shape: nozzle.shape,
    sizeMm: drawnMm(nozzle.sizeMm),
    x: tenths(at.x),
    y: tenths(at.y),
  })
  const hasRamp = airRamp !== undefined && airRamp.overS > 0
  const heat = hasRamp
    ? say('set to {fromC}, then up to {airC} within {overS}', {
        fromC: degrees(airRamp.fromC),
        airC: degrees(airC),
        overS: seconds(airRamp.overS),
      })
    : say('at {airC}', { airC: degrees(airC) })
  return `${start} ${where}: ${heat}.`
}

const endWords = ({ airS, preheatS }: HeatSetting): string =>
  say('{value} off {airS} after the air came on.', {
    value: preheatS > 0 ? say('Air and plate') : 'Air',
    airS: seconds(airS),
  })

/** What is heated, by which setting, and what of it is told. */
export interface HeatedWork {
  readonly setting: HeatSetting
  /** Of a lift: seconds of air after which every joint is liquid. */
  readonly liftFromS?: number | undefined
  /** Of a refit: °C below which the joints are firm. */
  readonly handsOffUntilC?: number | undefined
  /** Of a refit outside of the usual window: what is had instead, in a sentence. */
  readonly short?: string | undefined
}

/** The whole recipe of a heated step, a line each: the setting, what to watch, when to lift or let go. */
export function heatLines({ setting, liftFromS, handsOffUntilC, short }: HeatedWork): string[] {
  return [
    recipeWords(setting),
    WATCH,
    ...(short === undefined ? [] : [short]),
    ...(liftFromS === undefined ? [] : [liftWords(liftFromS)]),
    ...(handsOffUntilC === undefined ? [] : [refitWords(handsOffUntilC)]),
  ]
}

/**
 * How a part goes back, common practice, no source: flux, pin 1, a nudge once it is molten, and hands off until it is solid.
 */
const refitWords = (handsOffUntilC: number): string =>
  say(
    'Fresh flux on the pads, pin 1 where the photo of before has it. Once all is liquid it drops evenly on all four sides; a small package may be nudged and must float back, a core is left alone. Then do not touch it until it is below {handsOffUntilC}, and let it cool slowly.',
    { handsOffUntilC: degrees(handsOffUntilC) },
  )

/** The thermocouple counts, the settings are a guide. Common practice, no source. */
const WATCH = say(
  'Watch the thermocouple at a joint: the settings are a guide for this board as the file describes it, the joint’s reading counts.',
)

/**
 * When to pull: as soon as every joint is liquid, with the air still on. Common practice, no source: once the air is off the
 * joints freeze, and the pads come off with the part.
 */
const liftWords = (liftFromS: number): string =>
  say(
    'From {liftFromS} of air on every joint should be liquid: nudge the part; where it floats, lift it straight up with a vacuum pick-up while the air is still on, never after. Where it does not float, do not pull: look for glue, let all cool down and begin again with the plate 10 °C hotter, twice at most.',
    { liftFromS: seconds(liftFromS) },
  )

const shieldWords = ({ shields }: HeatSetting): string[] =>
  shields.map(({ ref, kind }) =>
    say('{ref} under {value}.', { ref, value: kind === 'tape' ? 'tape' : say('a heat sink') }),
  )
