/** Tells this tab and the others what changed on the shelf. */
import { z } from 'zod'
import type { ShelfChange } from './caseShelf.ts'

const messageSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('saved'), id: z.string(), rev: z.number() }),
  z.object({ kind: z.literal('deleted'), id: z.string() }),
  z.object({ kind: z.literal('listed'), id: z.string() }),
  z.object({ kind: z.literal('own-record') }),
  z.object({ kind: z.literal('own-boards') }),
  z.object({ kind: z.literal('stock') }),
])

export interface ShelfChannel {
  readonly tell: (change: ShelfChange) => void
  /** Not to the other tabs. */
  readonly tellHere: (change: ShelfChange) => void
  readonly subscribe: (onChange: (change: ShelfChange) => void) => () => void
  readonly close: () => void
}

export function shelfChannel(name: string): ShelfChannel {
  const listeners = new Set<(change: ShelfChange) => void>()
  const others = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel(`${name} shelf`)
  const tellHere = (change: ShelfChange): void => {
    for (const listener of listeners) listener(change)
  }
  others?.addEventListener('message', (event: MessageEvent<unknown>) => {
    const message = messageSchema.safeParse(event.data)
    if (message.success) tellHere({ ...message.data, elsewhere: true })
  })
  return {
    tellHere,
    tell: (change) => {
      tellHere(change)
      others?.postMessage(change)
    },
    subscribe: (onChange) => {
      listeners.add(onChange)
      return () => listeners.delete(onChange)
    },
    close: () => {
      listeners.clear()
      others?.close()
    },
  }
}
