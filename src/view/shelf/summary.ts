/** What the list of cases shows of one, taken from the case. */
import type { Case, History } from '../../case/index.ts'
import type { Station } from '../stores/screenStore.ts'
import type { ShelfEntry } from './caseShelf.ts'

export type Summary = Omit<ShelfEntry, 'id' | 'createdAt' | 'changedAt' | 'archived' | 'rev' | 'newer'>

const MAX_WORDS = 4000

export function summaryOf(present: Case, boardName: string): Summary {
  const { title, card, demo, goodCard, arrival, handBack } = present
  const words = [title, card, arrival.owner, boardName, arrival.seen, arrival.account, handBack.outcome]
  return {
    title,
    ...(card === undefined ? {} : { card }),
    owner: arrival.owner,
    boardName,
    demo,
    goodCard,
    ...(handBack.outcome === undefined ? {} : { outcome: handBack.outcome }),
    ...(arrival.on === undefined ? {} : { arrivedOn: arrival.on }),
    furthest: furthestStation(present),
    words: words
      .filter((word) => word !== undefined && word !== '')
      .join(' ')
      .toLowerCase()
      .slice(0, MAX_WORDS),
  }
}

/** The last of the ten stations at which something was entered. */
export function furthestStation(present: Case): Station {
  return entered.find(([, has]) => has(present))?.[0] ?? 'arrival'
}

const isSpill = (kind: string): boolean => kind === 'spill' || kind === 'dam'

/** From the last station to the first. */
const entered: readonly (readonly [Station, (c: Case) => boolean])[] = [
  [
    'hand-back',
    ({ handBack: h }) => [h.on, h.outcome, h.minutes, h.charged].some((v) => v !== undefined) || h.done !== '',
  ],
  ['proof', (c) => c.proofNote !== '' || c.reports.some((report) => report.run === 'retest')],
  ['plan', (c) => c.passes.length + c.floorLife.length + c.shields.length > 0],
  ['suspects', (c) => c.checks.length > 0],
  ['spill', (c) => c.marks.some((mark) => isSpill(mark.kind))],
  ['inspection', (c) => c.photos.length > 0 || c.marks.some((mark) => !isSpill(mark.kind))],
  ['memory-run', (c) => c.reports.length > 0],
  ['powered-measuring', (c) => c.powerUps.length > 0 || c.measurements.some(({ quantity }) => quantity === 'volts')],
  ['cold-measuring', (c) => c.shorts.length > 0 || c.measurements.length > 0],
]

/** Photos and long reports that a case and its undo steps name: these are kept, others may go. */
export function filesOf({ present, past, future }: History<Case>): string[] {
  const ids = new Set<string>()
  for (const state of [present, ...past, ...future]) {
    for (const photo of state.photos) ids.add(photo.id)
    for (const report of state.reports) if (report.path !== undefined) ids.add(report.path)
  }
  return [...ids]
}
