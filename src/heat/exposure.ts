/** What one pass on a target does to every other part, in the least that the plan needs. */
import { bad, good, type Result } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import type { Equipment } from './equipment.ts'
import { findSetting } from './find-setting.ts'
import type { Exposure, HeatRun, HeatSetting } from './result.ts'

export interface ExposureWish {
  readonly target: string
  /** Lifted in the same pass. */
  readonly together?: readonly string[]
  readonly equipment: Equipment
  readonly shields?: HeatSetting['shields']
  readonly signal?: { readonly aborted: boolean }
}

/** Minutes around the heat itself: placing, lifting, waiting until the board can be touched; common practice, no source. */
const HANDLING_MINUTES = 6

/** @returns the exposure of a pass that lifts the target; a fault that says what is missing where none can */
export function exposureOf(model: BoardModel, wish: ExposureWish): Result<Exposure> {
  const { target, together = [], equipment, shields, signal } = wish
  const found = findSetting(model, {
    ref: target,
    together,
    equipment,
    ...(shields === undefined ? {} : { shields }),
    ...(signal === undefined ? {} : { signal }),
  })
  if (!found.ok) return found
  if ('cannot' in found.value) {
    return bad({
      path: `$.targets.${target}`,
      found: 'no setting that lifts it with this equipment',
      expected: 'equipment that can',
      todo: found.value.cannot.join(' '),
    })
  }
  return good(exposureFrom(found.value.run, target, ...together))
}

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
