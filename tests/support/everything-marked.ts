/** A made-up language that sets every message between brackets: what stands outside of them was not said through `say`. */
import type { Catalogue } from '../../src/base/index.ts'
import { messagesByPage } from './words.ts'

export const everythingMarked = (): Catalogue =>
  Object.fromEntries([...messagesByPage().keys()].map((message) => [message, `⟦${message}⟧`]))

/** What is left of a text when all that was said is taken out. */
export function outsideOfMarks(text: string): string {
  let depth = 0
  let rest = ''
  for (const character of text) {
    if (character === '⟦') depth += 1
    else if (character === '⟧') depth -= 1
    else if (depth === 0) rest += character
  }
  return rest
}
