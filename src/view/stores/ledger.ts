/**
 * What this browser keeps beside the shelf, in a few hundred bytes: what lies on it by name, so that a loss can be told, and
 * which cases are to be exported because the storage failed.
 */
import { z } from 'zod'

const namedSchema = z.object({ id: z.string(), title: z.string() })
const owedSchema = z.object({ id: z.string(), why: z.string() })
const pageSchema = z.object({
  /** What the shelf with these cases is called by itself. */
  stamp: z.string().optional(),
  kept: z.array(namedSchema),
  /** Gone with a shelf that the browser dropped, until somebody has read it. */
  lost: z.array(namedSchema),
  /** Cases that were refused once and not exported since. */
  owed: z.array(owedSchema),
  /** Where copies were written to. */
  folder: z.string().optional(),
})

export type NamedCase = z.infer<typeof namedSchema>
/** A case that the storage refused once, and why. */
export type OwedExport = z.infer<typeof owedSchema>
export type LedgerPage = z.infer<typeof pageSchema>

export interface Ledger {
  readonly read: () => LedgerPage
  readonly write: (page: LedgerPage) => void
}

const KEY = 'liftmap ledger'
const emptyPage: LedgerPage = { kept: [], lost: [], owed: [] }

/** @param storage left out, it lasts as long as the page */
export function ledgerIn(storage?: Pick<Storage, 'getItem' | 'setItem'>): Ledger {
  let memory = emptyPage
  return {
    read: () => {
      try {
        const text = storage?.getItem(KEY)
        return typeof text === 'string' ? pageSchema.parse(JSON.parse(text)) : memory
      } catch {
        return memory
      }
    },
    write: (page) => {
      memory = page
      try {
        storage?.setItem(KEY, JSON.stringify(page))
      } catch {
        // full or forbidden: it lasts as long as the page
      }
    },
  }
}

/** What the shelf says of itself. */
export interface ShelfNow {
  readonly stamp: string | undefined
  readonly kept: readonly NamedCase[]
}

/** A stamp that could not be read tells nothing. */
export const isDropped = (before: string | undefined, now: string | undefined): boolean =>
  before !== undefined && now !== undefined && before !== now

/** A shelf with another stamp is another shelf: what lay on the last one is lost, unless it came back since. */
export function entered(page: LedgerPage, { stamp, kept }: ShelfNow): LedgerPage {
  const dropped = isDropped(page.stamp, stamp)
  const there = new Set(kept.map(({ id }) => id))
  const gone = new Map([...page.lost, ...(dropped ? page.kept : [])].map((named) => [named.id, named]))
  const lost = [...gone.values()].filter(({ id }) => !there.has(id))
  return { ...page, stamp: stamp ?? page.stamp, kept: [...kept], lost }
}
