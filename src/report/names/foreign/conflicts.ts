/** What does not hold together in what foreign names are said to mean, in words. */
import type { BoardModel } from '../../../board/index.ts'
import { plainLabel } from '../labels.ts'
import { type ForeignNames, lanesOfMeaning, type Meaning, sayMeaning } from './meaning.ts'

export interface NameConflict {
  /** The names that it concerns. */
  readonly names: readonly string[]
  readonly sentence: string
  /** It is to mean something that the board does not have. */
  readonly isStranger: boolean
}

/** Conflicts of a set of names; none of them is settled here. */
export function nameConflicts(names: ForeignNames, model: BoardModel): NameConflict[] {
  const entries = Object.entries(names).map(([name, meaning]) => ({
    name,
    meaning,
    lanes: lanesOfMeaning(model, meaning),
  }))
  return [...entries.flatMap((entry) => ofOne(entry, model)), ...sameSpelling(entries), ...shared(entries, model)]
}

interface Entry {
  readonly name: string
  readonly meaning: Meaning
  readonly lanes: readonly string[]
}

function ofOne({ name, meaning, lanes }: Entry, model: BoardModel): NameConflict[] {
  const conflict = (sentence: string, isStranger = false): NameConflict[] => [{ names: [name], sentence, isStranger }]
  const plain = plainLabel(name)
  const ids = [meaning].flat()
  if (plain === '') return conflict(`${name} has neither letter nor digit.`)
  if (lanes.length === 0)
    return conflict(`${name} is to mean ${ids.join(', ')}, which ${model.name} does not have.`, true)
  const isOfBoard = [
    ...model.memories.map(({ ref }) => ref),
    ...model.channelById.keys(),
    ...model.laneById.keys(),
  ].some((id) => plainLabel(id) === plain)
  if (!isOfBoard || ids.some((id) => plainLabel(id) === plain)) return []
  return conflict(`${name} is to mean ${sayMeaning(model, meaning)}, but ${model.name} has a ${name} of its own.`)
}

/** Case, blanks and marks do not count in a report. */
function sameSpelling(entries: readonly Entry[]): NameConflict[] {
  return entries.flatMap(({ name }, i) =>
    entries
      .slice(i + 1)
      .filter((other) => plainLabel(other.name) === plainLabel(name))
      .map((other) => ({
        names: [name, other.name],
        sentence: `${name} and ${other.name} are read as one name.`,
        isStranger: false,
      })),
  )
}

function shared(entries: readonly Entry[], model: BoardModel): NameConflict[] {
  return entries.flatMap((one, i) =>
    entries.slice(i + 1).flatMap((other) => {
      const both = one.lanes.filter((id) => other.lanes.includes(id))
      const wholes = [one, other].filter(({ lanes }) => lanes.length === both.length).length
      // Many reports name a package and its halves beside each other.
      if (both.length === 0 || wholes === 1) return []
      const sentence =
        wholes === 2
          ? `${one.name} and ${other.name} both mean ${sayMeaning(model, one.meaning)}.`
          : `${one.name} and ${other.name} share ${both.join(', ')}.`
      return [{ names: [one.name, other.name], sentence, isStranger: false }]
    }),
  )
}
