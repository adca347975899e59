/** What does not hold together in what foreign names are said to mean, in words. */
import { say } from '../../../base/index.ts'
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
  if (plain === '') return conflict(say('{name} has neither letter nor digit.', { name }))
  if (lanes.length === 0)
    return conflict(
      say('{name} is to mean {ids}, which {board} does not have.', { name, ids: ids.join(', '), board: model.name }),
      true,
    )
  const isOfBoard = [
    ...model.memories.map(({ ref }) => ref),
    ...model.channelById.keys(),
    ...model.laneById.keys(),
  ].some((id) => plainLabel(id) === plain)
  if (!isOfBoard || ids.some((id) => plainLabel(id) === plain)) return []
  return conflict(
    say('{name} is to mean {model}, but {board} has a {name} of its own.', {
      name,
      model: sayMeaning(model, meaning),
      board: model.name,
    }),
  )
}

/** Case, blanks and marks do not count in a report. */
function sameSpelling(entries: readonly Entry[]): NameConflict[] {
  return entries.flatMap(({ name }, i) =>
    entries
      .slice(i + 1)
      .filter((other) => plainLabel(other.name) === plainLabel(name))
      .map((other) => ({
        names: [name, other.name],
        sentence: say('{name} and {other} are read as one name.', { name, other: other.name }),
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
          ? say('{name} and {other} both mean {model}.', {
              name: one.name,
              other: other.name,
              model: sayMeaning(model, one.meaning),
            })
          : say('{name} and {other} share {both}.', { name: one.name, other: other.name, both: both.join(', ') })
      return [{ names: [one.name, other.name], sentence, isStranger: false }]
    }),
  )
}
