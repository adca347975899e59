/** One line read as a row, the plain way. The byte kernel in `scan.ts` must give the same for every line that it takes. */
import type { Plan } from './plan.ts'
import { readWord, type Word, wordToNumber } from './numbers.ts'
import type { Column } from './recipe.ts'
import { MAX_SHOWN_LINE, stripColourCodes, trimBlanks } from './text.ts'

export interface Row {
  readonly kind: 'row'
  /** Byte address; NaN in rows with labels. */
  readonly address: number
  /** Bits that failed; zero where the row says no bits. */
  readonly differenceHigh: number
  readonly differenceLow: number
  /** The word as it was read; only meaningful where the plan's bits come with a word. */
  readonly actualHigh: number
  readonly actualLow: number
  readonly count: number
  readonly part: string | undefined
  readonly channel: string | undefined
  readonly lane: string | undefined
}

export interface NoRow {
  readonly kind: 'blank' | 'passed-over' | 'unreadable'
  readonly why: string
  /** The line does tell where (its address or label reads), so it is a broken row and no banner. */
  readonly looksLikeRow: boolean
}

/** Compiles a plan into a reader of one line (without its line break). */
export function rowReader(plan: Plan): (line: string) => Row | NoRow {
  const texts = plan.recipe.skipLinesWith
  return (line) => {
    const bare = trimBlanks(stripColourCodes(line))
    if (bare === '') return { kind: 'blank', why: 'an empty line', looksLikeRow: false }
    const row = readRow(plan, plan.cells(stripColourCodes(line)))
    if (row.kind !== 'unreadable') return row
    const text = texts.find((candidate) => bare.includes(candidate))
    if (text === undefined) return row
    return { kind: 'passed-over', why: `it holds ${JSON.stringify(text)}`, looksLikeRow: false }
  }
}

interface Values {
  address: number
  count: number
  bit: number
  expected: Word
  actual: Word
  difference: Word
  part: string | undefined
  channel: string | undefined
  lane: string | undefined
}

const ZERO: Word = { high: 0, low: 0 }

function readRow(plan: Plan, cells: readonly (string | undefined)[]): Row | NoRow {
  const values: Values = {
    address: Number.NaN,
    count: 1,
    bit: -1,
    expected: ZERO,
    actual: ZERO,
    difference: ZERO,
    part: undefined,
    channel: undefined,
    lane: undefined,
  }
  const troubles: string[] = []
  let tellsWhere = false
  for (const [i, column] of plan.columns.entries()) {
    const trouble = takeCell(values, column, cells[i], plan.recipe.addressUnitBytes)
    if (trouble !== undefined) troubles.push(trouble)
    else if (column.role === 'address') tellsWhere = true
  }
  if (troubles.length > 0) return { kind: 'unreadable', why: troubles.join('; '), looksLikeRow: tellsWhere }
  return rowOf(plan, values)
}

/** Puts one cell into the values; a sentence when it can't be read. */
function takeCell(
  values: Values,
  column: Column,
  cell: string | undefined,
  addressUnitBytes: number,
): string | undefined {
  const { role } = column
  if (cell === undefined || cell === '') return `no ${role} where the recipe looks for it`
  if (role === 'part' || role === 'channel' || role === 'lane') {
    values[role] = cell
    return undefined
  }
  const bitLabel = role === 'bit' ? /^\D*(\d+)\D*$/.exec(cell)?.[1] : undefined
  const word = readWord(bitLabel ?? cell, bitLabel === undefined ? column.base : 'decimal')
  if (word === undefined) return `${role} ${JSON.stringify(cell.slice(0, MAX_SHOWN_LINE / 5))} is no number of 64 bits`
  if (role === 'address') values.address = wordToNumber(word) * addressUnitBytes
  else if (role === 'count') values.count = wordToNumber(word)
  else if (role === 'bit') values.bit = wordToNumber(word)
  else if (role === 'expected' || role === 'actual' || role === 'difference') values[role] = word
  return undefined
}

function rowOf(plan: Plan, values: Values): Row | NoRow {
  if (values.count > Number.MAX_SAFE_INTEGER) return unreadable('the count is too large to be one')
  if (plan.bits === 'bit' && values.bit > 63) return unreadable(`bit ${values.bit} is beyond a word of 64 bits`)
  const difference = differenceOf(plan, values)
  const actual = plan.bits === 'expected+difference' ? exclusiveOr(values.expected, values.difference) : values.actual
  return {
    kind: 'row',
    address: values.address,
    differenceHigh: difference.high,
    differenceLow: difference.low,
    actualHigh: actual.high,
    actualLow: actual.low,
    count: values.count,
    part: values.part,
    channel: values.channel,
    lane: values.lane,
  }
}

const unreadable = (why: string): NoRow => ({ kind: 'unreadable', why, looksLikeRow: true })

function differenceOf(plan: Plan, values: Values): Word {
  if (plan.bits === 'expected+actual') return exclusiveOr(values.expected, values.actual)
  if (plan.bits !== 'bit') return values.difference
  return values.bit < 32 ? { high: 0, low: 1 << values.bit } : { high: 1 << (values.bit - 32), low: 0 }
}

const exclusiveOr = (a: Word, b: Word): Word => ({ high: a.high ^ b.high, low: a.low ^ b.low })
