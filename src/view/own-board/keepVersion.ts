/** A board as it was edited becomes the next version on the shelf, told by what changed. */
import { bad, type Fault, type Result, say } from '../../base/index.ts'
import { type BoardDescription, compareBoards, loadBoard, sayComparison } from '../../board/index.ts'
import { type KeptBoard, type KeepOutcome, latestOf, type NewVersion } from '../shelf/boardShelf.ts'
import type { Desk } from '../stores/desk.ts'

/** A board of one's own: kept in versions, or so far only inside cases. */
export interface BoardSubject {
  readonly kept: KeptBoard | undefined
  /** As its latest version or the last case on it has it. */
  readonly description: BoardDescription
  /** When a case on it was changed last, in milliseconds since 1970. */
  readonly changedAt: number
  /** How many cases stand on which version; those of a board that is not kept stand on its first. */
  readonly cases: ReadonlyMap<number, number>
}

export interface WhatToKeep {
  readonly subject: BoardSubject
  readonly board: BoardDescription
  readonly who: string
  /** In the user's own words; empty where the comparison says enough. */
  readonly note: string
}

/** A board that was in cases alone is kept as its first version too, so that nothing of it is lost. */
export async function keepVersion(desk: Desk, { subject, board, who, note }: WhatToKeep): Promise<Result<KeepOutcome>> {
  const loaded = loadBoard(board)
  if (!loaded.ok) return loaded
  const { kept, description: before } = subject
  const changed = sayComparison(
    compareBoards(kept === undefined ? before : latestOf(kept).description, loaded.value.description),
  )
  const next: NewVersion = {
    at: Date.now(),
    who: who.trim(),
    changed: note.trim() === '' ? changed : [note.trim(), ...changed],
    description: loaded.value.description,
  }
  const first: NewVersion = {
    at: subject.changedAt,
    who: '',
    changed: [say('As the cases before have it.')],
    description: before,
  }
  const outcome = await desk.caseShelf.boards.keep(
    kept === undefined
      ? { basedOn: 0, versions: [first, next] }
      : { board: kept.id, basedOn: latestOf(kept).number, versions: [next] },
  )
  return outcome.ok && outcome.value.kind === 'changed-elsewhere' ? bad(keptElsewhere) : outcome
}

const keptElsewhere: Fault = {
  path: say('this board'),
  found: say('a version that was kept in another tab meanwhile'),
  expected: say('the version that the change started from'),
  todo: say('Export what you made, then open the board again and compare.'),
}

const WHO = 'liftmap board editor'

/** Who made the last version in this browser: typed once. */
export function lastWho(): string {
  try {
    return localStorage.getItem(WHO) ?? ''
  } catch {
    return ''
  }
}

export function rememberWho(who: string): void {
  try {
    localStorage.setItem(WHO, who)
  } catch {
    // typed again next time
  }
}
