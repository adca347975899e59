/** What could be found out but is not known: it stands in the network without an outcome. */
import type { AreaMark } from '../../spill/index.ts'
import type { CheckAnswer } from '../result.ts'
import type { OwnCheck } from './check-catalogue.ts'

export interface Asked {
  /** Rails that were not measured. */
  readonly rails: ReadonlySet<string>
  /** Power stages that were not measured, by ref. */
  readonly stages: ReadonlySet<string>
  /** Places that nobody has looked at; hypotheses of spills index them after the areas of the findings. */
  readonly areas: readonly AreaMark[]
  readonly checks: readonly { readonly check: OwnCheck; readonly at: string }[]
}

export const NOTHING_ASKED: Asked = { rails: new Set(), stages: new Set(), areas: [], checks: [] }

/** Done twice at the same place, a check counts as it came out last. */
export function lastAnswers(answers: readonly CheckAnswer[]): CheckAnswer[] {
  return [...new Map(answers.map((answer) => [`${answer.check} ${answer.at}`, answer])).values()]
}
