/** What the hand-back station holds and still lacks. */
import type { Case } from '../../case/index.ts'
import type { StationState } from './stationStates.ts'

export function handBackState({ handBack }: Case): StationState {
  const shared = { station: 'hand-back', name: 'Hand-back' } as const
  return handBack.outcome === undefined
    ? { ...shared, state: 'empty', words: 'not handed back', lacks: undefined }
    : { ...shared, state: 'done', words: handBack.outcome, lacks: undefined }
}
