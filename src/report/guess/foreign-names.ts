/** Names that a report uses for parts and lanes and the board does not: found in its lines, and what they could mean. */
import type { BoardModel } from '../../board/index.ts'
import { isOtherHeading, roleOfHeading } from '../names/headings.ts'
import type { NameBook } from '../names/names.ts'
import { groupingOf, readQuantity, verdictOf } from '../text/quantity.ts'
import { type SampleLine, shapeOf } from '../text/shapes.ts'
import { type Token, tokensOf } from '../text/tokens.ts'
import type { Trial } from './trial.ts'
import { type Mask, maskOf, nameOfBit } from '../names/foreign/mask.ts'
import type { Meaning } from '../names/foreign/meaning.ts'
import { namePatterns } from '../names/foreign/patterns.ts'

export interface ForeignName {
  /** As the report writes it: `C3 low`, `chip 7`. */
  readonly name: string
  /** What the likeliest pattern makes of it; a proposal, never taken without asking. */
  readonly proposal: Meaning | undefined
  /** Errors that the report counts beside it in the lines looked at; undefined where no number is told as such. */
  readonly errors: number | undefined
  /** The first line that has it, from 1. */
  readonly line: number
}

const MOST_NAMES = 128
const LONGEST_NAME = 30
const LONGEST_LINE = 400
const MAX_LINES = 2000
/** Headings of cells of the array that also number packages. */
const HOUSES = /^(?:bank|rank|slot|module|die|site|socket)$/i

interface Found {
  readonly name: string
  errors: number | undefined
  readonly line: number
}

/**
 * The foreign names of a report in their order of appearance, with a proposal for each where a pattern suits the board.
 * @param trial the best reading so far: labels of its rows that the board does not have are foreign too
 */
export function foreignNames(
  lines: readonly SampleLine[],
  model: BoardModel,
  book: NameBook,
  trial?: Trial,
): ForeignName[] {
  const inText = namesInText(lines, book)
  const inCells = trial === undefined ? [] : namesInCells(trial)
  const named = inCells.length > inText.length ? inCells : inText
  const mask = maskOf(lines, model.memories.length)
  const found = mask === undefined ? named : bitsOf(mask, model.memories.length)
  if (found.length === 0 || found.length > MOST_NAMES) return []
  const [pattern] = namePatterns(
    found.map(({ name }) => name),
    model,
    {},
    1,
  )
  return found.map(({ name, errors, line }) => ({ name, errors, line, proposal: pattern?.names[name] }))
}

function bitsOf({ values }: Mask, packages: number): Found[] {
  return Array.from({ length: packages }, (_, bit) => ({
    name: nameOfBit(bit),
    errors: values.filter(({ value }) => (value >>> bit) & 1).length,
    line: values[0]?.line ?? 1,
  }))
}

function namesInText(lines: readonly SampleLine[], book: NameBook): Found[] {
  const groups = new Map<string, Map<string, Found>>()
  for (const { text, number } of lines.slice(0, MAX_LINES)) {
    const said = text.length > LONGEST_LINE ? undefined : nameIn(text, book)
    if (said === undefined) continue
    const key = said.isTold ? 'told' : shapeOf(text).key
    const group = groups.get(key) ?? new Map<string, Found>()
    groups.set(key, group)
    note(group, said.name, said.errors, number)
  }
  const [names] = [...groups].toSorted(([, a], [, b]) => b.size - a.size)
  return names === undefined || (names[1].size < 2 && names[0] !== 'told') ? [] : [...names[1].values()]
}

/** Labels of rows that mean nothing on the board, or only by their number in its order. */
function namesInCells({ rows, plan }: Trial): Found[] {
  if (plan.level !== 'labels' || plan.layout.kind === 'named') return []
  const found = new Map<string, Found>()
  for (const { row, place, line } of rows) {
    if (place?.by === 'name') continue
    const name = [row.part, row.channel, row.lane].filter((label) => label !== undefined).join(' ')
    if (name.length > LONGEST_NAME || !/[\p{L}\p{N}]/u.test(name)) continue
    note(found, name, row.count, line)
  }
  return [...found.values()]
}

function note(group: Map<string, Found>, name: string, errors: number | undefined, line: number): void {
  const known = group.get(name)
  if (known === undefined) group.set(name, { name, errors, line })
  else if (errors !== undefined) known.errors = (known.errors ?? 0) + errors
}

/** What stands before the number of errors, where none of it is a name of the board. */
function nameIn(
  text: string,
  book: NameBook,
): { name: string; errors: number | undefined; isTold: boolean } | undefined {
  const tokens = tokensOf(text)
  if (tokens.some((_, i) => book.at(tokens, i)?.whole === true)) return undefined
  const { at, isTold, errors } = outcomeAt(tokens)
  const before = tokens.slice(0, at).filter(({ kind }) => kind !== 'time')
  while (before.length > 0 && isTail(before.at(-1))) before.pop()
  const [first] = before
  const last = before.at(-1)
  if (at < 1 || first === undefined || last === undefined || !/^\p{L}/u.test(first.text)) return undefined
  if (!/\d/.test(first.text) && isOtherHeading(first.text) && !HOUSES.test(first.text)) return undefined
  const name = text.slice(first.from, last.to)
  if (name.length > LONGEST_NAME || !/\d/.test(name)) return undefined
  return { name, errors, isTold }
}

interface OutcomeAt {
  readonly at: number
  /** A word says that it is one. */
  readonly isTold: boolean
  readonly errors: number | undefined
}

/** The number of errors; or the word that says whether there were any, where it ends the line behind all numbers. */
function outcomeAt(tokens: readonly Token[]): OutcomeAt {
  const count = countAt(tokens)
  const word = tokens.findLastIndex(({ kind }) => kind !== 'mark')
  const verdict = verdictOf(tokens[word]?.text ?? '')
  // In `bank 1 12 FAIL` the number behind the number of the bank is a count; in `bank 5 low PASS` there is none.
  const [before, beforeThat] = tokens
    .slice(0, word)
    .filter(({ kind }) => kind !== 'mark')
    .toReversed()
  const hasCount = before?.kind === 'number' && beforeThat?.kind === 'number'
  if (!count.isTold && !hasCount && word > count.at && (verdict === 'pass' || verdict === 'fail')) {
    return { at: word, isTold: true, errors: verdict === 'pass' ? 0 : undefined }
  }
  const text = tokens[count.at]?.text ?? ''
  return { ...count, errors: readQuantity(text, groupingOf([text]))?.errors }
}

/** The last plain number, or the one that a word such as `errors` stands beside. */
function countAt(tokens: readonly Token[]): { at: number; isTold: boolean } {
  const told = tokens.findIndex(
    ({ kind }, i) =>
      kind === 'number' && [tokens[i - 2], tokens[i + 1]].some((one) => roleOfHeading(one?.text ?? '') === 'count'),
  )
  return told >= 0
    ? { at: told, isTold: true }
    : { at: tokens.findLastIndex(({ kind }) => kind === 'number'), isTold: false }
}

const isTail = (token: Token | undefined): boolean =>
  token !== undefined && (token.kind === 'mark' || roleOfHeading(token.text) === 'count')
