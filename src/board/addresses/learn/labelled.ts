/** Labelled addresses of a board: read out of whatever text names them, and made into what a map is learnt from. */
import { bad, type Fault, good, type Result, showValue, say } from '../../../base/index.ts'
import type { LabelledAddress } from '../../schema.ts'
import { hexOf } from '../hex.ts'
import type { Observations } from './observations.ts'

export interface LabelledLine extends LabelledAddress {
  /** Of the text, from 1. */
  readonly line: number
}

export interface LabelledText {
  readonly rows: readonly LabelledLine[]
  /** Lines that hold no address, or no name where none was given for all. */
  readonly skipped: readonly number[]
}

export interface LabelReading {
  /** Names that a label may have: channels and parts of the board. */
  readonly names: ReadonlySet<string>
  /** What all addresses of the text are, where its lines need not say so. */
  readonly label?: string | undefined
}

const MOST_LINES = 200_000
const ADDRESS_LIMIT = 2 ** 52
/** Smaller numbers on a line are counters, lines and lengths. */
const LEAST_PLAIN_DIGITS = 5
/** The column of addresses has this many times as many different values as any other. */
const CLEARLY_MORE = 1.5

/**
 * Reads an address, and its label where `label` gives none, out of each line of a text: `0x1f400,U5`, or a line of a report
 * that holds both. Numbers with 0x are addresses, or where no line has one, whole numbers of five digits and more; where
 * lines hold several, those at the place whose values differ most from line to line. A label is a name of the board, `?a`
 * (one package, which one is not known) or `!U5`.
 * @returns the rows and the lines that were skipped; a fault where nothing is read, where two places could be the address,
 * and beyond 200,000 lines
 */
export function readLabelledAddresses(text: string, { names, label }: LabelReading): Result<LabelledText> {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/)
  if (lines.length > MOST_LINES)
    return bad({
      path: `line ${MOST_LINES + 1}`,
      found: say('one more line'),
      expected: say('at most {mostLines} lines', { mostLines: MOST_LINES }),
    })
  const numbers = numbersOf(lines)
  const place = addressPlace(numbers)
  if (place === undefined) return bad(unclear(lines, numbers))
  const rows: LabelledLine[] = []
  const skipped: number[] = []
  for (const [i, line] of lines.entries()) {
    if (line.trim() === '' || line.startsWith('#')) continue
    const value = numbers[i]?.[place]
    const name = label ?? labelIn(line, names)
    if (value === undefined || name === undefined) skipped.push(i + 1)
    else rows.push({ address: hexOf(value), label: name, line: i + 1 })
  }
  if (rows.length > 0) return good({ rows, skipped })
  const [first] = skipped
  return bad({
    path: `line ${first ?? 1}`,
    found: showValue(lines[(first ?? 1) - 1] ?? ''),
    expected: label === undefined ? say('an address and a name of this board, such as 0x1f400,U5') : say('an address'),
  })
}

/** The numbers of each line that may be addresses, in their order. */
function numbersOf(lines: readonly string[]): readonly (readonly number[])[] {
  const prefixed = lines.map((line) => valuesOf(line, /(?<![\w.])0x[0-9a-f]{1,13}(?![\w.])/gi))
  if (prefixed.some((values) => values.length > 0)) return prefixed
  const plain = new RegExp(String.raw`(?<![\w.,:-])\d{${LEAST_PLAIN_DIGITS},16}(?![\w.:-])`, 'g')
  return lines.map((line) => valuesOf(line, plain))
}

const valuesOf = (line: string, pattern: RegExp): number[] =>
  [...line.matchAll(pattern)].map(([word]) => Number(word)).filter((value) => value < ADDRESS_LIMIT)

/** Which of the numbers of a line is its address; undefined where that is not clear. */
function addressPlace(numbers: readonly (readonly number[])[]): number | undefined {
  const different: Set<number>[] = []
  for (const values of numbers)
    for (const [place, value] of values.entries()) (different[place] ??= new Set()).add(value)
  const [first, ...others] = different
  if (first === undefined || others.length === 0) return 0
  const ranked = different.map(({ size }, place) => ({ size, place })).toSorted((a, b) => b.size - a.size)
  const [most, next] = ranked
  if (most === undefined || next === undefined) return 0
  return most.size >= CLEARLY_MORE * next.size ? most.place : undefined
}

function unclear(lines: readonly string[], numbers: readonly (readonly number[])[]): Fault {
  const line = numbers.findIndex((values) => values.length > 1)
  return {
    path: `line ${line + 1}`,
    found: say('several numbers that could be the address: {showValue}', { showValue: showValue(lines[line] ?? '') }),
    expected: say('one address a line'),
    todo: say('Keep the column of addresses, and the label.'),
  }
}

/** The one name of the board that a line holds, `?a` or `!U5`; undefined where there is none, or more than one. */
function labelIn(line: string, names: ReadonlySet<string>): string | undefined {
  const words = line.split(/[\s,;|"'()[\]{}=]+/).flatMap((word) => {
    const bare = word.replace(/[.:]$/, '')
    if (names.has(bare) || /^\?[\w-]{1,40}$/.test(bare)) return [bare]
    return bare.startsWith('!') && names.has(bare.slice(1)) ? [bare] : []
  })
  const [first, ...others] = new Set(words)
  return others.length === 0 ? first : undefined
}

/** What a map is learnt from; the n-th row counts as line n. */
export function observationsOf(rows: readonly LabelledAddress[]): Observations {
  const indexes = new Map<string, number>()
  const labelOf = rows.map(({ label }) => {
    const index = indexes.get(label) ?? indexes.size
    indexes.set(label, index)
    return index
  })
  return {
    addresses: Float64Array.from(rows, ({ address }) => Number(address)),
    labelOf: Int32Array.from(labelOf),
    labels: [...indexes.keys()],
    lines: Int32Array.from(rows, (_, i) => i + 1),
  }
}
