/**
 * The setting that puts a part on again: through no wider nozzle than lifted it where one makes it, in the usual window, else
 * in the cooler one that its body allows. What is had instead of the usual is said.
 */
import { decimals, good, joined, type Result, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { nozzleFault } from './check-setting.ts'
import type { Equipment } from './equipment.ts'
import { findSetting, type SettingWish } from './find-setting.ts'
import type { HeatRun, HeatSetting } from './result.ts'
import type { HeatPurpose } from './wanted.ts'

/** `short`: what differs from the usual window or from the lift's nozzle, in sentences. */
export type RefitAnswer =
  | { readonly run: HeatRun; readonly window?: HeatPurpose; readonly short?: string | undefined }
  | { readonly cannot: readonly string[] }

interface RefitWish extends Omit<SettingWish, 'purpose'> {
  /** Size of the nozzle that lifted it, mm: a wider one blows on neighbours that the lift spared. */
  readonly liftedWithMm?: number
}

interface Found {
  readonly run: HeatRun
  readonly window: Exclude<HeatPurpose, 'lift'>
  /** Packages that would melt in the usual window and do not in this one. */
  readonly spared: readonly string[]
}

/**
 * @param wish as for a lift, with the size of the nozzle that lifted it
 * @returns a run in which the joints of every target form; or what is missing for the cooler window
 */
export function findRefit(model: BoardModel, { liftedWithMm, ...wish }: RefitWish): Result<RefitAnswer> {
  let cannot: readonly string[] = []
  for (const equipment of equipmentByWidth(model, wish, liftedWithMm)) {
    const tried = inEitherWindow(model, { ...wish, equipment })
    if (!tried.ok) return tried
    if (!('cannot' in tried.value)) return good(told(tried.value, wish, liftedWithMm))
    cannot = tried.value.cannot
  }
  return good({ cannot })
}

/** What the bench has up to the lift's nozzle, then the wider ones; all at once where no lift is known. */
function equipmentByWidth(
  model: BoardModel,
  { equipment, nozzle }: RefitWish,
  liftedWithMm: number | undefined,
): RefitWish['equipment'][] {
  if (liftedWithMm === undefined || nozzle !== undefined) return [equipment]
  const those = (isIn: (sizeMm: number) => boolean) => ({
    ...equipment,
    nozzles: equipment.nozzles.filter((each) => isIn(each.sizeMm) && nozzleFault(model, each, '$') === undefined),
  })
  const parted = [those((sizeMm) => sizeMm <= liftedWithMm), those((sizeMm) => sizeMm > liftedWithMm)]
  return parted.filter(({ nozzles }) => nozzles.length > 0)
}

/** The usual window; the cooler one where there is none, or where the usual one would melt packages that the cooler one spares. */
function inEitherWindow(
  model: BoardModel,
  wish: Omit<SettingWish, 'purpose'>,
): Result<Found | { readonly cannot: readonly string[] }> {
  const usual = findSetting(model, { ...wish, purpose: 'refit' })
  if (!usual.ok) return usual
  const asUsual: Found | undefined =
    'run' in usual.value ? { run: usual.value.run, window: 'refit', spared: [] } : undefined
  const melted = asUsual === undefined ? [] : meltedPackages(model, asUsual.run, wish)
  if (asUsual !== undefined && melted.length === 0) return good(asUsual)
  const cooler = findSetting(model, { ...wish, purpose: 'cooler refit' })
  if (!cooler.ok) return cooler
  if ('cannot' in cooler.value) return good(asUsual ?? cooler.value)
  const { run } = cooler.value
  const still = meltedPackages(model, run, wish)
  if (asUsual !== undefined && still.length >= melted.length) return good(asUsual)
  return good({ run, window: 'cooler refit', spared: melted.filter((ref) => !still.includes(ref)) })
}

/** Packages beside the targets that come loose. */
const meltedPackages = (model: BoardModel, run: HeatRun, { ref: target, together = [] }: RefitWish): string[] =>
  run.parts.flatMap(({ ref, melts }) => {
    const kind = model.partByRef.get(ref)?.kind
    const isPackage = kind === 'memory' || kind === 'core'
    return melts && isPackage && ref !== target && !together.includes(ref) ? [ref] : []
  })

function told(
  { run, window, spared }: Found,
  { ref, together = [], equipment }: RefitWish,
  liftedWithMm: number | undefined,
): RefitAnswer {
  const isWider = liftedWithMm !== undefined && run.setting.nozzle.sizeMm > liftedWithMm
  const sentences = [
    ...(window === 'cooler refit' ? [coolerWords(run, [ref, ...together], spared)] : []),
    ...(isWider ? [widerWords(run, liftedWithMm)] : []),
    ...atLimitWords(run.setting, equipment),
  ]
  return { run, window, ...(sentences.length === 0 ? {} : { short: sentences.join(' ') }) }
}

/** The search for what the heat is for; a refit asks first what lifts the part. */
export const searchFor = (
  purpose: 'lift' | 'refit',
): ((model: BoardModel, wish: Omit<SettingWish, 'purpose'>) => Result<RefitAnswer>) =>
  purpose === 'refit' ? refitAfterLift : findSetting

function refitAfterLift(model: BoardModel, wish: Omit<SettingWish, 'purpose'>): Result<RefitAnswer> {
  if (wish.nozzle !== undefined) return findRefit(model, wish)
  const lifted = findSetting(model, wish)
  if (!lifted.ok) return lifted
  return findRefit(
    model,
    'run' in lifted.value ? { ...wish, liftedWithMm: lifted.value.run.setting.nozzle.sizeMm } : wish,
  )
}

function coolerWords(run: HeatRun, targets: readonly string[], spared: readonly string[]): string {
  const own = run.parts.filter(({ ref }) => targets.includes(ref))
  const coldestC = Math.min(...own.map(({ coldestJointPeakC, jointPeakC }) => coldestJointPeakC ?? jointPeakC))
  const why =
    spared.length === 0
      ? say('the body’s limit allows no more')
      : say('hotter, {spared} beside it would melt', { spared: joined(spared) })
  return say('The coldest joint reaches {coldestC} °C, a little less than usual: {why}.', {
    coldestC: decimals(coldestC, 0),
    why,
  })
}

/** @returns nothing where the hot air could give more */
export const atLimitWords = ({ airC }: HeatSetting, { hotAir: { maxC } }: Equipment): string[] =>
  airC < maxC - 0.5
    ? []
    : [
        say('The air stands at the most it gives, {maxC} °C: no reserve if a joint stays cold.', {
          maxC: decimals(maxC, 0),
        }),
      ]

const widerWords = (run: HeatRun, liftedWithMm: number): string =>
  say('Wider nozzle than at the lift ({sizeMm} mm, not {liftedWithMm} mm): no narrower one forms the joints.', {
    sizeMm: run.setting.nozzle.sizeMm,
    liftedWithMm,
  })
