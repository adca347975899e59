/** The station where the card goes back: how it ended, what was done, what it cost, and the record. */
import { say } from '../../../base/index.ts'
import { later } from '../../controls/later.tsx'
import { boardOverlays } from '../boardOverlays.ts'
import type { StationEntry } from '../entry.ts'
import { handBackState } from './state.ts'

export const handBack: StationEntry = {
  name: say('Hand-back'),
  key: '0',
  Form: later(async () => (await import('./HandBack.tsx')).HandBack),
  state: ({ present }) => handBackState(present),
  overlays: boardOverlays,
  showsLiftList: false,
}
