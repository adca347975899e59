/** The station of the memory test's reports: how each is read, what could not be, and what they come to. */
import { say } from '../../../base/index.ts'
import { later } from '../../controls/later.tsx'
import { countTally } from '../../stores/derive.ts'
import { boardOverlays } from '../boardOverlays.ts'
import type { Held, Known, StationEntry } from '../entry.ts'
import { readingLack } from './readingLack.ts'

export const memoryRun: StationEntry = {
  name: say('Memory run'),
  key: '4',
  Form: later(async () => (await import('./MemoryRun.tsx')).MemoryRun),
  state: filledIn,
  overlays: boardOverlays,
  showsLiftList: true,
}

function filledIn(known: Known): Held {
  const { present, tally, readings } = known
  if (present.reports.some(({ id, run }) => run === 'first' && readings.get(id)?.state === 'reading'))
    return { state: 'partly', words: say('reading a report'), lacks: undefined }
  const lacks = readingLack(known, 'first')
  if (tally === undefined) return { state: 'empty', words: say('nothing yet'), lacks: lacks ?? say('lacks a report') }
  const { failing, clean, untestedLanes } = countTally(tally)
  return {
    state: untestedLanes === 0 && lacks === undefined ? 'done' : 'partly',
    words: say('{length, plural, one {# package fails} other {# packages fail}}, {length2} clean', {
      length: failing.length,
      length2: clean.length,
    }),
    lacks:
      lacks ??
      (untestedLanes === 0
        ? undefined
        : say('{untestedLanes, plural, one {# lane} other {# lanes}} untested', { untestedLanes })),
  }
}
