/** One's own boards in their versions: what is asked of the shelf, and what a version is when it comes back from storage. */
import { z } from 'zod'
import { bad, type Fault, faultsFromZod, good, type Result, say } from '../../base/index.ts'
import { type BoardDescription, boardSchema } from '../../board/index.ts'

export interface BoardVersion {
  /** From 1 on; a version never changes once it is kept. */
  readonly number: number
  /** Milliseconds since 1970. */
  readonly at: number
  /** Who made it, as they call themselves; empty where nobody said. */
  readonly who: string
  /** What changed against the version before, in sentences. */
  readonly changed: readonly string[]
  readonly description: BoardDescription
}

export interface KeptBoard {
  readonly id: string
  /** The earliest first; never empty. */
  readonly versions: readonly BoardVersion[]
}

export interface KeptBoards {
  readonly boards: readonly KeptBoard[]
  /** Versions that lie there but can't be read; they stay as they are. */
  readonly faults: readonly Fault[]
}

export type NewVersion = Omit<BoardVersion, 'number'>

export interface VersionsToKeep {
  /** Left out: a board that the shelf does not have yet. */
  readonly board?: string
  /** Number of the version that the change started from; 0 for a new board. */
  readonly basedOn: number
  /** In their order; they get the next numbers. */
  readonly versions: readonly NewVersion[]
}

export type KeepOutcome =
  | { readonly kind: 'kept'; readonly board: string; readonly number: number }
  /** Somebody else kept a version meanwhile: nothing was written. */
  | { readonly kind: 'changed-elsewhere' }

/** A fault of any of these says in words what is wrong with the storage. */
export interface BoardShelf {
  /** All boards, the last changed first. */
  list(): Promise<Result<KeptBoards>>
  /** Writes all of them or none; nothing that is kept is ever written over. */
  keep(what: VersionsToKeep): Promise<Result<KeepOutcome>>
  /**
   * Takes a whole board away, or one of its earlier versions; cases keep their board as they have it. Refuses the last
   * version alone, whose number would be given out again.
   */
  remove(what: VersionsToRemove): Promise<Result<void>>
}

export interface VersionsToRemove {
  readonly board: string
  /** Left out: all of them. */
  readonly number?: number
}

export const lastVersionStays: Fault = {
  path: say('the last version'),
  found: say('no later one'),
  expected: say('an earlier version, or the whole board'),
  todo: say('Delete the board, or keep a newer version first.'),
}

/** A version as it lies in the database. */
export interface VersionRecord extends BoardVersion {
  /** Id of the board. */
  readonly board: string
}

const recordSchema = z.object({
  board: z.string(),
  number: z.int().positive(),
  at: z.number().catch(0),
  who: z.string().catch(''),
  changed: z.array(z.string()).catch([]),
  description: boardSchema,
})

/** A version out of storage, or why it can't be read. */
export function readVersion(raw: unknown): Result<VersionRecord> {
  const parsed = recordSchema.safeParse(raw)
  if (parsed.success) return good(parsed.data)
  const named = z.object({ board: z.string(), number: z.number() }).safeParse(raw)
  const path = named.success
    ? say('version {number} of a board of yours', { number: named.data.number })
    : say('a board of yours')
  return bad(
    ...faultsFromZod(parsed.error, raw)
      .slice(0, 1)
      .map((fault) => ({ ...fault, path: `${path} ${fault.path}` })),
  )
}

export const latestOf = ({ versions }: KeptBoard): BoardVersion => {
  const last = versions.at(-1)
  if (last === undefined) throw new Error('a kept board without a version')
  return last
}

/** Versions of all boards in any order, as boards. */
export function boardsFrom(records: readonly VersionRecord[]): KeptBoard[] {
  const byBoard = new Map<string, BoardVersion[]>()
  for (const { board, ...version } of records.toSorted((a, b) => a.number - b.number))
    byBoard.set(board, [...(byBoard.get(board) ?? []), version])
  return [...byBoard].map(([id, versions]) => ({ id, versions })).toSorted((a, b) => latestOf(b).at - latestOf(a).at)
}

/** The records of new versions, numbered on from the one that they are based on. */
export const recordsOf = (board: string, { basedOn, versions }: VersionsToKeep): VersionRecord[] =>
  versions.map((version, i) => ({ ...version, board, number: basedOn + 1 + i }))

/** The same text for the same board. How reports speak of it is learnt from case to case, and makes no other board of it. */
export const contentOf = (board: BoardDescription): string =>
  JSON.stringify({ ...board, reportWords: undefined, $schema: undefined })
