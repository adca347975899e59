/** What one pass on a target does to every other part, in the least that the plan needs. */
import { bad, good, type Result, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import type { Equipment } from './equipment.ts'
import { findSetting, type SettingWish } from './find-setting.ts'
import { atLimitWords, findRefit, type RefitAnswer } from './find-refit.ts'
import type { Exposure, HeatRun, HeatSetting } from './result.ts'
import { jointWindow } from './wanted.ts'

export interface ExposureWish {
  readonly target: string
  /** Lifted in the same pass. */
  readonly together?: readonly string[]
  readonly equipment: Equipment
  readonly shields?: HeatSetting['shields']
  readonly onProgress?: (share: number) => void
  readonly signal?: { readonly aborted: boolean }
}

/** Minutes around the heat itself: placing, lifting, waiting until the board can be touched; common practice, no source. */
const HANDLING_MINUTES = 6

/** @returns the exposure of a pass that lifts the target and of one that refits it; a fault that says what is missing where none can */
export function exposureOf(model: BoardModel, wish: ExposureWish): Result<Exposure> {
  const found = heatOf(model, wish)
  if (!found.ok) return found
  if (!('cannot' in found.value)) return good(found.value)
  return bad({
    path: `$.targets.${wish.target}`,
    found: say('no setting that lifts it with this equipment'),
    expected: say('equipment that can'),
    todo: found.value.cannot.join(' '),
  })
}

/**
 * One search for the lift, then one for the refit in its own window; where none is found, the refit is as the lift.
 * @returns both as an exposure, or what is missing to lift the target
 */
export function heatOf(
  model: BoardModel,
  { target, together = [], onProgress, ...wish }: ExposureWish,
): Result<Exposure | { readonly cannot: readonly string[] }> {
  const targets = [target, ...together]
  const watched = (from: number, to: number): SettingWish => ({
    ...wish,
    ref: target,
    together,
    onProgress: (share) => onProgress?.(from + share * (to - from)),
  })
  const lifted = findSetting(model, watched(0, SHARE_OF_LIFT))
  if (!lifted.ok) return lifted
  if ('cannot' in lifted.value) return good(lifted.value)
  const liftedWithMm = lifted.value.run.setting.nozzle.sizeMm
  const refitted = findRefit(model, { ...watched(SHARE_OF_LIFT, 1), liftedWithMm })
  if (!refitted.ok) return refitted
  const {
    run,
    short,
    window = 'cooler refit',
  }: Exclude<RefitAnswer, { cannot: readonly string[] }> = 'run' in refitted.value
    ? refitted.value
    : { run: lifted.value.run, short: AS_LIFT }
  const { setting, minutes, neighbours } = exposureFrom(run, ...targets)
  const parts = targets.flatMap((ref) => model.partByRef.get(ref) ?? [])
  const refit = { setting, minutes, neighbours, short, joints: jointWindow(parts, window) }
  const [atLimit] = atLimitWords(lifted.value.run.setting, wish.equipment)
  const ofLift = atLimit === undefined ? {} : { short: atLimit }
  return good({ ...exposureFrom(lifted.value.run, ...targets), joints: jointWindow(parts, 'lift'), ...ofLift, refit })
}

/** Of the progress; the rest is for the refit. */
const SHARE_OF_LIFT = 0.6

const AS_LIFT = say(
  'No setting of this equipment forms the joints inside the usual window; the one that lifts it is shown. Let a thermocouple at a corner joint decide.',
)

/** The exposure that a finished run means for all parts but its targets; several are named one after the other. */
export function exposureFrom(run: HeatRun, ...targets: readonly string[]): Exposure {
  return {
    target: targets.join(' '),
    setting: run.setting,
    minutes: HANDLING_MINUTES + (run.setting.preheatS + run.setting.airS) / 60,
    liftFromS: liftFromS(run, targets),
    neighbours: run.parts.filter(({ ref }) => !targets.includes(ref)),
  }
}

/** @returns seconds after the air came on from which every joint of the targets is liquid, rounded up */
function liftFromS({ parts, setting }: HeatRun, targets: readonly string[]): number | undefined {
  const from = targets.map((ref) => parts.find((part) => part.ref === ref)?.liquidFromS ?? Infinity)
  const seconds = Math.ceil(Math.max(0, ...from) - setting.preheatS)
  return Number.isFinite(seconds) ? Math.max(0, seconds) : undefined
}
