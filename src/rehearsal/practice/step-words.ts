/** What was done or would be done, and what it told, in words. */
import { someOf } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { checkById, checkWords } from '../../suspects/index.ts'
import type { Action, Known } from '../scorecard/ask.ts'
import { readTogetherWords } from './outcome-words.ts'
import type { Step } from './rivals.ts'

const checkLabel = (id: string, at: string): string => checkWords(checkById(id)?.question ?? id, at)

/** What a step of Liftmap's told, as a noun phrase; without a full stop where it was no check. */
export function stepEvidenceWords(model: BoardModel, { action, before, after }: Step): string {
  if (action.kind === 'check') return checkTold(model, action, before, after)
  if (action.kind === 'run-again') return 'A run of the memory test'
  if (action.kind === 'put-right')
    return `The run after ${someOf(action.names, 4)} ${action.names.length === 1 ? 'was' : 'were'} put right`
  return `What lay under ${someOf(action.refs, 5)}, with the run after it`
}

/** The step as an order at the bench. */
export function stepWords(action: Action): string {
  if (action.kind === 'check') return `Check: ${checkLabel(action.check, action.at)}`
  if (action.kind === 'hand-back') return 'Hand it back as repaired: nothing more pays by what is known.'
  if (action.kind === 'run-again') return 'Run the memory test.'
  if (action.kind === 'put-right') return `Put right ${someOf(action.names, 4)}, and run the test.`
  return `Lift ${someOf(action.refs, 6)}, and run the test.`
}

/** What a check told, from what is known since. */
function checkTold(model: BoardModel, { check, at }: Extract<Action, { kind: 'check' }>, before: Known, after: Known) {
  const read = after.measurements.slice(before.measurements.length)
  if (read.length > 0) return readTogetherWords(model, after, read).join(' ')
  const entry = checkById(check)
  if (entry === undefined || entry.evidence === 'rail' || entry.evidence === 'stage')
    return `${checkLabel(check, at)} It told nothing new.`
  const answer = after.checks.length > before.checks.length ? after.checks.at(-1)?.found : undefined
  const found = answer ?? after.areas.at(-1)?.kind === 'residue'
  return checkWords(found ? entry.found : entry.notFound, at)
}
