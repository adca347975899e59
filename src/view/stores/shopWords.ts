/**
 * How reports speak of boards, kept by this browser: what was said on one card of a board is known on the next card of it.
 * What is in force for a case lies in the case's own board; this is where a new case takes it from.
 */
import { z } from 'zod'
import { type KeptReading, keptReadingSchema } from '../../report/index.ts'

export interface ShopWords {
  /** Of a board by its name, the latest last; none where nothing is kept or it can't be read. */
  readonly of: (board: string) => readonly KeptReading[]
  readonly keep: (board: string, readings: readonly KeptReading[]) => void
}

export function shopWordsInMemory(): ShopWords {
  const kept = new Map<string, readonly KeptReading[]>()
  return { of: (board) => kept.get(board) ?? [], keep: (board, readings) => void kept.set(board, readings) }
}

const listSchema = z.array(z.unknown())
const keyOf = (board: string): string => `liftmap report words: ${board}`

/** A browser that stores nothing loses them with the page; a reading that can't be read is left out. */
export function shopWordsIn(storage: Pick<Storage, 'getItem' | 'setItem'> | undefined): ShopWords {
  const memory = shopWordsInMemory()
  if (storage === undefined) return memory
  return {
    of: (board) => {
      try {
        const list = listSchema.parse(JSON.parse(storage.getItem(keyOf(board)) ?? '[]'))
        return list.flatMap((one) => keptReadingSchema.safeParse(one).data ?? [])
      } catch {
        return memory.of(board)
      }
    },
    keep: (board, readings) => {
      memory.keep(board, readings)
      try {
        storage.setItem(keyOf(board), JSON.stringify(readings))
      } catch {
        // full or forbidden: they last as long as the page
      }
    },
  }
}
