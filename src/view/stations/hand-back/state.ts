/** What the hand-back station holds and still lacks. */
import { someOf, say } from '../../../base/index.ts'
import { type Case, chargedOf, isDeclined, outcomeWords } from '../../../case/index.ts'
import type { Held } from '../entry.ts'

export function handBackState({ handBack, invoice, quote }: Pick<Case, 'handBack' | 'invoice' | 'quote'>): Held {
  // nobody asks for hours or a price of work that the owner did not want
  const declined = isDeclined({ quote })
  const lacking = [
    ...(handBack.outcome === undefined ? [say('the outcome')] : []),
    ...(handBack.on === undefined ? [say('the day')] : []),
    ...(handBack.done === '' ? [say('what was done')] : []),
    ...(handBack.minutes === undefined && invoice === undefined && !declined ? [say('the hours')] : []),
    ...(chargedOf({ handBack, invoice }) === undefined && !declined ? [say('the price')] : []),
  ]
  const held = ALL - lacking.length
  const words =
    handBack.outcome === undefined
      ? held === 0
        ? say('not handed back')
        : say('being written')
      : outcomeWords[handBack.outcome]
  if (held === 0) return { state: 'empty', words, lacks: undefined }
  return lacking.length === 0
    ? { state: 'done', words, lacks: undefined }
    : { state: 'partly', words, lacks: say('lacks {lacking}', { lacking: someOf(lacking, 2) }) }
}

const ALL = 5
