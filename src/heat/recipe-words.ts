/**
 * A heat setting as a card for the bench, whole: whoever sets what is written gets the temperatures that are computed.
 * Temperatures are those of the tools unless a line names the joints; the board stays below them.
 */
import { drawnMm, say } from '../base/index.ts'
import type { HeatSetting, JointWindow } from './result.ts'

/**
 * `Top side up. Plate 260 × 180 mm under it at 212 °C. U12 under tape. Air 322 °C, from 158 °C up in 20 s; square nozzle 60 mm at
 * x 150, y 100. Plate 0 s, air 240 s, off 362 s.`
 */
export const recipeWords = (setting: HeatSetting): string => settingLines({ setting }).join(' ')

/** What is heated, by which setting, and what of it is told. */
export interface HeatedWork {
  readonly setting: HeatSetting
  /** What the joints are to reach and may not pass. */
  readonly joints?: JointWindow | undefined
  /** Of a lift: seconds of air after which every joint is liquid. */
  readonly liftFromS?: number | undefined
  /** Of a refit: °C below which the joints are firm. */
  readonly handsOffUntilC?: number | undefined
  /** Of a refit outside of the usual window or with a wider nozzle: what is had instead, in sentences. */
  readonly short?: string | undefined
}

/** The whole card of a heated step, at most six lines: joints, plate, air, times, and when to lift or let go. */
export function heatLines(work: HeatedWork): string[] {
  const { joints, liftFromS, handsOffUntilC, short } = work
  return [
    ...(joints === undefined ? [] : [jointWords(joints)]),
    ...(short === undefined ? [] : [short]),
    ...settingLines(work),
    ...(liftFromS === undefined ? [] : [FLOATS, STAYS]),
    ...(handsOffUntilC === undefined ? [] : [DROPS]),
  ]
}

const degrees = (valueC: number): string => `${Math.round(valueC)} °C`
const tenths = (mm: number): string => String(Math.round(mm * 10) / 10)
const seconds = (valueS: number): string => `${Math.round(valueS)} s`

/** The thermocouple counts, the settings are a guide. Common practice, no source. */
const jointWords = ({ coldestLeastC, hottestMostC }: JointWindow): string =>
  say('Coldest joint to {coldestLeastC}, hottest at most {hottestMostC}, by thermocouple.', {
    coldestLeastC: degrees(coldestLeastC),
    hottestMostC: degrees(hottestMostC),
  })

function settingLines({ setting, liftFromS, handsOffUntilC }: HeatedWork): string[] {
  return [
    [sideWords(setting), ...plateWords(setting), ...shieldWords(setting)].join(' '),
    airWords(setting),
    timeWords(setting, liftFromS, handsOffUntilC),
  ]
}

const sideWords = ({ side }: HeatSetting): string => (side === 'top' ? say('Top side up.') : say('Bottom side up.'))

function plateWords({ preheater, preheatC, preheatS }: HeatSetting): string[] {
  if (preheatS <= 0) return []
  const plate =
    preheater === undefined
      ? say('Plate under the whole board')
      : say('Plate {widthMm} × {lengthMm} mm under it', {
          widthMm: drawnMm(preheater.widthMm),
          lengthMm: drawnMm(preheater.lengthMm),
        })
  return [say('{plate} at {preheatC}.', { plate, preheatC: degrees(preheatC) })]
}

function airWords({ airC, airRamp, nozzle, at }: HeatSetting): string {
  const said = {
    airC: degrees(airC),
    shape: nozzle.shape,
    sizeMm: drawnMm(nozzle.sizeMm),
    x: tenths(at.x),
    y: tenths(at.y),
    fromC: degrees(airRamp?.fromC ?? airC),
    overS: seconds(airRamp?.overS ?? 0),
  }
  return airRamp !== undefined && airRamp.overS > 0
    ? say(
        'Air {airC}, from {fromC} up in {overS}; {shape, select, round {round} other {square}} nozzle {sizeMm} mm at x {x}, y {y}.',
        said,
      )
    : say('Air {airC}; {shape, select, round {round} other {square}} nozzle {sizeMm} mm at x {x}, y {y}.', said)
}

/** Seconds from the start of the first heat; a joint that is not firm yet gives way when it is touched. */
function timeWords(
  { preheatS, airS }: HeatSetting,
  liftFromS: number | undefined,
  handsOffUntilC: number | undefined,
): string {
  const hasPlate = preheatS > 0
  const endS = seconds(preheatS + airS)
  const times = [
    ...(hasPlate ? [say('Plate 0 s')] : []),
    hasPlate ? say('air {startS}', { startS: seconds(preheatS) }) : say('Air 0 s'),
    ...(liftFromS === undefined ? [] : [say('all liquid {seconds}', { seconds: seconds(preheatS + liftFromS) })]),
    say('off {endS}', { endS }),
  ].join(', ')
  return handsOffUntilC === undefined
    ? `${times}.`
    : say('{times}; hands off until below {handsOffUntilC}.', {
        times,
        handsOffUntilC: degrees(handsOffUntilC),
      })
}

/**
 * When to pull: as soon as every joint is liquid, with the air still on. Common practice, no source: once the air is off the
 * joints freeze, and the pads come off with the part.
 */
const FLOATS = say('Floats at a nudge: lift straight up by vacuum, air still on.')
const STAYS = say('Does not float: do not pull. Glue? Let all cool, plate 10 °C hotter, twice at most.')

/** How a part goes back, common practice, no source. */
const DROPS = say('Fresh flux, pin 1 as photographed. It drops evenly all around; never nudge a core.')

const shieldWords = ({ shields }: HeatSetting): string[] =>
  shields.map(({ ref, kind }) => say('{ref} under {kind, select, tape {tape} other {a heat sink}}.', { ref, kind }))
