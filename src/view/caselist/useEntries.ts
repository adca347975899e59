/** The entries of the shelf, read anew whenever something on it changes, here or in another tab. */
import { useEffect, useState } from 'react'
import type { Fault } from '../../base/index.ts'
import type { ShelfEntry } from '../shelf/caseShelf.ts'
import { useDesk } from '../stores/hooks.ts'

export interface Listed {
  /** Undefined until it was read for the first time. */
  readonly entries: readonly ShelfEntry[] | undefined
  readonly faults: readonly Fault[]
  /** When it was read, in milliseconds since 1970. */
  readonly readAt: number
}

export function useEntries(): Listed {
  const { caseShelf } = useDesk()
  const [listed, setListed] = useState<Listed>({ entries: undefined, faults: [], readAt: 0 })
  useEffect(() => {
    let asked = 0
    const read = async (): Promise<void> => {
      const number = ++asked
      const answer = await caseShelf.list()
      if (number !== asked) return
      const readAt = Date.now()
      setListed((before) =>
        answer.ok
          ? { entries: answer.value, faults: [], readAt }
          : { entries: before.entries, faults: answer.faults, readAt },
      )
    }
    void read()
    const end = caseShelf.subscribe(() => void read())
    return () => {
      asked = -1
      end()
    }
  }, [caseShelf])
  return listed
}
