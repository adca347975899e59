/** The station where the card comes in: what it does, what happened, how it was mounted, whether it was powered since. */
import { someOf, say } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { shortMountingWords } from '../../../spill/index.ts'
import { later } from '../../controls/later.tsx'
import { boardOverlays } from '../boardOverlays.ts'
import type { Held, StationEntry } from '../entry.ts'

export const arrival: StationEntry = {
  name: say('Arrival'),
  key: '1',
  Form: later(async () => (await import('./Arrival.tsx')).Arrival),
  state: ({ present }) => filledIn(present),
  overlays: boardOverlays,
  showsLiftList: true,
}

function filledIn({ arrival: { accident, mounted, poweredSince, seen } }: Case): Held {
  const lacking = [
    ...(seen === '' ? [say('what it does')] : []),
    ...(accident === 'unknown' ? [say('what happened')] : []),
    ...(mounted === 'unknown' ? [say('how it was mounted')] : []),
    ...(poweredSince === 'unknown' ? [say('if it was powered since')] : []),
  ]
  const held = [
    ...(accident === 'unknown' ? [] : [shortAccident[accident]]),
    ...(mounted === 'unknown' ? [] : [shortMountingWords[mounted]]),
  ]
  return {
    state: lacking.length === 0 ? 'done' : held.length === 0 ? 'empty' : 'partly',
    words: held.length === 0 ? say('nothing yet') : held.join(', '),
    lacks: lacking.length === 0 ? undefined : say('lacks {lacking}', { lacking: someOf(lacking, 2) }),
  }
}

const shortAccident: Record<Exclude<Case['arrival']['accident'], 'unknown'>, string> = {
  spill: say('spill'),
  flux: say('flux left behind'),
  slip: say('tool slip'),
  none: say('no accident'),
}
