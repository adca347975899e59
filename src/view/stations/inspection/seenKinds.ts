/** What can be seen on a board and marked, in words. */
import { say } from '../../../base/index.ts'
import type { MarkKind } from '../../stores/toolStore.ts'
import { type Mark, mannerOf, sizeOfArea } from '../../../spill/index.ts'

export type SeenKind = MarkKind

export const seenKinds: readonly { readonly value: SeenKind; readonly words: string; readonly help: string }[] = [
  { value: 'residue', words: say('Residue'), help: say('dried or sticky') },
  { value: 'film', words: say('Film'), help: say('wet or greasy') },
  { value: 'corrosion', words: say('Corrosion'), help: say('corroded, green or black') },
  { value: 'clean', words: say('Clean spot'), help: say('looked, nothing there') },
  { value: 'slip', words: say('Tool slip'), help: say('scratched, knocked') },
]

export const seenMarks = (marks: readonly Mark[]): Mark[] =>
  marks.filter((mark) => mark.kind !== 'spill' && mark.kind !== 'dam')

export const nameOfSeen = (mark: Mark): string =>
  seenKinds.find((kind) => kind.value === mark.kind)?.words ?? say('Note')

/** How a painted mark came about and how large it is; undefined for a circle, whose radius says it. */
export function paintedWords(mark: Mark): string | undefined {
  if (mark.kind === 'spill' || mark.kind === 'dam' || mark.kind === 'note' || mark.kind === 'slip') return undefined
  const manner = mannerOf(mark)
  if (manner === 'circle') return undefined
  const size = say('{mark} mm²', { mark: Math.max(1, Math.round(sizeOfArea(mark))) })
  return manner === 'brush'
    ? say('Painted by brush, about {size}.', { size })
    : say('Drawn by lasso, {size}.', { size })
}
