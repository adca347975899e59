/**
 * The byte kernel: reads rows of numbers straight from bytes into a batch, without a string a row. It takes a line only
 * when it is sure; at any other it stops, and the plain reader in `row.ts` decides.
 */
import { BATCH_ROWS, type RowBatch } from './batch.ts'
import type { BitSource, Plan } from './plan.ts'
import type { ColumnRole } from './recipe.ts'

/** What a byte is to the kernel. */
const PLAIN = 0
const BLANK = 1
const DELIMITER = 2
const LINE_END = 3
const UNSURE = 4

const SLOTS: Partial<Record<ColumnRole, number>> = { address: 1, expected: 2, actual: 3, difference: 4, count: 5 }
const [SLOT_ADDRESS, SLOT_EXPECTED, SLOT_ACTUAL, SLOT_DIFFERENCE, SLOT_COUNT] = [1, 2, 3, 4, 5] as const
const SLOT_NAMES = 6

const MAX_HEX_DIGITS = 16
/** Decimal numbers of up to 15 digits are exact in a double. */
const MAX_DECIMAL_DIGITS = 15

const HEX_VALUE = Uint8Array.from({ length: 256 }, (_, code) => {
  const value = Number.parseInt(String.fromCharCode(code), 16)
  return code < 128 && !Number.isNaN(value) ? value : 255
})
const marksTable = (marks: string) =>
  Uint8Array.from({ length: 256 }, (_, c) => Number(marks.includes(String.fromCharCode(c))))
const OPENING = marksTable('([{<"\'')
const CLOSING = marksTable(')]}>"\':;,.')

export interface ScanPlan {
  readonly bits: BitSource
  readonly addressUnitBytes: number
  /** For each byte, what it is. */
  readonly classes: Uint8Array
  /** The class that may repeat before a cell: blanks, or the delimiter itself when it is a run of blanks. */
  readonly leading: number
  /** In a cell that is not used, the highest class that still belongs to it. */
  readonly inside: number
  /** For each cell up to the last that is used: its slot (0: not used), and whether bare digits are decimal. */
  readonly slots: Uint8Array
  readonly decimal: Uint8Array
  readonly low: Int32Array
  readonly high: Int32Array
  /** Bytes of the shortest line taken so far, its line break not counted. */
  shortestRow: number
}

/** A plan for the kernel, or undefined where only the plain reader will do. */
export function compileScan(plan: Plan): ScanPlan | undefined {
  const { layout, addressUnitBytes } = plan.recipe
  if (plan.level !== 'words' || (layout.kind !== 'delimited' && layout.kind !== 'spaced')) return undefined
  const indices = plan.columns.map((column) => Number(column.at))
  const known = plan.columns.every((column) => SLOTS[column.role] !== undefined)
  if (!known || new Set(indices).size < indices.length) return undefined
  const classes = layout.kind === 'spaced' ? spacedClasses() : delimitedClasses(layout.delimiter, layout.quote)
  if (classes === undefined) return undefined
  const cells = Math.max(...indices) + 1
  const slots = new Uint8Array(cells)
  const decimal = new Uint8Array(cells)
  for (const column of plan.columns) {
    slots[Number(column.at)] = SLOTS[column.role] ?? 0
    decimal[Number(column.at)] = column.base === 'hex' ? 0 : 1
  }
  return {
    bits: plan.bits,
    addressUnitBytes,
    classes,
    leading: layout.kind === 'spaced' ? DELIMITER : BLANK,
    inside: layout.kind === 'spaced' ? PLAIN : BLANK,
    slots,
    decimal,
    low: new Int32Array(SLOT_NAMES),
    high: new Int32Array(SLOT_NAMES),
    shortestRow: Number.POSITIVE_INFINITY,
  }
}

function baseClasses(): Uint8Array {
  const classes = new Uint8Array(256)
  classes[10] = LINE_END
  classes[13] = LINE_END
  classes[27] = UNSURE
  return classes
}

function spacedClasses(): Uint8Array {
  const classes = baseClasses()
  classes[32] = DELIMITER
  classes[9] = DELIMITER
  return classes
}

function delimitedClasses(delimiter: string, quote: string | undefined): Uint8Array | undefined {
  const marks = [delimiter.charCodeAt(0), ...(quote === undefined ? [] : [quote.charCodeAt(0)])]
  // A digit, an x or a letter of a hexadecimal number as a delimiter is possible, but not worth a fast path.
  if (marks.some((code) => code > 126 || /[0-9A-Za-z\r\n]/.test(String.fromCharCode(code)))) return undefined
  const classes = baseClasses()
  classes[32] = BLANK
  classes[9] = BLANK
  if (quote !== undefined) classes[quote.charCodeAt(0)] = UNSURE
  classes[delimiter.charCodeAt(0)] = DELIMITER
  return classes
}

/**
 * Reads lines from `from` on until `to` (just behind a line break), until the batch is full or until a line that it is
 * not sure of.
 * @param firstLine number of the line at `from`
 * @returns where the first line begins that was not taken
 */
export function scanRows(
  plan: ScanPlan,
  bytes: Uint8Array,
  from: number,
  to: number,
  batch: RowBatch,
  firstLine: number,
): number {
  const { classes, leading, inside, slots, decimal, low, high, bits, addressUnitBytes } = plan
  const cells = slots.length
  low[SLOT_COUNT] = 1
  high[SLOT_COUNT] = 0
  let row = batch.rows
  let line = firstLine
  let at = from
  let start = from
  let shortest = plan.shortestRow
  scanning: while (at < to && row < BATCH_ROWS) {
    start = at
    for (let cell = 0; cell < cells; cell++) {
      let code = bytes[at] ?? 0
      while (classes[code] === leading) code = bytes[++at] ?? 0
      const slot = slots[cell] ?? 0
      if (slot === 0) {
        while ((classes[code] ?? UNSURE) <= inside) code = bytes[++at] ?? 0
      } else {
        while (OPENING[code] === 1 && classes[code] === PLAIN) code = bytes[++at] ?? 0
        let isHex = decimal[cell] === 0
        if (code === 48 && ((bytes[at + 1] ?? 0) | 32) === 120) {
          isHex = true
          at += 2
          code = bytes[at] ?? 0
        }
        const digitsFrom = at
        let lowHalf = 0
        let highHalf = 0
        if (isHex) {
          let digit = HEX_VALUE[code] ?? 255
          while (digit < 16) {
            highHalf = (highHalf << 4) | (lowHalf >>> 28)
            lowHalf = (lowHalf << 4) | digit
            code = bytes[++at] ?? 0
            digit = HEX_VALUE[code] ?? 255
          }
          if (at === digitsFrom || at - digitsFrom > MAX_HEX_DIGITS) break scanning
        } else {
          let value = 0
          while (code >= 48 && code <= 57) {
            value = value * 10 + (code - 48)
            code = bytes[++at] ?? 0
          }
          if (at === digitsFrom || at - digitsFrom > MAX_DECIMAL_DIGITS) break scanning
          highHalf = Math.floor(value / 4_294_967_296)
          lowHalf = (value - highHalf * 4_294_967_296) | 0
        }
        low[slot] = lowHalf
        high[slot] = highHalf
        while (CLOSING[code] === 1 && classes[code] === PLAIN) code = bytes[++at] ?? 0
      }
      while (classes[code] === BLANK) code = bytes[++at] ?? 0
      const found = classes[code] ?? UNSURE
      if (found === DELIMITER) at++
      else if (found !== LINE_END || cell < cells - 1) break scanning
    }
    let code = bytes[at] ?? 0
    while (code !== 10 && code !== 13) code = bytes[++at] ?? 0
    const expectedLow = low[SLOT_EXPECTED] ?? 0
    const expectedHigh = high[SLOT_EXPECTED] ?? 0
    let actualLow = low[SLOT_ACTUAL] ?? 0
    let actualHigh = high[SLOT_ACTUAL] ?? 0
    let differenceLow = low[SLOT_DIFFERENCE] ?? 0
    let differenceHigh = high[SLOT_DIFFERENCE] ?? 0
    if (bits === 'expected+actual') {
      differenceLow = expectedLow ^ actualLow
      differenceHigh = expectedHigh ^ actualHigh
    } else if (bits === 'expected+difference') {
      actualLow = expectedLow ^ differenceLow
      actualHigh = expectedHigh ^ differenceHigh
    }
    const count = ((high[SLOT_COUNT] ?? 0) >>> 0) * 4_294_967_296 + ((low[SLOT_COUNT] ?? 0) >>> 0)
    if (count > Number.MAX_SAFE_INTEGER) break
    batch.address[row] =
      (((high[SLOT_ADDRESS] ?? 0) >>> 0) * 4_294_967_296 + ((low[SLOT_ADDRESS] ?? 0) >>> 0)) * addressUnitBytes
    batch.differenceLow[row] = differenceLow
    batch.differenceHigh[row] = differenceHigh
    batch.actualLow[row] = actualLow
    batch.actualHigh[row] = actualHigh
    batch.count[row] = count
    batch.start[row] = start
    batch.line[row] = line
    if (at - start < shortest) shortest = at - start
    row++
    line++
    at += code === 13 && bytes[at + 1] === 10 ? 2 : 1
    start = at
  }
  batch.rows = row
  plan.shortestRow = shortest
  return start
}
