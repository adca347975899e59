/** The setting that puts a part on again: in the usual window, else in the cooler one that its body allows. */
import { good, type Result, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { findSetting, type SettingWish } from './find-setting.ts'
import type { HeatRun } from './result.ts'

/** `short`: where the usual window can't be had, what is had instead, in a sentence. */
export type RefitAnswer =
  | { readonly run: HeatRun; readonly short?: string | undefined }
  | { readonly cannot: readonly string[] }

/**
 * @param wish as for a lift
 * @returns a run in which the joints of every target form; or what is missing for the cooler window
 */
export function findRefit(model: BoardModel, wish: Omit<SettingWish, 'purpose'>): Result<RefitAnswer> {
  const usual = findSetting(model, { ...wish, purpose: 'refit' })
  if (!usual.ok || 'run' in usual.value) return usual
  const cooler = findSetting(model, { ...wish, purpose: 'cooler refit' })
  if (!cooler.ok || 'cannot' in cooler.value) return cooler
  const { run } = cooler.value
  return good({ run, short: shortWords(run, [wish.ref, ...(wish.together ?? [])]) })
}

/** The search for what the heat is for. */
export const searchFor = (
  purpose: 'lift' | 'refit',
): ((model: BoardModel, wish: Omit<SettingWish, 'purpose'>) => Result<RefitAnswer>) =>
  purpose === 'refit' ? findRefit : findSetting

function shortWords(run: HeatRun, targets: readonly string[]): string {
  const own = run.parts.filter(({ ref }) => targets.includes(ref))
  const coldestC = Math.min(...own.map(({ coldestJointPeakC, jointPeakC }) => coldestJointPeakC ?? jointPeakC))
  return say('The coldest joint reaches {coldestC} °C, a little less than usual: the body’s limit allows no more.', {
    coldestC: coldestC.toFixed(0),
  })
}
