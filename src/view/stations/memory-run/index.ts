/** The station of the memory test's reports: how each is read, what could not be, and what they come to. */
import { counted } from '../../../base/index.ts'
import { later } from '../../controls/later.tsx'
import { countTally } from '../../stores/derive.ts'
import { boardOverlays } from '../boardOverlays.ts'
import type { Held, Known, StationEntry } from '../entry.ts'
import { readingLack } from './readingLack.ts'

export const memoryRun: StationEntry = {
  name: 'Memory run',
  key: '4',
  Form: later(async () => (await import('./MemoryRun.tsx')).MemoryRun),
  state: filledIn,
  overlays: boardOverlays,
  showsLiftList: true,
}

function filledIn(known: Known): Held {
  const { present, tally, readings } = known
  if (present.reports.some(({ id, run }) => run === 'first' && readings.get(id)?.state === 'reading'))
    return { state: 'partly', words: 'reading a report', lacks: undefined }
  const lacks = readingLack(known, 'first')
  if (tally === undefined) return { state: 'empty', words: 'nothing yet', lacks: lacks ?? 'lacks a report' }
  const { failing, clean, untestedLanes } = countTally(tally)
  return {
    state: untestedLanes === 0 && lacks === undefined ? 'done' : 'partly',
    words: `${counted(failing.length, 'package fails', 'packages fail')}, ${clean.length} clean`,
    lacks: lacks ?? (untestedLanes === 0 ? undefined : `${counted(untestedLanes, 'lane')} untested`),
  }
}
