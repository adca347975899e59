/** A quote that was declined: what the hand-back is filled in with, so that nothing is left to ask. */
import { dayWords, say } from '../../base/index.ts'
import type { Case, HandBack } from '../schema.ts'

/** The owner said no to the work on this card. */
export const isDeclined = ({ quote }: Pick<Case, 'quote'>): boolean => quote?.answer === 'declined'

type DeclinedCase = Pick<Case, 'quote' | 'handBack' | 'intake' | 'passes'>

/**
 * Not repaired, with the fee that was agreed at the desk as the price. What was written and charged before stays as it is.
 * @param today the day, where the answer has none of its own
 */
export function declinedHandBack({ quote, handBack, intake, passes }: DeclinedCase, today: string): HandBack {
  const on = quote?.answeredOn ?? today
  const touched = passes.some(({ outcome }) => outcome !== 'skipped')
  const done = touched
    ? say('Diagnosis only; the repair was declined on {on}.', { on: dayWords(on) })
    : say('Diagnosis only; the repair was declined on {on}. Nothing was heated or changed.', { on: dayWords(on) })
  const fee = intake?.diagnosisFee
  return {
    ...handBack,
    outcome: handBack.outcome === 'not worth repairing' ? handBack.outcome : 'not repaired',
    on: handBack.on ?? today,
    done: handBack.done === '' ? done : handBack.done,
    ...(handBack.charged !== undefined || fee === undefined ? {} : { charged: fee }),
  }
}
