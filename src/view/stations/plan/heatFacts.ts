/** What is read off a heat run for the screen: one moment of it, its highest temperature, whom it exposes, its curves. */
import { counted, joined, say } from '../../../base/index.ts'
import { type BoardModel, isSmallKind, orderOfKind, type PartKind, partKinds } from '../../../board/index.ts'
import { type HeatRun, isNearHarm, type PartHeat } from '../../../heat/index.ts'
import type { PlanStep } from '../../../plan/index.ts'
import { type ExposedPart, type ExposureKind, exposureKinds } from '../../sheet/index.ts'

/** The board's temperatures at a moment, straight between the two kept ones around it. */
export function boardAt(frames: HeatRun['frames'], timeS: number): Float32Array | undefined {
  const after = frames.findIndex((frame) => frame.timeS >= timeS)
  const last = frames.at(-1)
  if (after < 0) return last?.boardC
  const right = frames[after]
  const left = frames[after - 1]
  if (right === undefined || left === undefined || right.timeS === timeS) return right?.boardC
  const share = (timeS - left.timeS) / (right.timeS - left.timeS)
  return right.boardC.map((value, i) => {
    const from = left.boardC[i] ?? value
    return from + (value - from) * share
  })
}

export const endOf = (run: HeatRun): number => run.frames.at(-1)?.timeS ?? 0

/** The board's highest temperature over the whole run, °C. */
export function highestC(run: HeatRun): number {
  let highest = -Infinity
  for (const { boardC } of run.frames) for (const value of boardC) if (value > highest) highest = value
  return highest
}

/** When the targets are hottest: where a look at a run begins. */
export function hottestMoment(run: HeatRun, targets: readonly string[]): number {
  const curve = run.curves.find(({ ref }) => targets.includes(ref)) ?? run.curves[0]
  if (curve === undefined) return endOf(run)
  let at = 0
  for (let i = 0; i < curve.jointC.length; i++) if ((curve.jointC[i] ?? 0) > (curve.jointC[at] ?? 0)) at = i
  return curve.timeS[at] ?? 0
}

export function exposureKindOf(part: PartHeat): ExposureKind | undefined {
  if (part.overLimit) return 'over-limit'
  if (part.melts) return 'melts'
  return isNearHarm(part) ? 'near' : undefined
}

/** Parts beside the targets that are exposed, the worst and then the hottest first. */
export function exposedInRun(run: HeatRun, targets: readonly string[]): (ExposedPart & { readonly heat: PartHeat })[] {
  return run.parts
    .filter(({ ref }) => !targets.includes(ref))
    .flatMap((heat) => {
      const kind = exposureKindOf(heat)
      return kind === undefined
        ? []
        : [{ ref: heat.ref, kind, peakC: heat.jointPeakC, cracksFromC: heat.cracksFromC, heat }]
    })
    .toSorted((a, b) => rank[a.kind] - rank[b.kind] || b.peakC - a.peakC)
}

const rank: Readonly<Record<ExposureKind, number>> = { 'over-limit': 0, melts: 1, near: 2 }

/** Refs that earlier steps of a plan have taken off and not put back: a pass does them no harm. */
export function offBefore(steps: readonly PlanStep[], n: number): string[] {
  const off = new Set<string>()
  for (const step of steps) {
    if (step.n === n) break
    if (step.action === 'lift') for (const ref of step.refs) off.add(ref)
    if (step.action === 'refit') for (const ref of step.refs) off.delete(ref)
  }
  return [...off]
}

export const exposedInStep = (step: PlanStep): ExposedPart[] =>
  step.exposed
    .map(
      ({ ref, jointPeakC, melts, overLimit, cracksFromC }): ExposedPart => ({
        ref,
        cracksFromC,
        kind: overLimit ? 'over-limit' : melts ? 'melts' : 'near',
        peakC: jointPeakC,
      }),
    )
    .toSorted((a, b) => rank[a.kind] - rank[b.kind] || b.peakC - a.peakC)

const NEIGHBOURS_DRAWN = 3

/** The targets' curves and those of their hottest neighbours. */
export function shownCurves(run: HeatRun, targets: readonly string[]): HeatRun['curves'] {
  const own = run.curves.filter(({ ref }) => targets.includes(ref))
  const others = run.curves.filter(({ ref }) => !targets.includes(ref)).slice(0, NEIGHBOURS_DRAWN)
  return [...own, ...others]
}

export interface CurveRow {
  readonly timeS: number
  readonly jointC: readonly (number | undefined)[]
}

const TABLE_ROWS = 12

/** The curves at evenly spaced moments, for a table: one column a curve. */
export function curveRows(curves: HeatRun['curves']): CurveRow[] {
  const end = Math.max(0, ...curves.map(({ timeS }) => timeS.at(-1) ?? 0))
  const stepS = Math.max(1, Math.ceil(end / TABLE_ROWS / 5) * 5)
  const rows: CurveRow[] = []
  for (let timeS = 0; timeS <= end; timeS += stepS)
    rows.push({ timeS, jointC: curves.map((curve) => jointAt(curve, timeS)) })
  return rows
}

function jointAt(curve: HeatRun['curves'][number], timeS: number): number | undefined {
  const after = curve.timeS.findIndex((time) => time >= timeS)
  if (after <= 0) return after === 0 ? curve.jointC[0] : curve.jointC.at(-1)
  const from = curve.timeS[after - 1] ?? 0
  const to = curve.timeS[after] ?? 0
  const share = to === from ? 0 : (timeS - from) / (to - from)
  const a = curve.jointC[after - 1] ?? 0
  return a + ((curve.jointC[after] ?? 0) - a) * share
}

export interface SortedExposed<Part extends ExposedPart> {
  /** Packages and connectors, those that cost most to spoil first. */
  readonly named: readonly Part[]
  /** The small parts, summed up. */
  readonly small: readonly { readonly kind: ExposureKind; readonly words: string; readonly refs: readonly string[] }[]
}

export function sortExposed<Part extends ExposedPart>(model: BoardModel, parts: readonly Part[]): SortedExposed<Part> {
  const kindOf = ({ ref }: ExposedPart): PartKind => model.partByRef.get(ref)?.kind ?? 'other'
  const named = parts
    .filter((part) => !isSmallKind(kindOf(part)))
    .toSorted((a, b) => rank[a.kind] - rank[b.kind] || orderOfKind(kindOf(a)) - orderOfKind(kindOf(b)))
  const rest = parts.filter((part) => isSmallKind(kindOf(part)))
  const small = exposureKinds.flatMap((kind) => {
    const alike = rest.filter((part) => part.kind === kind)
    if (alike.length === 0) return []
    const hottest = Math.max(...alike.map(({ peakC }) => peakC))
    return [
      {
        kind,
        words: say('{alike}, up to {hottest} °C', {
          alike: smallWords(alike.map(kindOf)),
          hottest: Math.round(hottest),
        }),
        refs: alike.map(({ ref }) => ref),
      },
    ]
  })
  return { named, small }
}

export interface Risk {
  readonly kind: ExposureKind
  readonly count: number
  /** °C from which joints of all of them may crack; undefined where something else comes near its limit. */
  readonly cracksFromC: number | undefined
}

/** The worst that a step does to packages beside it, and to how many; undefined where none gets too hot. */
export function worstRisk(model: BoardModel, step: PlanStep): Risk | undefined {
  const { named } = sortExposed(model, exposedInStep(step))
  const kind = named[0]?.kind
  if (kind === undefined) return undefined
  const alike = named.filter((part) => part.kind === kind)
  const limits = alike.flatMap(({ cracksFromC }) => cracksFromC ?? [])
  return { kind, count: alike.length, cracksFromC: limits.length === alike.length ? Math.min(...limits) : undefined }
}

/** `575 capacitors and 34 other parts`; `34 small parts` where they are alone. */
function smallWords(kinds: readonly PartKind[]): string {
  const small = new Set(kinds)
  if (small.size === 1 && small.has('other'))
    return say('{length, plural, one {# small part} other {# small parts}}', { length: kinds.length })
  const listed = [...small]
    .toSorted((a, b) => orderOfKind(b) - orderOfKind(a))
    .toSorted((a, b) => Number(a === 'other') - Number(b === 'other'))
    .map((kind) => {
      const [one, several] = partKinds[kind].words
      return counted(kinds.filter((other) => other === kind).length, one, several)
    })
  return joined(listed)
}
