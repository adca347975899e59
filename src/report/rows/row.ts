/** One line read as a row, the plain way. The byte kernel in `rows/scan.ts` must give the same for every line that it takes. */
import { say } from '../../base/index.ts'
import type { ForeignNames } from '../names/foreign/meaning.ts'
import { nameOfBit } from '../names/foreign/mask.ts'
import { type NamedLine, namedReader, type Statement } from '../names/named.ts'
import { columnRoles } from '../column-roles.ts'
import type { KindPlan, Plan } from './recipe-plan.ts'
import { readWord, type Word, wordToNumber } from '../text/numbers.ts'
import { bitOfHeading, isTotal, readQuantity, readShare, type Verdict, verdictOf } from '../text/quantity.ts'
import type { Column } from '../recipe.ts'
import { roleSaid } from '../role-words.ts'
import { MAX_SHOWN_LINE, stripColourCodes, trimBlanks } from '../text/text.ts'

export interface Row {
  readonly kind: 'row'
  /** Byte address; NaN in rows with labels. */
  readonly address: number
  /** Last byte of a range; NaN where the row tells none. */
  readonly end: number
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
  /** What the count belongs to beside the labels, in a table with a column for each. */
  readonly of: string | undefined
  /** More rows of the same line. */
  readonly also: readonly Row[]
}

export interface NoRow {
  readonly kind: 'blank' | 'passed-over' | 'unreadable'
  readonly why: string
  /** The line does tell where (its address or label reads), so it is a broken row and no banner. */
  readonly looksLikeRow: boolean
}

/** Compiles a plan into a reader of one line (without its line break); what heads say it remembers. */
export function rowReader(plan: Plan): (line: string) => Row | NoRow {
  const texts = plan.recipe.skipLinesWith
  const context = new Map<string, string>()
  const readNamed = plan.layout.kind === 'named' && plan.book !== undefined ? namedReader(plan.book) : undefined
  return (line) => {
    const clean = stripColourCodes(line)
    const bare = trimBlanks(clean)
    if (bare === '') return { kind: 'blank', why: say('an empty line'), looksLikeRow: false }
    const text = texts.find((candidate) => bare.includes(candidate))
    if (text !== undefined && !isHead(plan, clean))
      return { kind: 'passed-over', why: say('it holds {text}', { text: JSON.stringify(text) }), looksLikeRow: false }
    const row = readNamed === undefined ? readKinds(plan, clean, context) : rowOfNamed(plan, readNamed(clean), clean)
    if (row.kind !== 'unreadable') return row
    if (takeHead(plan, clean, context))
      return { kind: 'passed-over', why: say('it heads what follows'), looksLikeRow: false }
    return row
  }
}

function readKinds(plan: Plan, line: string, context: ReadonlyMap<string, string>): Row | NoRow {
  const first = readRow(plan, plan, line, context)
  if (first.kind !== 'unreadable') return first
  for (const table of plan.tables) {
    const row = readRow(plan, table, line, context)
    if (row.kind !== 'unreadable') return row
  }
  return first
}

/** Lines that say something about those below are not passed over. */
const isHead = (plan: Plan, line: string): boolean =>
  plan.heads.some((head) => head.cells(line).every((cell) => cell !== undefined && cell !== ''))

function takeHead(plan: Plan, line: string, context: Map<string, string>): boolean {
  for (const head of plan.heads) {
    const cells = head.cells(line)
    if (cells.some((cell) => cell === undefined || cell === '')) continue
    for (const [i, column] of head.columns.entries()) context.set(column.role, cells[i] ?? '')
    return true
  }
  return false
}

interface Values {
  address: number
  end: number
  count: number | undefined
  /** Counts of a table with a column for each place. */
  readonly counts: { readonly of: string; readonly errors: number }[]
  tested: number | undefined
  verdict: Verdict | undefined
  bit: number
  expected: Word
  actual: Word
  difference: Word
  part: string | undefined
  channel: string | undefined
  lane: string | undefined
  /** A mask of packages. */
  packages: Word | undefined
  /** Errors as a share of what was tested. */
  share: number | undefined
  /** It is named as a sum over others. */
  isTotal: boolean
}

const ZERO: Word = { high: 0, low: 0 }

const newValues = (): Values => ({
  address: Number.NaN,
  end: Number.NaN,
  count: undefined,
  counts: [],
  tested: undefined,
  verdict: undefined,
  bit: -1,
  expected: ZERO,
  actual: ZERO,
  difference: ZERO,
  part: undefined,
  channel: undefined,
  lane: undefined,
  packages: undefined,
  share: undefined,
  isTotal: false,
})

function readRow(plan: Plan, kind: KindPlan, line: string, context: ReadonlyMap<string, string>): Row | NoRow {
  const values = newValues()
  const cells = kind.cells(line)
  const troubles: string[] = []
  let tellsWhere = false
  for (const [i, column] of kind.columns.entries()) {
    const cell = i < cells.length ? cells[i] : context.get(column.role)
    const trouble = takeCell(values, column, cell, plan)
    if (trouble !== undefined) troubles.push(trouble)
    else if (column.role === 'address') tellsWhere = true
  }
  if (values.isTotal) return { kind: 'passed-over', why: say('a sum over others'), looksLikeRow: false }
  if (troubles.length > 0) return { kind: 'unreadable', why: troubles.join('; '), looksLikeRow: tellsWhere }
  return rowOf(plan, kind, values)
}

/** Puts one cell into the values; a sentence when it can't be read. */
function takeCell(values: Values, column: Column, cell: string | undefined, plan: Plan): string | undefined {
  const { role } = column
  if (cell === undefined || cell === '') {
    return columnRoles[role].mayLack || column.of !== undefined
      ? undefined
      : say('no {role} where the recipe looks for it', { role: roleSaid[role] })
  }
  switch (role) {
    case 'part':
    case 'channel':
    case 'lane':
      if (isTotal(cell)) values.isTotal = true
      values[role] = cell
      return undefined
    case 'status':
      return takeStatus(values, cell, plan)
    case 'count':
    case 'tested':
      return takeCount(values, column, cell, plan)
    case 'packages':
      values.packages = readWord(cell, column.base)
      return values.packages === undefined ? say('packages {cell} is no mask', { cell: shown(cell) }) : undefined
    case 'bits':
      return takeBits(values, cell)
    case 'address':
    case 'end':
    case 'bit':
    case 'expected':
    case 'actual':
    case 'difference':
      return takeWord(values, { ...column, role }, cell, plan)
    case 'ignore':
      return undefined
    default:
      return role satisfies never
  }
}

const shown = (cell: string): string => JSON.stringify(cell.slice(0, MAX_SHOWN_LINE / 5))

function takeStatus(values: Values, cell: string, plan: Plan): string | undefined {
  values.verdict = verdictOf(cell) ?? values.verdict
  const isAll = !plan.recipe.columns.some((other) => other.role === 'count')
  return isAll && values.verdict === undefined
    ? say('{cell} says neither passed nor failed', { cell: shown(cell) })
    : undefined
}

function takeBits(values: Values, cell: string): string | undefined {
  const mask = maskOf(cell)
  if (mask === undefined) return say('bits {cell} name no data bits', { cell: shown(cell) })
  values.difference = mask
  return undefined
}

type WordRole = 'address' | 'end' | 'bit' | 'expected' | 'actual' | 'difference'

function takeWord(
  values: Values,
  { role, base }: Column & { readonly role: WordRole },
  cell: string,
  plan: Plan,
): string | undefined {
  const bitLabel = role === 'bit' ? /^\D*(\d+)\D*$/.exec(cell)?.[1] : undefined
  const word = readWord(bitLabel ?? cell, bitLabel === undefined ? base : 'decimal')
  if (word === undefined)
    return say('{role} {cell} is no number of 64 bits', { role: roleSaid[role], cell: shown(cell) })
  switch (role) {
    case 'address':
    case 'end':
      values[role] = wordToNumber(word) * plan.recipe.addressUnitBytes
      return undefined
    case 'bit':
      values.bit = wordToNumber(word)
      return undefined
    case 'expected':
    case 'actual':
    case 'difference':
      values[role] = word
      return undefined
    default:
      return role satisfies never
  }
}

function takeCount(values: Values, column: Column, cell: string, plan: Plan): string | undefined {
  const quantity = quantityOf(cell, column, plan)
  const said = quantity === undefined ? verdictOf(cell) : undefined
  // `errors` in a column of counts is its heading, not a verdict.
  const verdict = said === 'fail' ? undefined : said
  const share = quantity === undefined ? readShare(cell) : undefined
  if (share !== undefined && share > 0 && column.role === 'count') values.share = share
  if (quantity === undefined && verdict === undefined && share === undefined) {
    const told = { role: roleSaid[column.role], cell: shown(cell) }
    return plan.level === 'words'
      ? say('{role} {cell} is no number of 64 bits', told)
      : say('{role} {cell} is no number', told)
  }
  const errors = quantity?.errors ?? 0
  if (column.role === 'tested') {
    values.tested = errors
    return undefined
  }
  if (quantity?.tested !== undefined) values.tested = quantity.tested
  if (column.of !== undefined) {
    if (verdict !== 'untested') values.counts.push({ of: column.of, errors })
    return undefined
  }
  if (verdict === undefined) values.count = errors
  else {
    values.count = 0
    values.verdict ??= verdict
  }
  return undefined
}

function quantityOf(cell: string, column: Column, plan: Plan): ReturnType<typeof readQuantity> {
  if (column.base !== 'hex' && plan.recipe.grouping !== undefined) return readQuantity(cell, plan.recipe.grouping)
  const word = readWord(cell, column.base)
  if (word !== undefined) return { errors: wordToNumber(word), tested: undefined }
  return readQuantity(cell, plan.recipe.grouping)
}

/** `DQ3, DQ11`, `bits 3 11`, `[3,11]`: the named bits of a word, as a mask. */
export function maskOf(text: string): Word | undefined {
  const bits = [...text.matchAll(/\d+/g)].map((match) => Number(match[0]))
  if (bits.length === 0 || bits.some((bit) => bit > 63)) return undefined
  let high = 0
  let low = 0
  for (const bit of bits) {
    if (bit < 32) low |= 1 << bit
    else high |= 1 << (bit - 32)
  }
  return { high, low }
}

function rowOf(plan: Plan, kind: KindPlan, values: Values): Row | NoRow {
  if (values.share !== undefined) values.count = errorsOf(values.share, values.tested)
  const troubled = contradiction(values)
  if (troubled !== undefined) return troubled
  const count = values.count ?? (values.verdict === 'pass' ? 0 : 1)
  if (count > Number.MAX_SAFE_INTEGER) return unreadable(say('the count is too large to be one'))
  if (kind.bits === 'bit' && values.bit > 63)
    return unreadable(say('bit {bit} is beyond a word of 64 bits', { bit: values.bit }))
  const difference = differenceOf(kind, values)
  const actual = kind.bits === 'expected+difference' ? exclusiveOr(values.expected, values.difference) : values.actual
  const row: Row = {
    kind: 'row',
    address: values.address,
    end: values.end,
    differenceHigh: difference.high,
    differenceLow: difference.low,
    actualHigh: actual.high,
    actualLow: actual.low,
    count,
    part: values.part,
    channel: values.channel,
    lane: values.lane,
    of: undefined,
    also: [],
  }
  if (values.packages !== undefined) return ofPackages(row, values.packages, plan.recipe.names ?? {})
  if (!plan.recipe.columns.some((column) => column.of !== undefined)) return row
  const rows = values.counts.map(({ of, errors }) => {
    const bit = bitOfHeading(of)
    if (bit === undefined) return { ...row, of, count: errors }
    return {
      ...row,
      count: errors,
      differenceLow: bit < 32 ? 1 << bit : 0,
      differenceHigh: bit < 32 ? 0 : 1 << (bit - 32),
    }
  })
  return together(rows) ?? { kind: 'passed-over', why: say('no count in it'), looksLikeRow: true }
}

/** A row for each package that a bit has a name for: an error where it is set, tested and clean where not. */
function ofPackages(row: Row, mask: Word, names: ForeignNames): Row | NoRow {
  const rows: Row[] = []
  for (let bit = 0; bit < 64; bit++) {
    const isSet = ((bit < 32 ? mask.low >>> bit : mask.high >>> (bit - 32)) & 1) === 1
    const part = nameOfBit(bit)
    if (names[part] !== undefined) rows.push({ ...row, part, count: isSet ? row.count : 0 })
    else if (isSet) return unreadable(say('nobody said which package {part} of the mask stands for', { part }))
  }
  return together(rows) ?? unreadable(say('nobody said which packages the bits of the mask stand for'))
}

function together(rows: readonly Row[]): Row | undefined {
  const [first, ...also] = rows
  return first === undefined ? undefined : { ...first, also }
}

/** A share of which nobody says how many were tested counts as that of a million. */
const errorsOf = (share: number, tested = 1_000_000): number => Math.max(1, Math.round(share * tested))

/** What a row says twice must agree: a test that passed has no errors, and nobody finds more errors than words. */
function contradiction({ verdict, count, tested }: Values): NoRow | undefined {
  if (verdict === 'untested' || tested === 0)
    return { kind: 'passed-over', why: say('it says that nothing was tested'), looksLikeRow: true }
  if (verdict === 'pass' && (count ?? 0) > 0) return unreadable(say('it says passed and {count} errors', { count }))
  if (verdict === 'fail' && count === 0) return unreadable(say('it says failed and 0 errors'))
  return undefined
}

function rowOfNamed(plan: Plan, line: NamedLine, text: string): Row | NoRow {
  if (line.isBroken) return unreadable(say('it names several lanes, and not what each of them has'))
  if (line.statements.length === 0) {
    const saysNothing =
      !/[\d✓✔✗✘]/.test(text) && !text.split(/[^\p{L}]+/u).some((word) => verdictOf(word) !== undefined)
    const why = line.isHead ? say('it heads what follows') : say('no name of the board in it')
    return { kind: line.isHead || saysNothing ? 'passed-over' : 'unreadable', why, looksLikeRow: false }
  }
  const rows: Row[] = []
  for (const statement of line.statements) {
    const row = rowOfStatement(plan, statement)
    if (row.kind === 'row') rows.push(row)
    else if (row.kind === 'unreadable') return row
  }
  return together(rows) ?? { kind: 'passed-over', why: say('it says that nothing was tested'), looksLikeRow: true }
}

function rowOfStatement(plan: Plan, { labels, fields, verdict }: Statement): Row | NoRow {
  const values: Values = { ...newValues(), ...labels, verdict }
  const wanted = plan.recipe.columns.find((column) => column.role === 'count')
  const plain = fields.size === 1 && wanted?.at === 'errors' ? fields.get('number 1') : undefined
  const count = fields.get(String(wanted?.at ?? 'errors')) ?? plain
  const tested = fields.get('tested')
  if (count === undefined && fields.has('number 1') && verdict === undefined) {
    return unreadable(say('several numbers, and none of them is said to be the errors'))
  }
  if (count !== undefined) values.count = readQuantity(count, plan.recipe.grouping)?.errors
  if (count !== undefined && values.count === undefined)
    return unreadable(say('count {count} is no number', { count: JSON.stringify(count) }))
  if (tested !== undefined) values.tested = readQuantity(tested, plan.recipe.grouping)?.errors
  if (count === undefined && verdict === undefined) return unreadable(say('nothing says whether it failed'))
  return rowOf(plan, plan, values)
}

const unreadable = (why: string): NoRow => ({ kind: 'unreadable', why, looksLikeRow: true })

function differenceOf(kind: KindPlan, values: Values): Word {
  if (kind.bits === 'expected+actual') return exclusiveOr(values.expected, values.actual)
  if (kind.bits !== 'bit') return values.difference
  return values.bit < 32 ? { high: 0, low: 1 << values.bit } : { high: 1 << (values.bit - 32), low: 0 }
}

const exclusiveOr = (a: Word, b: Word): Word => ({ high: a.high ^ b.high, low: a.low ^ b.low })
