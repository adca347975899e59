/** The invented boards that come with the app, each read when it is first shown. */
import { useEffect, useState } from 'react'
import { bad, sayFault, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Desk } from '../stores/desk.ts'
import { useDesk } from '../stores/hooks.ts'
import type { Shelf } from '../stores/shelf.ts'

/** A board that was read, or why it could not be. */
export type ReadBoard = { readonly model: BoardModel } | { readonly trouble: string }

export interface Example {
  /** Of the file. */
  readonly file: string
  readonly name: string
  /** Undefined until it is read. */
  readonly read: ReadBoard | undefined
}

/** What was read of each shelf, by file; what could not be read is tried again. */
const readBefore = new WeakMap<Shelf, ReadonlyMap<string, ReadBoard>>()

export const boardNameOf = (file: string): string => file.replace(/(\.board)?\.json$/, '')

export function useExamples(): readonly Example[] {
  const desk = useDesk()
  const { shelf } = desk
  const [known, setKnown] = useState<ReadonlyMap<string, ReadBoard>>(() => new Map(readBefore.get(shelf)))
  useEffect(() => {
    let ended = false
    const read = async (): Promise<void> => {
      for (const file of shelf.boards) {
        const before = readBefore.get(shelf)
        if (before?.has(file) === true) continue
        const found = await readExample(desk, file)
        if (ended) return
        setKnown((others) => new Map([...others, [file, found]]))
        if ('model' in found) readBefore.set(shelf, new Map([...(readBefore.get(shelf) ?? []), [file, found]]))
      }
    }
    void read()
    return () => {
      ended = true
    }
  }, [desk, shelf])
  return shelf.boards.map((file) => ({ file, name: boardNameOf(file), read: known.get(file) }))
}

async function readExample(desk: Desk, file: string): Promise<ReadBoard> {
  try {
    const text = await (await desk.shelf.open(file))?.text()
    const board =
      text === undefined
        ? bad({ path: file, found: say('nothing'), expected: say('a board that comes with the app') })
        : await desk.boards.read({ text })
    if (board.ok) return { model: board.value }
    return { trouble: board.faults.map(sayFault).slice(0, 1).join('') }
  } catch (reason) {
    return { trouble: reason instanceof Error ? reason.message : String(reason) }
  }
}
