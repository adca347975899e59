/**
 * The byte kernel: reads rows of numbers straight from bytes into a batch, without a string a row. It takes a line only
 * when it is sure; at any other it stops, and the plain reader in `row.ts` decides.
 */
import { BATCH_ROWS, type RowBatch } from './batch.ts'
import { type EvenShape, scanEvenRows } from './even-rows.ts'
import { isSameShape, learnShape } from './even-shape.ts'
import { compileEvenLoop, runEvenLoop } from './even-wasm.ts'
import {
  BLANK,
  CLOSING,
  DELIMITER,
  HEX_VALUE,
  LINE_END,
  OPENING,
  PLAIN,
  PREFIXED,
  type ScanPlan,
  SLOT,
  UNSURE,
} from './scan-plan.ts'

const MAX_HEX_DIGITS = 16
/** Decimal numbers of up to 15 digits are exact in a double. */
const MAX_DECIMAL_DIGITS = 15

const MAX_PATIENCE = BATCH_ROWS
/** A shape that holds for fewer rows is not worth looking for. */
const WORTHWHILE_ROWS = 8

/**
 * Reads lines from `from` on until `to` (just behind a line break), until the batch is full or until a line that it is
 * not sure of: rows that look alike by their shape, others one by one.
 * @param view the same bytes
 * @returns where the first line begins that was not taken; `batch.rows` tells how many were
 */
export function scanRows(
  plan: ScanPlan,
  bytes: Uint8Array,
  view: DataView,
  from: number,
  to: number,
  batch: RowBatch,
): number {
  let at = from
  while (at < to && batch.rows < BATCH_ROWS) {
    if (plan.shape !== undefined) {
      const rows = batch.rows
      at =
        plan.loop === undefined || plan.even === undefined
          ? scanEvenRows(plan.shape, view, at, to, batch)
          : runEvenLoop(plan.loop, plan.shape.length, plan.even, bytes, at, to)
      const taken = batch.rows - rows
      considerLoop(plan, plan.shape, taken)
      if (taken > 0 && plan.shape.textLength < plan.shortestRow) plan.shortestRow = plan.shape.textLength
      if (taken >= WORTHWHILE_ROWS) plan.patience = 1
      if (at >= to || batch.rows === BATCH_ROWS) break
    }
    const start = at
    const rows = batch.rows
    const limit = Math.min(BATCH_ROWS, rows + plan.patience)
    at = scanOneByOne(plan, bytes, at, to, batch, limit)
    if (at === start) break
    if (batch.rows < limit) continue
    const learned = learnShape(plan, bytes, batch.start[batch.rows - 1] ?? start, at)
    if (learned === undefined || plan.shape === undefined || !isSameShape(learned, plan.shape)) {
      plan.shape = learned
      plan.loop = undefined
    }
    plan.patience = Math.min(MAX_PATIENCE, plan.patience * 2)
  }
  return at
}

/** Rows of one shape from which on a loop of its own pays, and how often one is compiled in one reading. */
const ROWS_FOR_A_LOOP = BATCH_ROWS / 2
const MOST_LOOPS = 40

function considerLoop(plan: ScanPlan, shape: EvenShape, taken: number): void {
  shape.taken += taken
  if (plan.loop !== undefined || plan.even === undefined) return
  if (shape.taken < ROWS_FOR_A_LOOP || plan.loopsCompiled >= MOST_LOOPS) return
  plan.loopsCompiled++
  plan.loop = compileEvenLoop(shape, plan.even)
}

function scanOneByOne(
  plan: ScanPlan,
  bytes: Uint8Array,
  from: number,
  to: number,
  batch: RowBatch,
  limit: number,
): number {
  const { classes, leading, inside, slots, decimal, low, high, bits, addressUnitBytes } = plan
  const cells = slots.length
  low[SLOT.count] = 1
  high[SLOT.count] = 0
  let row = batch.rows
  let at = from
  let start = from
  let shortest = plan.shortestRow
  scanning: while (at < to && row < limit) {
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
        } else if (decimal[cell] === PREFIXED) break scanning
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
    while (code !== 10 && code !== 13) {
      if (classes[code] === UNSURE) break scanning
      code = bytes[++at] ?? 0
    }
    const expectedLow = low[SLOT.expected] ?? 0
    const expectedHigh = high[SLOT.expected] ?? 0
    let actualLow = low[SLOT.actual] ?? 0
    let actualHigh = high[SLOT.actual] ?? 0
    let differenceLow = low[SLOT.difference] ?? 0
    let differenceHigh = high[SLOT.difference] ?? 0
    if (bits === 'expected+actual') {
      differenceLow = expectedLow ^ actualLow
      differenceHigh = expectedHigh ^ actualHigh
    } else if (bits === 'expected+difference') {
      actualLow = expectedLow ^ differenceLow
      actualHigh = expectedHigh ^ differenceHigh
    }
    const count = ((high[SLOT.count] ?? 0) >>> 0) * 4_294_967_296 + ((low[SLOT.count] ?? 0) >>> 0)
    if (count > Number.MAX_SAFE_INTEGER) break
    batch.address[row] =
      (((high[SLOT.address] ?? 0) >>> 0) * 4_294_967_296 + ((low[SLOT.address] ?? 0) >>> 0)) * addressUnitBytes
    batch.differenceLow[row] = differenceLow
    batch.differenceHigh[row] = differenceHigh
    batch.actualLow[row] = actualLow
    batch.actualHigh[row] = actualHigh
    batch.count[row] = count
    batch.start[row] = start
    if (at - start < shortest) shortest = at - start
    row++
    at += code === 13 && bytes[at + 1] === 10 ? 2 : 1
    start = at
  }
  batch.rows = row
  plan.shortestRow = shortest
  return start
}
