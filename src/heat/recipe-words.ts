/**
 * A heat setting as a card for the bench, whole: whoever sets what is written gets the temperatures that are computed.
 * Temperatures are those of the tools unless a line names the joints; the board stays below them.
 */
import { drawnMm, say } from '../base/index.ts'
import type { HeatSetting, JointWindow } from './result.ts'

/**
 * `Top side up. Plate of 260 × 180 mm under the site at 212 °C. U12 under tape. Air at 322 °C through a square nozzle of 60 mm,
 * middle at x 150, y 100 mm: start at 158 °C, up within 20 s. Plate on at 0 s, air on at 240 s, both off at 362 s.`
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
  say(
    'Coldest joint to {coldestLeastC}, hottest at most {hottestMostC}: the thermocouple at a joint counts, the settings are a guide.',
    { coldestLeastC: degrees(coldestLeastC), hottestMostC: degrees(hottestMostC) },
  )

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
      : say('Plate of {widthMm} × {lengthMm} mm under the site', {
          widthMm: drawnMm(preheater.widthMm),
          lengthMm: drawnMm(preheater.lengthMm),
        })
  return [say('{plate} at {preheatC}.', { plate, preheatC: degrees(preheatC) })]
}

function airWords({ airC, airRamp, nozzle, at }: HeatSetting): string {
  const air = say('Air at {airC} through a {shape} nozzle of {sizeMm} mm, middle at x {x}, y {y} mm', {
    airC: degrees(airC),
    shape: nozzle.shape,
    sizeMm: drawnMm(nozzle.sizeMm),
    x: tenths(at.x),
    y: tenths(at.y),
  })
  const hasRamp = airRamp !== undefined && airRamp.overS > 0
  return hasRamp
    ? say('{air}: start at {fromC}, up within {overS}.', {
        air,
        fromC: degrees(airRamp.fromC),
        overS: seconds(airRamp.overS),
      })
    : `${air}.`
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
    ...(hasPlate ? [say('Plate on at 0 s')] : []),
    hasPlate ? say('air on at {startS}', { startS: seconds(preheatS) }) : say('Air on at 0 s'),
    ...(liftFromS === undefined ? [] : [say('all liquid from {seconds}', { seconds: seconds(preheatS + liftFromS) })]),
    hasPlate ? say('both off at {endS}', { endS }) : say('off at {endS}', { endS }),
  ].join(', ')
  return handsOffUntilC === undefined
    ? `${times}.`
    : say('{times}; then hands off until it is below {handsOffUntilC}.', {
        times,
        handsOffUntilC: degrees(handsOffUntilC),
      })
}

/**
 * When to pull: as soon as every joint is liquid, with the air still on. Common practice, no source: once the air is off the
 * joints freeze, and the pads come off with the part.
 */
const FLOATS = say('Nudge it: where it floats, lift it straight up with the vacuum pick-up, air still on.')
const STAYS = say(
  'Where it does not float, do not pull: look for glue, let all cool down, then once more with the plate 10 °C hotter, twice at most.',
)

/** How a part goes back, common practice, no source. */
const DROPS = say(
  'Fresh flux, pin 1 as photographed. Liquid, it drops evenly on all four sides; nudge a small package, never a core.',
)

const shieldWords = ({ shields }: HeatSetting): string[] =>
  shields.map(({ ref, kind }) =>
    say('{ref} under {value}.', { ref, value: kind === 'tape' ? 'tape' : say('a heat sink') }),
  )
