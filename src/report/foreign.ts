/** Names that a report uses for parts and lanes and the board does not: found in its lines, and what they could mean. */
import type { BoardModel } from '../board/index.ts'
import { isOtherHeading, roleOfHeading } from './headings.ts'
import type { NameBook } from './names.ts'
import { type SampleLine, shapeOf } from './shapes.ts'
import { type Token, tokensOf } from './tokens.ts'

export interface ForeignName {
  /** As the report writes it: `C3 low`, `chip 7`. */
  readonly name: string
  /** What it could mean: the id of a part, channel or lane. A proposal by order, never taken without asking. */
  readonly proposal: string | undefined
}

const MOST_NAMES = 128
const LONGEST_NAME = 30
const MAX_LINES = 2000

/** The foreign names of a report in their order, with a proposal for each where their numbers suit the board. */
export function foreignNames(lines: readonly SampleLine[], model: BoardModel, book: NameBook): ForeignName[] {
  const groups = new Map<string, Set<string>>()
  for (const { text } of lines.slice(0, MAX_LINES)) {
    const name = nameIn(text, book)
    if (name === undefined) continue
    const { key } = shapeOf(text)
    groups.set(key, (groups.get(key) ?? new Set<string>()).add(name))
  }
  const [names] = [...groups.values()].toSorted((a, b) => b.size - a.size)
  if (names === undefined || names.size < 2 || names.size > MOST_NAMES) return []
  return proposed([...names], model)
}

/** What stands before the number of errors, where none of it is a name of the board. */
function nameIn(text: string, book: NameBook): string | undefined {
  const tokens = tokensOf(text)
  if (tokens.some((_, i) => book.at(tokens, i)?.whole === true)) return undefined
  const at = countAt(tokens)
  const before = tokens.slice(0, at).filter(({ kind }) => kind !== 'time')
  while (before.length > 0 && isTail(before.at(-1))) before.pop()
  const [first] = before
  const last = before.at(-1)
  if (at < 1 || first === undefined || last === undefined || !/^\p{L}/u.test(first.text)) return undefined
  if (!/\d/.test(first.text) && isOtherHeading(first.text)) return undefined
  const name = text.slice(first.from, last.to)
  return name.length <= LONGEST_NAME && /\d/.test(name) ? name : undefined
}

/** The last plain number, or the one that a word such as `errors` stands beside. */
function countAt(tokens: readonly Token[]): number {
  const told = tokens.findIndex(
    ({ kind }, i) =>
      kind === 'number' && [tokens[i - 2], tokens[i + 1]].some((one) => roleOfHeading(one?.text ?? '') === 'count'),
  )
  return told >= 0 ? told : tokens.findLastIndex(({ kind }) => kind === 'number')
}

const isTail = (token: Token | undefined): boolean =>
  token !== undefined && (token.kind === 'mark' || roleOfHeading(token.text) === 'count')

/** By number: as many as the board has parts or channels, counted from the smallest; `low` and `high` are two channels of a part. */
function proposed(names: readonly string[], model: BoardModel): ForeignName[] {
  const numbered = names.map((name) => ({
    name,
    number: Number(/\d+/.exec(name)?.[0] ?? Number.NaN),
    half: halfOf(name),
  }))
  const numbers = [...new Set(numbered.map(({ number }) => number))].toSorted((a, b) => a - b)
  const from = numbers[0] ?? 0
  const isRow = numbers.every((number, i) => number === from + i)
  const ids = !isRow
    ? undefined
    : numbers.length === model.memories.length
      ? model.memories.map((part) => part.ref)
      : numbers.length === model.channels.length
        ? model.channels.map((channel) => channel.id)
        : undefined
  return numbered.map(({ name, number, half }) => ({ name, proposal: halved(ids?.[number - from], half, model) }))
}

const halfOf = (name: string): 0 | 1 | undefined =>
  /\b(?:low|lower|lo)\b/i.test(name) ? 0 : /\b(?:high|upper|hi)\b/i.test(name) ? 1 : undefined

function halved(id: string | undefined, half: 0 | 1 | undefined, model: BoardModel): string | undefined {
  if (id === undefined || half === undefined) return id
  const channels = model.channels.filter((channel) => channel.parts.includes(id))
  if (channels.length === 2) return channels[half]?.id
  const lanes = model.channelById.get(id)?.lanes ?? []
  return lanes.length === 2 ? lanes[half] : undefined
}
