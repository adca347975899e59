/** The plan and its heat in the words of the screen. */
import { minutesWords, paragraph } from '../../stores/words.ts'
import { counted, joined } from '../../../base/index.ts'
import { type Equipment, type HeatSetting, type PartHeat, recipeWords } from '../../../heat/index.ts'
import type { PlanAnswer, PlanStep } from '../../../plan/index.ts'
import type { ExposedPart, ExposureKind, PassView } from '../../sheet/index.ts'
import { exposedInStep } from './heatFacts.ts'

const degrees = (valueC: number): string => `${Math.round(valueC)}\u00a0°C`

export const settingWords = (setting: HeatSetting): string => paragraph([recipeWords(setting)])

const exposureVerbs: Readonly<Record<ExposureKind, string>> = {
  'over-limit': 'goes over its limit',
  melts: 'its joints melt',
  near: 'gets hot enough for harm',
}

/** `U12: its joints melt, 224 °C` */
export const exposedWords = ({ ref, kind, peakC }: ExposedPart): string =>
  `${ref}: ${exposureVerbs[kind]}, ${degrees(peakC)}`

export const exposureKindWords: Readonly<Record<ExposureKind, string>> = {
  'over-limit': 'over its limit',
  melts: 'joints melt',
  near: 'hot enough for harm',
}

export const hasHeat = (step: PlanStep): step is PlanStep & { readonly setting: HeatSetting } =>
  step.setting !== undefined

/** What the sheet draws of a plan. */
export const passViews = (answer: PlanAnswer, litStep: number | undefined): PassView[] =>
  answer.best.steps.filter(hasHeat).map((step) => ({
    n: step.n,
    refs: step.refs,
    side: step.setting.side,
    setting: step.setting,
    exposed: exposedInStep(step),
    lit: step.n === litStep,
  }))

/** `3 lifts, 2 h 10` for the list of stations. */
export function planSummary(answer: PlanAnswer): string {
  const lifts = answer.best.steps.filter((step) => step.action === 'lift').reduce((n, step) => n + step.refs.length, 0)
  return `${counted(lifts, 'lift')}, ${minutesWords(answer.best.minutes)}`
}

/** What a change to a pass does to the parts that matter, in words: target, the part asked about, then whatever moved. */
export function comparedWords(
  before: readonly PartHeat[],
  after: readonly PartHeat[],
  targets: readonly string[],
  asked?: string,
): string[] {
  const sentences: { readonly sentence: string; readonly weight: number }[] = []
  for (const part of after) {
    const earlier = before.find(({ ref }) => ref === part.ref)
    if (earlier === undefined) continue
    const changeK = part.jointPeakC - earlier.jointPeakC
    const isTarget = targets.includes(part.ref)
    const matters = part.melts !== earlier.melts || part.overLimit !== earlier.overLimit
    if (!isTarget && part.ref !== asked && !matters && Math.abs(changeK) < 2) continue
    sentences.push({
      sentence: `${part.ref}: peak from ${degrees(earlier.jointPeakC)} to ${degrees(part.jointPeakC)}${turnedWords(earlier, part, isTarget)}.`,
      weight: isTarget ? Infinity : part.ref === asked ? 10_000 : matters ? 1000 : Math.abs(changeK),
    })
  }
  return sentences.toSorted((a, b) => b.weight - a.weight).map(({ sentence }) => sentence)
}

function turnedWords(before: PartHeat, after: PartHeat, isTarget: boolean): string {
  const turns: string[] = []
  if (isTarget && !after.melts) turns.push('it would not come off')
  else if (!isTarget && before.melts && !after.melts) turns.push('no longer melts')
  else if (!isTarget && !before.melts && after.melts) turns.push('now melts')
  if (before.overLimit && !after.overLimit) turns.push('back under its limit')
  else if (!before.overLimit && after.overLimit) turns.push('now over its limit')
  return turns.length === 0 ? '' : `, ${joined(turns)}`
}

/** `preheater to 320 °C, 260 × 180 mm; air to 450 °C; nozzles 8, 12 and 16 mm` */
export function equipmentWords({ preheater, hotAir, nozzles }: Equipment): string {
  const sizes = nozzles.map(({ sizeMm }) => String(Number(sizeMm.toFixed(1))))
  return [
    `preheater to ${degrees(preheater.maxC)}, ${preheater.widthMm} × ${preheater.lengthMm}\u00a0mm`,
    `air to ${degrees(hotAir.maxC)}`,
    nozzles.length === 0 ? 'no nozzle' : `nozzles ${joined(sizes)}\u00a0mm`,
  ].join('; ')
}

const CHECK = /^Check: /

/** How a step is done line by line, and apart from that how one knows that it is done. */
export function recipeOf(why: string): { readonly lines: readonly string[]; readonly check: string | undefined } {
  const lines = why.split('\n').filter((line) => line !== '')
  const check = lines.find((line) => CHECK.test(line))
  return {
    lines: lines.filter((line) => line !== check),
    check: check?.replace(CHECK, '').replace(/^./, (first) => first.toUpperCase()),
  }
}
