/** What the proof station holds and still lacks. */
import type { Case } from '../../case/index.ts'
import type { StationState } from './stationStates.ts'

export function proofState({ reports }: Case): StationState {
  const retests = reports.filter(({ run }) => run === 'retest').length
  const shared = { station: 'proof', name: 'Proof' } as const
  return retests === 0
    ? { ...shared, state: 'empty', words: 'not tested again yet', lacks: undefined }
    : { ...shared, state: 'partly', words: `${retests} runs after the work`, lacks: undefined }
}
