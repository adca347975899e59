/** The station of the proof: tested again, before beside after. */
import { say } from '../../../base/index.ts'
import { later } from '../../controls/later.tsx'
import type { Held, Known, StationEntry } from '../entry.ts'
import { readingLack } from '../memory-run/readingLack.ts'
import { proofState } from './state.ts'

export const proof: StationEntry = {
  name: say('Proof'),
  key: '9',
  Form: later(async () => (await import('./Proof.tsx')).Proof),
  state: filledIn,
  overlays: {
    id: 'proof',
    shown: { errorLoad: true, reach: false, field: false, liftOrder: false, labels: true, proof: true },
    without: ['passes', 'heat', 'short', 'field', 'liftOrder'],
  },
  showsLiftList: false,
}

function filledIn(known: Known): Held {
  const state = proofState(known.present, known.proof)
  const unread = readingLack(known, 'retest')
  return state.state === 'done' && unread !== undefined ? { ...state, state: 'partly', lacks: unread } : state
}
