/** Power on the card of a case: the one judgement that screen, record and command line all show. */
import { joined, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import {
  type GoodReadings,
  judgePower,
  type Leads,
  lineVerdicts,
  type Measurement,
  type Phase,
  type PowerJudgement,
  powerCaution,
  type PowerReason,
} from '../measure/index.ts'
import { cleanedOf } from './cleaning-done.ts'
import type { Case } from './schema.ts'

type PowerFacts = Pick<Case, 'measurements' | 'goodReadings' | 'leads' | 'marks' | 'arrival' | 'cleaned' | 'ticks'> &
  Partial<Pick<Case, 'supplies' | 'powered'>>

/** Of the work on the card: after it as soon as a pass is noted. */
export const usualPhase = ({ passes }: Pick<Case, 'passes'>): Phase => (passes.length > 0 ? 'after' : 'before')

/** The judgement for one phase, before or after the work. What was cleaned since counts as `cleanedOf` has it. */
export const powerOf = (model: BoardModel, facts: PowerFacts, phase: Phase): PowerJudgement => {
  const { measurements, goodReadings, leads, supplies, marks, arrival, powered } = facts
  const cleaned = cleanedOf(facts)
  return judgePower(model, { measurements, goodReadings, leads, supplies, marks, arrival, cleaned, powered, phase })
}

/** What is looked at before any heat, without a full stop, and what to do about it. */
export interface LookFirst {
  readonly what: string
  readonly todo: string
}

interface Readings {
  readonly measurements: readonly Measurement[]
  readonly goodReadings: readonly GoodReadings[]
  readonly leads?: Leads | undefined
}

/** Names of the rails whose last reading in ohms is at short level; one that was read again after the work counts by that. */
export function shortRails(model: BoardModel, { measurements, goodReadings, leads }: Readings, phase: Phase): string[] {
  const measured = { measurements, goodReadings, leads }
  const read = (of: Phase): [string, boolean][] =>
    lineVerdicts(model, measured, 'ohms', of).flatMap(({ line, measurement, verdict }): [string, boolean][] =>
      line.line.kind === 'rail' && measurement !== undefined ? [[line.line.name, verdict.kind === 'short']] : [],
    )
  const last = new Map([...read('before'), ...(phase === 'after' ? read('after') : [])])
  return [...last].flatMap(([name, isShort]) => (isShort ? [name] : []))
}

/**
 * Rails that read short come before any story: nothing gets power until they are found, and a test that ran before tells of
 * another card. Undefined where none reads short in this phase. Common practice, no source.
 */
export function shortsFirst(model: BoardModel, facts: PowerFacts, phase: Phase): LookFirst | undefined {
  const rails = shortRails(model, facts, phase)
  if (rails.length === 0) return undefined
  return {
    what: say(
      '{rails} {count, plural, one {reads short: find it} other {read short: find them}} first, before any lift',
      { rails: joined(rails), count: rails.length },
    ),
    todo: say('Nothing gets power until then, and a run from before the short counts no more.'),
  }
}

/** What the caution is called wherever it stands. */
export const AGAINST_POWER = say('Don’t power it yet.')

/**
 * Why the card should not be powered yet; empty where nothing that was entered speaks against it, and where somebody gave
 * power with a reason, knowing all of it. What comes up after that speaks again.
 */
export function cautionAgainstPower(
  facts: Pick<Case, 'marks' | 'arrival' | 'cleaned' | 'ticks'> & Partial<Pick<Case, 'powerUps'>>,
  judgement: PowerJudgement | undefined,
): readonly PowerReason[] {
  const reasons = powerCaution({ marks: facts.marks, arrival: facts.arrival, cleaned: cleanedOf(facts) }, judgement)
  const decided = facts.powerUps?.findLast(({ against }) => against !== undefined)
  if (decided === undefined) return reasons
  // a case from before has the sentences alone
  const { keys, reasons: said } = decided
  const isKnown = ({ key, sentence }: PowerReason): boolean => keys?.includes(key) ?? said.includes(sentence)
  return reasons.every(isKnown) ? [] : reasons
}
