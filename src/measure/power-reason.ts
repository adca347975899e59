/** A reason for or against power: one sentence, its weight, and the lines that it speaks of. */
import { say } from '../base/index.ts'
import { isFarAbove } from './judge-ohms.ts'
import { lineKey, lineWithKind } from './line-key.ts'
import { isOfCore } from './practice.ts'
import type { LineName, Phase, StagePoint } from './schema.ts'
import type { LineVerdict } from './verdict.ts'
import { type PowerPlace, type PowerWeight, powerWeightOf } from './verdict-words.ts'

export interface PowerReason {
  readonly weight: PowerWeight
  readonly sentence: string
  /** Whether it is about what was measured, or about the card: what happened to it and what lies on it. */
  readonly about: 'measured' | 'card'
  readonly lines: readonly LineName[]
  /** The same in every language: what is said, with the readings that it rests on. */
  readonly key: string
}

/**
 * A reason that rests on what was measured. Without `lines` it speaks of none in particular. @param read what was read or
 * told, for the key
 */
export const measuredReason = (
  weight: PowerWeight,
  sentence: string,
  lines: readonly LineName[] = [],
  read = '',
): PowerReason => ({
  weight,
  about: 'measured',
  sentence,
  lines,
  key: ['measured', weight, ...lines.map(lineKey), read].filter((each) => each !== '').join(' '),
})

/** What one cold reading says about power, in ohms or in diode mode; empty where it says nothing or is not there. */
export function reasonOf(each: LineVerdict): PowerReason[] {
  const { line, verdict } = each
  const weight = weightOf(each)
  if (weight === undefined) return []
  const mode = line.quantity === 'diode' ? say(' in diode mode') : ''
  const said = `${lineWithKind(line.line)}${mode}, ${verdict.word}: ${verdict.sentence}`
  return [
    measuredReason(weight, said, [line.line], `${line.quantity} ${verdict.kind} ${each.measurement?.typed ?? ''}`),
  ]
}

const PLACES: Readonly<Record<StagePoint, PowerPlace>> = {
  input: 'feed',
  switch: 'switch',
  driver: 'feed',
  enable: 'pin',
  pwm: 'pin',
}

/**
 * What a stage's point counts as for the judge of power: input and driver supply feed it, enable and PWM are pins,
 * the switch node stands for itself.
 */
export const placeOf = (point: StagePoint): PowerPlace => PLACES[point]

/** A hint passes nothing on a core rail, whose short reads much as it does when it is well. */
function weightOf({ line, measurement, verdict: { kind } }: LineVerdict): PowerWeight | undefined {
  if (measurement === undefined) return undefined
  if (line.quantity === 'diode') return powerWeightOf(kind, 'diode')
  const { point } = line.line
  if (point !== undefined) return powerWeightOf(kind, placeOf(point))
  if (kind === 'above' && isFarAbove(line, measurement.reading)) return 'unknown'
  if (kind === 'usual' && isOfCore(line.use)) return 'unknown'
  if (line.reference.isHabit && kind === 'low') return 'unknown'
  if (line.reference.isHabit && kind === 'below') return 'note'
  return powerWeightOf(kind, 'rail')
}

/** After what `not read` or `not measured` stands in a reason. */
export const whenWords = (phase: Phase): string => (phase === 'after' ? say(' after the work') : '')
