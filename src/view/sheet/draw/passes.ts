/** The plan on the sheet: its passes as numbered badges joined in order, their nozzles to scale, whom each exposes. */
import type { BoardModel } from '../../../board/index.ts'
import { type Badge, badgesOf } from '../../../case/index.ts'
import { type Box, say } from '../../../base/index.ts'
import { exposureKinds, type ExposureKind, type HeatView, type PassView } from '../heatView.ts'
import type { Isotherm } from '../pure/isotherms.ts'
import { viewOf } from './paint.ts'
import { drawExposed } from './exposure.ts'
import type { Frame } from './frame.ts'
import { drawIsothermLabels } from './isotherms.ts'
import { drawNozzle, drawPreheater, drawShields } from './nozzle.ts'

/** One badge a pass, on the first of its parts; a part that is heated twice keeps the number of its first pass. */
export function passBadges(
  frame: Frame,
  model: BoardModel,
  passes: readonly PassView[],
  obstacles: readonly Box[],
): Badge[] {
  const firsts = firstPasses(passes).filter(({ ref }) => model.partByRef.has(ref))
  const refs = firsts.map(({ ref }) => ref)
  return badgesOf(viewOf(frame), model, refs, obstacles).map((badge, i) => ({
    ...badge,
    number: firsts[i]?.n ?? badge.number,
  }))
}

export function firstPasses(passes: readonly PassView[]): { readonly ref: string; readonly n: number }[] {
  const seen = new Set<string>()
  const firsts: { ref: string; n: number }[] = []
  for (const pass of passes) {
    const ref = pass.refs[0]
    if (ref === undefined || seen.has(ref)) continue
    for (const each of pass.refs) seen.add(each)
    firsts.push({ ref, n: pass.n })
  }
  return firsts
}

export function drawPassFootprints(frame: Frame, passes: readonly PassView[]): void {
  const lit = passes.filter((pass) => pass.lit)
  for (const pass of passes) if (!pass.lit && pass.side === frame.pane.side) drawNozzle(frame, pass.setting, false)
  for (const pass of lit) drawNozzle(frame, pass.setting, true)
}

export interface ExposedInPasses {
  readonly ref: string
  readonly kind: ExposureKind
  readonly passes: readonly number[]
}

/** Every exposed part once, with the worst that happens to it and the passes that do it; of one pass alone while it is lit. */
export function exposedInPasses(passes: readonly PassView[]): ExposedInPasses[] {
  const shown = passes.some((pass) => pass.lit) ? passes.filter((pass) => pass.lit) : passes
  const byRef = new Map<string, { kind: ExposureKind; passes: number[] }>()
  for (const pass of shown) {
    for (const { ref, kind } of pass.exposed) {
      const entry = byRef.get(ref)
      if (entry === undefined) byRef.set(ref, { kind, passes: [pass.n] })
      else {
        entry.passes.push(pass.n)
        if (exposureKinds.indexOf(kind) < exposureKinds.indexOf(entry.kind)) entry.kind = kind
      }
    }
  }
  return [...byRef].map(([ref, entry]) => ({ ref, ...entry }))
}

export function drawPassExposure(frame: Frame, model: BoardModel, passes: readonly PassView[]): void {
  for (const { ref, kind, passes: numbers } of exposedInPasses(passes)) {
    const part = model.partByRef.get(ref)
    if (part !== undefined && part.side === frame.pane.side) drawExposed(frame, part, kind, passWords(numbers))
  }
}

const passWords = (numbers: readonly number[]): string =>
  numbers.length > 2
    ? say('hot in {count} passes', { count: numbers.length })
    : say('hot in {numbers}', { numbers: numbers.join(', ') })

/** One pass, one moment: preheater, nozzle, shields, whom it exposes, and the labels of the lines. */
export function drawHeatDetails(
  frame: Frame,
  model: BoardModel,
  heat: HeatView,
  isotherms: readonly Isotherm[],
  covered: readonly Box[],
): void {
  drawPreheater(frame, heat.setting)
  drawShields(frame, model, heat.setting)
  drawNozzle(frame, heat.setting, true)
  const taken = heat.exposed.flatMap(({ ref, kind, peakC }) => {
    const part = model.partByRef.get(ref)
    if (part === undefined || part.side !== frame.pane.side) return []
    return [drawExposed(frame, part, kind, `${Math.round(peakC)} °C`)]
  })
  drawIsothermLabels(frame, isotherms, [...covered, ...taken])
}
