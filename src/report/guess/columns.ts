/** What the cells of one column of a sample look like: numbers of which base, labels of which kind. */
import type { NameSense } from './sense.ts'
import { isHalfWord } from '../names/foreign/coordinates.ts'
import { isOtherHeading, roleOfHeading } from '../names/headings.ts'
import { readWord, wordToBigInt } from '../text/numbers.ts'
import { groupingOf, isTotal, readQuantity, readShare, verdictOf } from '../text/quantity.ts'
import type { ColumnRole, NumberBase } from '../recipe.ts'
import { tokensOf } from '../text/tokens.ts'

export interface ColumnLook {
  readonly at: number | string
  readonly texts: readonly string[]
  readonly heading: string | undefined
  /** What the heading calls it. */
  readonly role: ColumnRole | undefined
  /** All cells read as numbers of this base; undefined where they don't. */
  readonly base: Exclude<NumberBase, 'auto' | 'bytes'> | undefined
  /** The base is certain: a prefix, a letter or a leading zero shows it. */
  readonly baseShown: boolean
  readonly values: readonly bigint[]
  readonly distinct: number
  readonly label: 'part' | 'channel' | 'lane' | undefined
  /** Every cell is what a lane of the board is called inside its part (`A0`); beside a part's column that is a lane. */
  readonly laneNames: boolean
  /** Most cells mean something on the board, if only beside others or by their number. */
  readonly named: boolean
  /** What the cells are besides. */
  readonly says: 'quantity' | 'verdict' | 'time' | 'measure' | 'bits' | undefined
  /** Words written byte by byte, the byte at the lowest address first. */
  readonly areBytes: boolean
  /** Each cell says one half of something: `low`, `upper`. */
  readonly areHalves: boolean
  /** Its name tells of something that no reading needs. */
  readonly isOther: boolean
  /** Each value is one more than the one before: a running number. */
  readonly isCounter: boolean
}

/** Share of a column's cells that must agree for it to be called something. */
const AGREE = 0.95

/**
 * What a column looks like, from its cells in the sample. `at` is its number from 0 or the name of its field. Empty
 * cells tell nothing, and a base or a kind is given only where nearly all cells agree.
 */
export function lookAtColumn(
  at: number | string,
  texts: readonly string[],
  heading: string | undefined,
  sense: NameSense | undefined,
): ColumnLook {
  const filled = texts.filter((text) => text !== '')
  const areBytes = inBytes(filled, heading)
  const { base, shown } = areBytes ? { base: 'hex' as const, shown: true } : baseOf(filled)
  const values = base === undefined ? [] : numbersOf(texts, areBytes ? 'bytes' : base)
  const own = filled.filter((text) => !isTotal(text))
  const label = labelOf(own, sense, heading)
  const laneNames = areLaneNames(own, sense)
  const said = saysOf(filled)
  const says = said === 'bits' && (label !== undefined || laneNames) ? undefined : said
  return {
    at,
    texts,
    heading,
    role: heading === undefined ? undefined : fittingRole(roleOfHeading(heading), base, says, filled.every(isLongHex)),
    base: says === 'time' || says === 'measure' ? undefined : base,
    baseShown: shown,
    values,
    distinct: new Set(texts).size,
    label,
    laneNames,
    named: label !== undefined || laneNames || meansSomething(own, sense),
    says,
    areBytes,
    areHalves: filled.length > 0 && filled.every(isHalfWord),
    isOther: heading !== undefined && isOtherHeading(heading),
    isCounter: isCounter(values),
  }
}

/** At least that share of some texts passes a test; no more of them are looked at than that takes. */
function holdsFor(texts: readonly string[], test: (text: string) => boolean, share: number): boolean {
  let passed = 0
  for (const [i, text] of texts.entries()) {
    if (test(text)) passed++
    else if ((passed + texts.length - i - 1) / texts.length < share) return false
  }
  return true
}

/** `5d 55 aa 55`, or digits run together under a heading that says bytes. */
function inBytes(texts: readonly string[], heading: string | undefined): boolean {
  if (texts.length === 0) return false
  if (texts.every((text) => /^(?:[0-9a-f]{2} ){1,7}[0-9a-f]{2}$/i.test(text))) return true
  return (
    /bytes\b/i.test(heading ?? '') && texts.every((text) => /^(?:[0-9a-f]{4}|[0-9a-f]{8}|[0-9a-f]{16})$/i.test(text))
  )
}

/** The numbers of the cells; 0 for the odd one that is none. */
export function numbersOf(texts: readonly string[], base: NumberBase): bigint[] {
  return texts.map((text) => {
    const word = readWord(text, base)
    return word === undefined ? 0n : wordToBigInt(word)
  })
}

/** Running numbers: rows, passes. Two numbers that follow one another are that only where they are the first. */
function isCounter(values: readonly bigint[]): boolean {
  if (values.length < 2 || (values.length === 2 && (values[0] ?? 0n) > 1n)) return false
  const steps = values.slice(1).map((value, i) => value - (values[i] ?? 0n))
  const ones = steps.filter((step) => step === 1n).length
  if (ones >= RUNNING * steps.length) return true
  if (values.length >= ALWAYS_RISING && steps.every((step) => step > 0n) && (values.at(-1) ?? 0n) < 0x10000n)
    return true
  const rises = ones + steps.filter((step) => step === 0n).length
  return steps.length >= 4 && ones > 0 && rises === steps.length && (values[0] ?? 0n) <= 1n
}

/** So many small numbers that rise from row to row are no counts: by chance they would in one of 720 columns. */
const ALWAYS_RISING = 6
/** Share of steps of one that make a running number. */
const RUNNING = 0.9

const isLongHex = (text: string): boolean => /^\W*0x[0-9a-f]{5,}\W*$/i.test(text)

/** A heading is taken at its word only for cells that can be such: masks are no count. */
function fittingRole(
  role: ColumnRole | undefined,
  base: ColumnLook['base'],
  says: ColumnLook['says'],
  areLongHex: boolean,
): ColumnRole | undefined {
  const isLabel = role === 'part' || role === 'channel' || role === 'lane'
  // `mem[0x1000]` is no package.
  if (isLabel && areLongHex) return undefined
  if (role !== 'count' && role !== 'tested') return role
  return says === 'quantity' || says === 'verdict' || (says === undefined && base === undefined) ? role : undefined
}

const BITS = /^(?:(?:dq|bits?|d)[\s#[]*\d{1,2}\]?)(?:[\s,+&;/|]*(?:dq|bits?|d)?[\s#[]*\d{1,2}\]?)*$/i

function saysOf(texts: readonly string[]): ColumnLook['says'] {
  if (texts.length === 0) return undefined
  const nearlyAll = (test: (text: string) => boolean): boolean => holdsFor(texts, test, AGREE)
  const isOf = (kinds: readonly string[]) => (text: string) => {
    const tokens = tokensOf(text).filter((token) => token.kind !== 'mark')
    return tokens.length > 0 && tokens.every((token) => kinds.includes(token.kind))
  }
  if (nearlyAll(isOf(['time']))) return 'time'
  if (nearlyAll(isOf(['measure']))) return 'measure'
  if (nearlyAll((text) => BITS.test(text))) return 'bits'
  const grouping = groupingOf(texts)
  const isQuantity = (text: string): boolean => readQuantity(text, grouping) !== undefined
  if (nearlyAll((text) => verdictOf(text) !== undefined)) return 'verdict'
  return nearlyAll(
    (text) => isQuantity(text) || verdictOf(text) !== undefined || text === '-' || readShare(text) !== undefined,
  )
    ? 'quantity'
    : undefined
}

function baseOf(texts: readonly string[]): { base: 'hex' | 'decimal' | undefined; shown: boolean } {
  if (texts.length === 0) return { base: undefined, shown: false }
  const areNumbers = (base: NumberBase): boolean => holdsFor(texts, (text) => readWord(text, base) !== undefined, AGREE)
  // Letters a to f alone are words: `BAD`, `DEAD`. Long ones, and bytes among numbers, may be numbers.
  // So are labels that all begin with the same letter: `D3`, `D21`.
  if (texts.length >= 3 && texts.every((text) => /^[A-Fa-f]\d{1,2}\W*$/.test(text) && text[0] === texts[0]?.[0])) {
    return { base: undefined, shown: false }
  }
  const wordy = texts.filter((text) => !/\d/.test(text) && text.replace(/[^0-9a-f]/gi, '').length < 8)
  if (wordy.length > texts.length / 2 && wordy.some((text) => text.replace(/[^0-9a-f]/gi, '').length !== 2)) {
    return { base: undefined, shown: false }
  }
  if (!areNumbers('hex')) {
    const isDecimal = areNumbers('decimal')
    return { base: isDecimal ? 'decimal' : undefined, shown: isDecimal }
  }
  if (texts.some((text) => /0[xX]|[a-fA-F]|[0-9][hH]\b/.test(text))) return { base: 'hex', shown: true }
  const width = texts[0]?.length ?? 0
  const padded = texts.every((text) => text.length === width) && texts.some((text) => /^\D*0\d{3}/.test(text))
  return padded ? { base: 'hex', shown: true } : { base: 'decimal', shown: false }
}

function areLaneNames(texts: readonly string[], sense: NameSense | undefined): boolean {
  if (texts.length === 0 || sense === undefined) return false
  return texts.every((text) => /\p{L}/u.test(text) && sense.laneNames.has(text.toUpperCase()))
}

function meansSomething(texts: readonly string[], sense: NameSense | undefined): boolean {
  if (sense === undefined) return true
  const some = texts.slice(0, 100)
  return some.filter((text) => sense.meansSomething(text)).length > some.length / 2
}

function labelOf(
  texts: readonly string[],
  sense: NameSense | undefined,
  heading: string | undefined,
): ColumnLook['label'] {
  if (texts.length === 0) return undefined
  const some = texts.slice(0, 100)
  if (sense === undefined) return some.every((text) => /^[A-Z]{1,3}\d{1,4}$/.test(text)) ? 'part' : undefined
  const piece = sense.pieceRole(some, heading)
  if (piece !== undefined) return piece
  const counts = { part: 0, channel: 0, lane: 0, lanes: 0 }
  for (const text of some) {
    if (!/\p{L}/u.test(text)) continue
    const place = sense.find({ part: text, channel: undefined, lane: undefined })
    if (place?.by === 'name') counts[place.kind]++
  }
  for (const kind of ['lane', 'channel', 'part'] as const) if (counts[kind] >= AGREE * some.length) return kind
  return counts.lane + counts.channel + counts.part + counts.lanes >= AGREE * some.length ? 'part' : undefined
}
