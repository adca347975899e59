/** How reports speak of the board of a case: what their names mean, and how they are read. It lies in the case's board. */
import type { BoardDescription, BoardModel } from '../../board/index.ts'
import type { Case } from '../../case/index.ts'
import {
  type ForeignNames,
  keepReading,
  type KeptReading,
  keptReadings,
  nameConflicts,
  readingOf,
  type Recipe,
  withReadings,
} from '../../report/index.ts'

/** The board of a case as it is now: with the words that were told since it was opened. */
export const descriptionOf = (present: Pick<Case, 'board'>, model: BoardModel): BoardDescription =>
  'inline' in present.board ? present.board.inline : model.description

export const wordsOf = (present: Pick<Case, 'board'>, model: BoardModel): KeptReading[] =>
  keptReadings(descriptionOf(present, model))

export function withWords(present: Case, model: BoardModel, words: readonly KeptReading[]): Case {
  if (sameWords(words, wordsOf(present, model))) return present
  return { ...present, board: { inline: withReadings(descriptionOf(present, model), words) } }
}

export const sameWords = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)

/** What one kind of report says, added or put in place of what it said. */
export interface Told {
  /** The report that it was told about, and its day. */
  readonly title: string
  /** The beginning of its text. */
  readonly sample: string
}

/** @param names all that are known; none takes back what was told */
export function wordsWithNames(
  words: readonly KeptReading[],
  { title, sample }: Told,
  names: ForeignNames,
): KeptReading[] {
  const kept = keepReading(words, readingOf(title, sample, { names }))
  if (Object.keys(names).length > 0) return kept
  return kept.flatMap(({ names: own, ...rest }, i) =>
    i < kept.length - 1
      ? [{ ...rest, ...(own === undefined ? {} : { names: own }) }]
      : rest.recipe === undefined
        ? []
        : [rest],
  )
}

/** Its names stay what they were: a recipe says how lines are cut, the names what is meant. */
export function wordsWithRecipe(words: readonly KeptReading[], { title, sample }: Told, recipe: Recipe): KeptReading[] {
  const { names: _, ...bare } = recipe
  return keepReading(words, readingOf(title, sample, { recipe: bare }))
}

export const wordsWithout = (words: readonly KeptReading[], gone: KeptReading): KeptReading[] =>
  words.filter((one) => !sameWords(one, gone))

/** Words of elsewhere put under one's own: where both speak of one kind of report, one's own count. Of another board: none. */
export function wordsUnder(
  own: readonly KeptReading[],
  others: readonly KeptReading[],
  model: BoardModel,
): KeptReading[] {
  const fitting = others.filter(({ names = {} }) => !nameConflicts(names, model).some(({ isStranger }) => isStranger))
  return [...fitting, ...own].reduce<KeptReading[]>((list, one) => keepReading(list, one), [])
}
