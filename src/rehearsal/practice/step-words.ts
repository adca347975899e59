/** What was done or would be done, and what it told, in words. */
import { someOf, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { checkById, checkWords } from '../../suspects/index.ts'
import type { Action, Known } from '../scorecard/ask.ts'
import { readTogetherWords } from './outcome-words.ts'
import { workplaceSaid } from './place-words.ts'
import type { Step } from './rivals.ts'

const checkLabel = (id: string, at: string): string => checkWords(checkById(id)?.question ?? id, at)

/** What a step of Liftmap's told, as a noun phrase; without a full stop where it was no check. */
export function stepEvidenceWords(model: BoardModel, { action, before, after }: Step): string {
  if (action.kind === 'check') return checkTold(model, action, before, after)
  if (action.kind === 'run-again') return say('A run of the memory test')
  if (action.kind === 'put-right')
    return say('The run after {names} {length, plural, one {was} other {were}} put right', {
      names: someOf(action.names.map(workplaceSaid), 4),
      length: action.names.length,
    })
  return say('What lay under {refs}, with the run after it', { refs: someOf(action.refs, 5) })
}

/** The step as an order at the bench. */
export function stepWords(action: Action): string {
  if (action.kind === 'check') return say('Check: {check}', { check: checkLabel(action.check, action.at) })
  if (action.kind === 'hand-back') return say('Hand it back as repaired: nothing more pays by what is known.')
  if (action.kind === 'run-again') return say('Run the memory test.')
  if (action.kind === 'put-right')
    return say('Put right {names}, and run the test.', { names: someOf(action.names.map(workplaceSaid), 4) })
  return say('Lift {refs}, and run the test.', { refs: someOf(action.refs, 6) })
}

/** What a check told, from what is known since. */
function checkTold(model: BoardModel, { check, at }: Extract<Action, { kind: 'check' }>, before: Known, after: Known) {
  const read = after.measurements.slice(before.measurements.length)
  if (read.length > 0) return readTogetherWords(model, after, read).join(' ')
  const entry = checkById(check)
  if (entry === undefined || entry.evidence === 'rail' || entry.evidence === 'stage')
    return say('{check} It told nothing new.', { check: checkLabel(check, at) })
  const answer = after.checks.length > before.checks.length ? after.checks.at(-1)?.found : undefined
  const found = answer ?? after.areas.at(-1)?.kind === 'residue'
  return checkWords(found ? entry.found : entry.notFound, at)
}
