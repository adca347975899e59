/** How much there may be, how it may stand and how far it may have been pushed, as a few equally likely levels a place. */
import { good, type Result } from '../../base/index.ts'
import { spillAssumptions } from '../assumptions.ts'
import { betweenRange, evenShare, normalQuantile } from '../draws.ts'
import { type Behaviour, type Load, loadOf, standingOf } from './film.ts'
import type { SpillMark } from '../marks.ts'
import { type Pushed, pushesOf } from './press.ts'
import type { Substance } from '../substance/substance.ts'

export interface Level {
  readonly load: Load
  /** Index into the pushes of the plan. */
  readonly push: number
}

/** What the levels of all places are drawn from. */
export interface LevelPlan {
  readonly mark: Pick<SpillMark, 'amount' | 'amountSdLog'>
  readonly substance: Substance
  readonly behaviour: Behaviour
  readonly pushes: readonly Pushed[]
  readonly count: number
}

/** A plan, or the fault of an amount that the substance's figures do not suffice for. */
export function planLevels(
  mark: SpillMark,
  substance: Substance,
  behaviour: Behaviour,
  count: number,
): Result<LevelPlan> {
  const load = loadOf(mark.amount, substance, behaviour)
  if (!load.ok) return load
  return good({ mark, substance, behaviour, pushes: pushesOf(mark, substance, behaviour), count })
}

const AMOUNT_DRAW = 0
const STANDING_DRAW = 1
const PUSH_DRAW = 3

/**
 * The levels of the place at a column and row of its lattice, in ascending amounts: each from its own slice of the
 * log-normal about the mark's amount, at a height that the substance's range allows.
 */
export function levelsAt(plan: LevelPlan, column: number, row: number): Level[] {
  const sdLog = amountSdLog(plan)
  const within = evenShare(AMOUNT_DRAW, column, row, 0)
  return Array.from({ length: plan.count }, (_, j) => {
    const factor = Math.exp(sdLog * normalQuantile((j + within) / plan.count))
    const standing = normalQuantile(evenShare(STANDING_DRAW, column, row, j))
    return {
      load: loadAt(plan, factor, standing),
      push: pushAt(plan.pushes, evenShare(PUSH_DRAW, column, row, j)),
    }
  })
}

/** Where an area was not seen, the front's unevenness counts like an amount that is not known. */
function amountSdLog({ mark, behaviour }: LevelPlan): number {
  if (behaviour.liquid === undefined || 'smearCm2' in mark.amount) return mark.amountSdLog
  return Math.hypot(mark.amountSdLog, spillAssumptions.frontSdLog.value)
}

function loadAt({ mark, substance, behaviour }: LevelPlan, factor: number, quantile: number): Load {
  const standing = standingOf(behaviour, drawnStanding(substance, behaviour, quantile))
  const load = loadOf(mark.amount, substance, standing, factor)
  return load.ok ? load.value : { volumeMm3: 0, maskFilmMm: behaviour.filmMm }
}

/** A contact angle in degrees or a film thickness in mm, whichever the substance stands by, at a quantile of its range. */
function drawnStanding(substance: Substance, { liquid, filmMm }: Behaviour, quantile: number): number {
  if (liquid !== undefined) {
    const value = liquid.contactAngleDeg
    const half = spillAssumptions.contactAngleRangeDeg.value
    const { low = value - half, high = value + half } = substance.contactAngleMaskDeg ?? {}
    return Math.min(179, Math.max(value / 4, betweenRange(value, low, high, quantile)))
  }
  const { low, high } = substance.filmThicknessMm ?? {}
  if (low === undefined || high === undefined || low <= 0) {
    return filmMm * Math.exp(quantile * spillAssumptions.filmSdLog.value)
  }
  return Math.exp(betweenRange(Math.log(filmMm), Math.log(low), Math.log(high), quantile))
}

function pushAt(pushes: readonly Pushed[], share: number): number {
  let above = 0
  for (const [index, { weight }] of pushes.entries()) {
    above += weight
    if (share < above) return index
  }
  return pushes.length - 1
}

/** An upper bound of all loads: as much as the most, as thin as the thinnest. */
export function boundOf(levels: readonly Level[]): Load {
  let volumeMm3 = 0
  let maskFilmMm = Infinity
  for (const { load } of levels) {
    volumeMm3 = Math.max(volumeMm3, load.volumeMm3)
    maskFilmMm = Math.min(maskFilmMm, load.maskFilmMm)
  }
  return { volumeMm3, maskFilmMm }
}
