/** The invented boards that come with the app, each read when it is first shown. */
import { useEffect, useState } from 'react'
import { type BoardModel, readBoard } from '../../board/index.ts'
import { useDesk } from '../stores/hooks.ts'
import type { Shelf } from '../stores/shelf.ts'

export interface Example {
  /** Of the file. */
  readonly file: string
  readonly name: string
  /** Undefined until it is read. */
  readonly model: BoardModel | undefined
}

const readBefore = new WeakMap<Shelf, Map<string, BoardModel>>()

export const boardNameOf = (file: string): string => file.replace(/(\.board)?\.json$/, '')

export function useExamples(): readonly Example[] {
  const { shelf } = useDesk()
  const [models, setModels] = useState<ReadonlyMap<string, BoardModel>>(() => new Map(readBefore.get(shelf)))
  useEffect(() => {
    let ended = false
    const read = async (): Promise<void> => {
      const known = readBefore.get(shelf) ?? new Map<string, BoardModel>()
      readBefore.set(shelf, known)
      for (const file of shelf.boards) {
        if (known.has(file)) continue
        const text = await (await shelf.open(file))?.text()
        if (ended) return
        const board = text === undefined ? undefined : readBoard(text)
        if (board?.ok !== true) continue
        known.set(file, board.value)
        setModels(new Map(known))
      }
    }
    void read()
    return () => {
      ended = true
    }
  }, [shelf])
  return shelf.boards.map((file) => ({ file, name: boardNameOf(file), model: models.get(file) }))
}
