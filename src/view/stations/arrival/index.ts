/** The station where the card comes in: what it does, what happened, how it was mounted, whether it was powered since. */
import { someOf } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { shortMountingWords } from '../../../spill/index.ts'
import { later } from '../../controls/later.tsx'
import { boardOverlays } from '../boardOverlays.ts'
import type { Held, StationEntry } from '../entry.ts'

export const arrival: StationEntry = {
  name: 'Arrival',
  key: '1',
  Form: later(async () => (await import('./Arrival.tsx')).Arrival),
  state: ({ present }) => filledIn(present),
  overlays: boardOverlays,
  showsLiftList: true,
}

function filledIn({ arrival: { accident, mounted, poweredSince, seen } }: Case): Held {
  const lacking = [
    ...(seen === '' ? ['what it does'] : []),
    ...(accident === 'unknown' ? ['what happened'] : []),
    ...(mounted === 'unknown' ? ['how it was mounted'] : []),
    ...(poweredSince === 'unknown' ? ['if it was powered since'] : []),
  ]
  const held = [
    ...(accident === 'unknown' ? [] : [shortAccident[accident]]),
    ...(mounted === 'unknown' ? [] : [shortMountingWords[mounted]]),
  ]
  return {
    state: lacking.length === 0 ? 'done' : held.length === 0 ? 'empty' : 'partly',
    words: held.length === 0 ? 'nothing yet' : held.join(', '),
    lacks: lacking.length === 0 ? undefined : `lacks ${someOf(lacking, 2)}`,
  }
}

const shortAccident: Record<Exclude<Case['arrival']['accident'], 'unknown'>, string> = {
  spill: 'spill',
  flux: 'flux left behind',
  slip: 'tool slip',
  none: 'no accident',
}
