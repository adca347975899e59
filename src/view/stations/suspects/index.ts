/** The station of the lift list: the stories behind it, what to look at next, and what is proposed. */
import { say } from '../../../base/index.ts'
import { later } from '../../controls/later.tsx'
import { boardOverlays } from '../boardOverlays.ts'
import type { Held, Known, StationEntry } from '../entry.ts'
import { readingLack } from '../memory-run/readingLack.ts'

export const suspects: StationEntry = {
  name: say('Suspects'),
  key: '7',
  Form: later(async () => (await import('./Suspects.tsx')).Suspects),
  state: filledIn,
  overlays: boardOverlays,
  showsLiftList: false,
}

function filledIn(known: Known): Held {
  const { tally, results } = known
  if (results.state === 'failed') return { state: 'partly', words: say('could not be worked out'), lacks: undefined }
  const unread = readingLack(known, 'first')
  if (tally === undefined)
    return { state: 'empty', words: say('nothing yet'), lacks: unread ?? say('lacks a memory run') }
  const suspectsFound = results.assessment?.suspects
  if (suspectsFound === undefined) return { state: 'partly', words: say('working it out'), lacks: undefined }
  const { lift } = suspectsFound
  return {
    state: unread === undefined ? 'done' : 'partly',
    words:
      lift.length === 0
        ? say('lift nothing')
        : say('lift {length, plural, one {# part} other {# parts}}', { length: lift.length }),
    lacks: unread,
  }
}
