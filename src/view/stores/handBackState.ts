/** What the hand-back station holds and still lacks. */
import { someOf } from '../../base/index.ts'
import type { Case } from '../../case/index.ts'
import type { StationState } from './stationStates.ts'

export function handBackState({ handBack }: Pick<Case, 'handBack'>): StationState {
  const shared = { station: 'hand-back', name: 'Hand-back' } as const
  const lacking = [
    ...(handBack.outcome === undefined ? ['the outcome'] : []),
    ...(handBack.on === undefined ? ['the day'] : []),
    ...(handBack.done === '' ? ['what was done'] : []),
    ...(handBack.minutes === undefined ? ['the hours'] : []),
    ...(handBack.charged === undefined ? ['the price'] : []),
  ]
  const held = ALL - lacking.length
  const words = handBack.outcome ?? (held === 0 ? 'not handed back' : 'being written')
  if (held === 0) return { ...shared, state: 'empty', words, lacks: undefined }
  return lacking.length === 0
    ? { ...shared, state: 'done', words, lacks: undefined }
    : { ...shared, state: 'partly', words, lacks: `lacks ${someOf(lacking, 2)}` }
}

const ALL = 5
