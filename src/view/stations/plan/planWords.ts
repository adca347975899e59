/** The plan and its heat in the words of the screen. */
import { minutesWords } from '../../stores/words.ts'
import { joined, plainly, say, sentenceCase } from '../../../base/index.ts'
import type { Equipment, HeatSetting, PartHeat } from '../../../heat/index.ts'
import { checkIn, type PlanAnswer, type PlanStep } from '../../../plan/index.ts'
import type { ExposedPart, ExposureKind, PassView } from '../../sheet/index.ts'
import { exposedInStep, type Risk } from './heatFacts.ts'

const degrees = (valueC: number): string => `${Math.round(valueC)}\u00a0°C`

const exposureVerbs: Readonly<Record<ExposureKind, string>> = {
  'over-limit': say('goes over its limit'),
  melts: say('its joints melt'),
  near: say('comes near the limit of its body'),
}

/** `U12: its joints melt, 224 °C`, `U13: 205 °C, its joints may crack from 195 °C` */
export const exposedWords = ({ ref, kind, peakC, cracksFromC }: ExposedPart): string =>
  cracksFromC === undefined
    ? `${ref}: ${exposureVerbs[kind]}, ${degrees(peakC)}`
    : say('{ref}: {peakC}, its joints may crack from {cracksFromC}', {
        ref,
        peakC: degrees(peakC),
        cracksFromC: degrees(cracksFromC),
      })

export const exposureKindWords: Readonly<Record<ExposureKind, string>> = {
  'over-limit': say('over its limit'),
  melts: say('joints melt'),
  near: say('near the limit of their bodies'),
}

/** `12 packages over 195 °C, where joints may crack` */
export const riskWords = ({ kind, count, cracksFromC }: Risk): string =>
  cracksFromC === undefined
    ? say('{count, plural, one {# package} other {# packages}} {exposureKindWords}', {
        count,
        exposureKindWords: exposureKindWords[kind],
      })
    : say('{count, plural, one {# package} other {# packages}} over {cracksFromC}, where joints may crack', {
        count,
        cracksFromC: degrees(cracksFromC),
      })

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
  return say('{lifts, plural, one {# lift} other {# lifts}}, {minutes}', {
    lifts,
    minutes: minutesWords(answer.best.minutes),
  })
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
      sentence: say('{ref}: peak from {jointPeakC} to {jointPeakC2}{earlier}.', {
        ref: part.ref,
        jointPeakC: degrees(earlier.jointPeakC),
        jointPeakC2: degrees(part.jointPeakC),
        earlier: turnedWords(earlier, part, isTarget),
      }),
      weight: isTarget ? Infinity : part.ref === asked ? 10_000 : matters ? 1000 : Math.abs(changeK),
    })
  }
  return sentences.toSorted((a, b) => b.weight - a.weight).map(({ sentence }) => sentence)
}

function turnedWords(before: PartHeat, after: PartHeat, isTarget: boolean): string {
  const turns: string[] = []
  if (isTarget && !after.melts) turns.push(say('it would not come off'))
  else if (!isTarget && before.melts && !after.melts) turns.push(say('no longer melts'))
  else if (!isTarget && !before.melts && after.melts) turns.push(say('now melts'))
  if (before.overLimit && !after.overLimit) turns.push(say('back under its limit'))
  else if (!before.overLimit && after.overLimit) turns.push(say('now over its limit'))
  return turns.length === 0 ? '' : `, ${joined(turns)}`
}

/** `preheater to 320 °C, 260 × 180 mm; air to 450 °C; nozzles 8, 12 and 16 mm` */
export function equipmentWords({ preheater, hotAir, nozzles }: Equipment): string {
  const sizes = nozzles.map(({ sizeMm }) => plainly(Number(sizeMm.toFixed(1))))
  return [
    say('preheater to {maxC}, {widthMm} × {lengthMm} mm', {
      maxC: degrees(preheater.maxC),
      widthMm: preheater.widthMm,
      lengthMm: preheater.lengthMm,
    }),
    say('air to {maxC}', { maxC: degrees(hotAir.maxC) }),
    nozzles.length === 0 ? say('no nozzle') : say('nozzles {sizes} mm', { sizes: joined(sizes) }),
  ].join('; ')
}

/** How a step is done line by line, and apart from that how one knows that it is done. */
export function recipeOf(why: string): { readonly lines: readonly string[]; readonly check: string | undefined } {
  const lines = why.split('\n').filter((line) => line !== '')
  const check = lines.flatMap((line) => checkIn(line) ?? []).at(0)
  return {
    lines: lines.filter((line) => checkIn(line) === undefined),
    check: check === undefined ? undefined : sentenceCase(check),
  }
}
