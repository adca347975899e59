/** What the list of cases shows of one, taken from the case. */
import { say } from '../../base/index.ts'
import {
  askAfter,
  type Case,
  codeWords,
  furthestStation,
  type History,
  intakeOf,
  visitState,
} from '../../case/index.ts'
import { substanceOf } from '../../spill/index.ts'
import type { ShelfEntry } from './caseShelf.ts'

export type Summary = Omit<ShelfEntry, 'id' | 'createdAt' | 'changedAt' | 'archived' | 'rev' | 'newer'>

const MAX_WORDS = 4000

export function summaryOf(present: Case, boardName: string): Summary {
  const { title, card, demo, goodCard, arrival, handBack } = present
  const { code, due, model, serial } = intakeOf(present)
  const askedAfter = demo ? undefined : askAfter(present)
  const words = [
    title,
    card,
    ...(code === undefined ? [] : [code, codeWords(code)]),
    serial,
    model,
    arrival.owner,
    boardName,
    arrival.seen,
    arrival.account,
    handBack.outcome,
    ...searched(present),
  ]
  return {
    title,
    ...(card === undefined ? {} : { card }),
    owner: arrival.owner,
    boardName,
    demo,
    goodCard,
    ...(handBack.outcome === undefined ? {} : { outcome: handBack.outcome }),
    ...(arrival.on === undefined ? {} : { arrivedOn: arrival.on }),
    ...(due === undefined ? {} : { dueOn: due }),
    ...(code === undefined ? {} : { code }),
    ...(askedAfter === undefined ? {} : { askAfter: askedAfter }),
    furthest: furthestStation(present),
    visit: visitState(present),
    words: words
      .filter((word) => word !== undefined && word !== '')
      .join(' ')
      .toLowerCase()
      .slice(0, MAX_WORDS),
  }
}

const accidentWords: Record<Case['arrival']['accident'], string> = {
  spill: say('something was spilled'),
  flux: say('flux was left behind'),
  slip: say('a tool slipped'),
  none: say('no accident'),
  unknown: say('not known'),
}

/** The accident and the substances too, so that "coolant" or "slip" finds a case. */
const searched = ({ arrival, marks, substances }: Case): string[] => [
  accidentWords[arrival.accident],
  ...marks.flatMap((mark) =>
    mark.kind === 'spill' ? [substanceOf(mark.substance, substances)?.name ?? mark.substance] : [],
  ),
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
