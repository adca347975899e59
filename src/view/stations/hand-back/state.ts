/** What the hand-back station holds and still lacks. */
import { someOf } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import type { Held } from '../entry.ts'

export function handBackState({ handBack }: Pick<Case, 'handBack'>): Held {
  const lacking = [
    ...(handBack.outcome === undefined ? ['the outcome'] : []),
    ...(handBack.on === undefined ? ['the day'] : []),
    ...(handBack.done === '' ? ['what was done'] : []),
    ...(handBack.minutes === undefined ? ['the hours'] : []),
    ...(handBack.charged === undefined ? ['the price'] : []),
  ]
  const held = ALL - lacking.length
  const words = handBack.outcome ?? (held === 0 ? 'not handed back' : 'being written')
  if (held === 0) return { state: 'empty', words, lacks: undefined }
  return lacking.length === 0
    ? { state: 'done', words, lacks: undefined }
    : { state: 'partly', words, lacks: `lacks ${someOf(lacking, 2)}` }
}

const ALL = 5
