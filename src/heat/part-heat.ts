/** What a run did to each part: peaks, time molten, steepest ramp, and words where something is wrong. */
import { decimals, say } from '../base/index.ts'
import type { PlacedPart } from '../board/index.ts'
import { alloyOf, harmFromC, heatAssumptions } from './assumptions.ts'
import { classTemperatureC, profileLimits } from './standards.ts'
import type { PartHeat } from './result.ts'
import type { ThermalBoard } from './thermal-board.ts'

export interface PartCurves {
  readonly timeS: Float32Array
  readonly hottestC: Float32Array
  readonly coldestC: Float32Array
}

/** @param nodePeakC greatest temperature of each body node over the run */
export function judgeParts(board: ThermalBoard, curves: readonly PartCurves[], nodePeakC: Float64Array): PartHeat[] {
  const bodyPeakC = new Float64Array(board.parts.length).fill(-Infinity)
  for (let n = 0; n < nodePeakC.length; n++) {
    const part = board.bodies.part[n] ?? 0
    bodyPeakC[part] = Math.max(bodyPeakC[part] ?? -Infinity, nodePeakC[n] ?? -Infinity)
  }
  return board.parts.flatMap((part, p) => {
    const curve = curves[p]
    return curve === undefined || (board.jointPoints[p]?.count ?? 0) === 0 || isPrintedMark(part)
      ? []
      : [judgePart(part, curve, Math.max(bodyPeakC[p] ?? -Infinity, peakOf(curve.hottestC)))]
  })
}

function firstAbove(timeS: Float32Array, valuesC: Float32Array, limitC: number): number | undefined {
  const at = valuesC.findIndex((c) => c >= limitC)
  return at < 0 ? undefined : timeS[at]
}

/** Within so many kelvin of its body's limit a part is named although it passes none; common practice, no source. */
const NEAR_LIMIT_K = 20

/** Neither melts nor passes its limit, but comes near either: its joints may crack, or its body is close to its limit. */
export const isNearHarm = ({ mayCrack, bodyPeakC, bodyLimitC }: PartHeat): boolean =>
  mayCrack === true || bodyPeakC > bodyLimitC - NEAR_LIMIT_K

const hasBalls = ({ kind }: PlacedPart): boolean => kind === 'memory' || kind === 'core'

/**
 * What is drawn or plated on the board and has no body that heat could harm: test points (class letters TP of ASME
 * Y14.44), fiducials, mounting holes, logos; the last three by common practice, no source.
 */
const isPrintedMark = ({ kind, ref }: PlacedPart): boolean =>
  kind === 'other' && /^(?:TP|FID|MH|H|LOGO|G|REF)[\d*_-]*$/i.test(ref)

function judgePart(part: PlacedPart, curve: PartCurves, bodyPeakC: number): PartHeat {
  const name = alloyOf(part.description)
  const alloy = heatAssumptions.alloys[name]
  const bodyLimitC = bodyLimitOf(part)
  const jointPeakC = peakOf(curve.hottestC)
  const mayCrack = hasBalls(part) && jointPeakC >= harmFromC(name) && jointPeakC < alloy.solidusC
  const heat = {
    ref: part.ref,
    jointPeakC,
    coldestJointPeakC: peakOf(curve.coldestC),
    bodyPeakC,
    aboveLiquidusS: timeAbove(curve.timeS, curve.hottestC, alloy.liquidusC),
    liquidFromS: firstAbove(curve.timeS, curve.coldestC, alloy.liquidusC),
    coldestAboveLiquidusS: timeAbove(curve.timeS, curve.coldestC, alloy.liquidusC),
    maxRampCPerS: steepestRamp(curve.timeS, curve.hottestC, heatAssumptions.rampWindowS.value),
    melts: jointPeakC >= alloy.solidusC,
    mayCrack,
    overLimit: bodyPeakC > bodyLimitC,
    bodyLimitC,
    ...(mayCrack ? { cracksFromC: harmFromC(name) } : {}),
  }
  return { ...heat, remarks: remarksOn(part, heat, alloy.solidusC) }
}

function remarksOn(part: PlacedPart, heat: Omit<PartHeat, 'remarks'>, solidusC: number): string[] {
  const limits = profileLimits(heatAssumptions.alloys[alloyOf(part.description)].hasLead)
  const remarks: string[] = []
  if (heat.melts)
    remarks.push(
      say('{ref}: its joints reach {jointPeakC} °C, {jointPeakC2} K above where they start to melt.', {
        ref: part.ref,
        jointPeakC: decimals(heat.jointPeakC, 0),
        jointPeakC2: decimals(heat.jointPeakC - solidusC, 0),
      }),
    )
  if (heat.overLimit)
    remarks.push(
      say('{ref}: its body reaches {bodyPeakC} °C, {bodyPeakC2} K over its limit of {bodyLimitC} °C.', {
        ref: part.ref,
        bodyPeakC: decimals(heat.bodyPeakC, 0),
        bodyPeakC2: decimals(heat.bodyPeakC - heat.bodyLimitC, 0),
        bodyLimitC: heat.bodyLimitC,
      }),
    )
  if (heat.maxRampCPerS > limits.rampUpCPerS)
    remarks.push(
      say('{ref}: it heats at up to {maxRampCPerS} °C/s, more than the {rampUpCPerS} °C/s allowed.', {
        ref: part.ref,
        maxRampCPerS: decimals(heat.maxRampCPerS, 1),
        rampUpCPerS: limits.rampUpCPerS,
      }),
    )
  if (heat.aboveLiquidusS > limits.aboveLiquidusS.most)
    remarks.push(
      say('{ref}: a joint stays molten for {aboveLiquidusS} s, longer than the {most} s allowed.', {
        ref: part.ref,
        aboveLiquidusS: decimals(heat.aboveLiquidusS, 0),
        most: limits.aboveLiquidusS.most,
      }),
    )
  return remarks
}

/** The lower of what the board file says and, for packages, the class temperature of J-STD-020; others: a stated limit. */
export function bodyLimitOf(part: PlacedPart): number {
  const own = part.description.maxBodyC ?? Infinity
  const isPackage =
    part.kind === 'core' || part.kind === 'memory' || part.kind === 'controller' || part.kind === 'power-stage'
  if (!isPackage) return Math.min(own, heatAssumptions.otherPartMaxC.value)
  const volumeMm3 = part.widthMm * part.lengthMm * part.heightMm
  const assembly = heatAssumptions.alloys[alloyOf(part.description)].hasLead ? 'tin-lead' : 'lead-free'
  return Math.min(own, classTemperatureC({ assembly, thicknessMm: part.heightMm, volumeMm3 }))
}

const peakOf = (values: Float32Array): number => values.reduce((a, b) => Math.max(a, b), -Infinity)

/** Seconds that a curve spends at or above a level, straight lines between its points. */
export function timeAbove(timeS: Float32Array, valueC: Float32Array, levelC: number): number {
  let total = 0
  for (let i = 1; i < timeS.length; i++) {
    const a = (valueC[i - 1] ?? 0) - levelC
    const b = (valueC[i] ?? 0) - levelC
    const span = (timeS[i] ?? 0) - (timeS[i - 1] ?? 0)
    if (a >= 0 && b >= 0) total += span
    else if (a >= 0 || b >= 0) total += (span * Math.max(a, b)) / (Math.max(a, b) - Math.min(a, b))
  }
  return total
}

/** Greatest mean slope over any window of the given length, °C/s. */
export function steepestRamp(timeS: Float32Array, valueC: Float32Array, windowS: number): number {
  let steepest = 0
  let from = 0
  for (let to = 1; to < timeS.length; to++) {
    while ((timeS[to] ?? 0) - (timeS[from + 1] ?? 0) >= windowS - 1e-6) from++
    const spanS = (timeS[to] ?? 0) - (timeS[from] ?? 0)
    if (spanS < windowS - 1e-3) continue
    steepest = Math.max(steepest, ((valueC[to] ?? 0) - (valueC[from] ?? 0)) / spanS)
  }
  return steepest
}
