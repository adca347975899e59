/** Lines of bytes to rows: the kernel takes what it can, the plain reader decides about the rest, and all is counted. */
import { say } from '../../base/index.ts'
import { BATCH_ROWS, newBatch, pushRow, type RowBatch } from './batch.ts'
import { forgetStretch, newEvenMemory } from './even-wasm.ts'
import { recordCutter } from '../text/records.ts'
import { type LineSink, MAX_LINE_BYTES } from '../text/lines.ts'
import type { Plan } from './recipe-plan.ts'
import { type Row, rowReader } from './row.ts'
import { trimBlanks } from '../text/text.ts'
import { scanRows } from './scan.ts'
import { compileScan } from './scan-plan.ts'
import type { Troubles } from './troubles.ts'

/** Where rows go. */
export interface RowSink {
  /** A full or last batch of rows with addresses; `lineOf` finds a row's line for showing. Must empty the batch. */
  batch(batch: RowBatch, lineOf: (row: number) => { number: number; text: string }): void
  /** A row with labels. */
  labelled(row: Row, line: number, text: string): void
}

export interface LineCounts {
  lines: number
  /** Empty lines, what stands before the first row, and lines with a text to pass over. */
  skipped: number
  unreadable: number
  /** The text ends in the middle of a line, or of a record. */
  isCut: boolean
}

interface Speed {
  readonly fast?: boolean | undefined
  readonly mayCompile?: boolean | undefined
}

const LF = 10
const CR = 13
const UNSEEN = say('nothing in it reads as a number')

/**
 * A sink for lines that reads them as rows.
 * @param speed without the kernel, or with loops that are compiled; the result is the same (a test holds that)
 */
export function rowCutter(
  plan: Plan,
  sink: RowSink,
  troubles: Troubles,
  { fast = true, mayCompile = false }: Speed = {},
): { lines: LineSink; counts: LineCounts; end: () => void } {
  const scan = fast ? compileScan(plan, mayCompile ? newEvenMemory() : undefined) : undefined
  const readLine = rowReader(plan)
  const batch = scan?.even?.batch ?? newBatch()
  const decoder = new TextDecoder()
  const counts: LineCounts = { lines: 0, skipped: 0, unreadable: 0, isCut: false }
  const records = recordCutter(
    plan.recipe,
    (text, line, isWhole) => takeRecord(text, line, isWhole),
    (name) => plan.book?.isName(name) ?? false,
  )
  const needsDigits =
    records === undefined && plan.level === 'words' && plan.recipe.skipLinesWith.length === 0 && plan.heads.length === 0
  let rowSeen = false
  let shortestRow = Number.POSITIVE_INFINITY
  /** The last row that the plain reader took. */
  let lastRow = ''

  /** The block that is being read, and how many lines came before it. */
  let blockFrom = 0
  let linesBeforeBlock = 0
  const flush = (bytes: Uint8Array): void => {
    if (batch.rows === 0) return
    sink.batch(batch, (row) => {
      const start = batch.start[row] ?? 0
      const end = lineEnd(bytes, start, Math.min(bytes.length, start + MAX_LINE_BYTES))
      const number = linesBeforeBlock + countBreaks(bytes, blockFrom, start) + 1
      return { number, text: decoder.decode(bytes.subarray(start, end)) }
    })
  }
  const refuse = (text: string, why: string, banner: boolean, line = counts.lines): void => {
    if (banner) {
      counts.skipped++
      return
    }
    counts.unreadable++
    troubles.unreadable(line, text, why)
  }
  const takeLine = (bytes: Uint8Array, from: number, to: number): void => {
    counts.lines++
    if (to - from > MAX_LINE_BYTES) return refuse(decoder.decode(bytes.subarray(from, from + 400)), OVERLONG, false)
    if (needsDigits && (!rowSeen || !troubles.wantsUnreadable()) && isSurelyNoRow(bytes, from, to)) {
      return refuse('', UNSEEN, !rowSeen)
    }
    const text = decoder.decode(bytes.subarray(from, to))
    if (records !== undefined) return records.line(text, counts.lines)
    const row = readLine(text)
    if (row.kind !== 'row') {
      if (row.kind === 'unreadable') refuse(text, row.why, !rowSeen && !row.looksLikeRow)
      else counts.skipped++
      return
    }
    rowSeen = true
    shortestRow = Math.min(shortestRow, to - from)
    lastRow = text
    takeRows(row, counts.lines, text, from)
  }
  const takeRows = (row: Row, line: number, text: string, from: number): void => {
    for (const one of [row, ...row.also]) {
      if (plan.level === 'labels') sink.labelled(one, line, text)
      else pushRow(batch, one, from)
    }
  }
  /** A row that was put together from several lines; its batch is emptied at once, since its line is not in the block. */
  const takeRecord = (text: string, line: number, isWhole: boolean): void => {
    const row = isWhole ? readLine(text) : undefined
    if (row === undefined) {
      counts.isCut = true
      return refuse(text, BROKEN_OFF, false, line)
    }
    if (row.kind === 'unreadable') return refuse(text, row.why, !rowSeen && !row.looksLikeRow, line)
    if (row.kind !== 'row') {
      counts.skipped++
      return
    }
    rowSeen = true
    takeRows(row, line, text, 0)
    if (batch.rows > 0) sink.batch(batch, () => ({ number: line, text }))
  }
  const block = (bytes: Uint8Array, from: number, to: number): void => {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
    let at = from
    if (scan?.even !== undefined) forgetStretch(scan.even)
    blockFrom = from
    linesBeforeBlock = counts.lines
    while (at < to) {
      if (scan !== undefined) {
        const before = batch.rows
        at = scanRows(scan, bytes, view, at, to, batch)
        if (batch.rows > before) rowSeen = true
        counts.lines += batch.rows - before
        shortestRow = Math.min(shortestRow, scan.shortestRow)
      }
      if (batch.rows === BATCH_ROWS) flush(bytes)
      else if (at < to) {
        const end = lineEnd(bytes, at, to)
        takeLine(bytes, at, end)
        at = end + (bytes[end] === CR && bytes[end + 1] === LF ? 2 : 1)
        if (batch.rows === BATCH_ROWS) flush(bytes)
      }
    }
    flush(bytes)
    if (scan !== undefined && rowSeen) lastRow = lastLine(bytes, from, to)
  }
  /** A row that is shorter than every row before, or that tells where and breaks off there. */
  const isCutRow = (bytes: Uint8Array): boolean => {
    if (!Number.isFinite(shortestRow)) return false
    const text = decoder.decode(bytes)
    if (endsAlike(text, lastRow)) return false
    if (plan.level === 'labels' && endsInNone(text, lastRow)) return false
    if (bytes.length >= shortestRow && !endsInShorterWord(text, lastRow)) return false
    const row = readLine(text)
    return row.kind === 'row' || (row.kind === 'unreadable' && row.looksLikeRow)
  }
  const lines: LineSink = {
    block,
    overlong: (head) => {
      counts.lines++
      refuse(decoder.decode(head), OVERLONG, false)
    },
    unended: (bytes) => {
      if (records === undefined && isCutRow(bytes)) {
        counts.lines++
        counts.isCut = true
        refuse(decoder.decode(bytes), CUT, false)
        return
      }
      const whole = new Uint8Array(bytes.length + 1)
      whole.set(bytes)
      whole[bytes.length] = LF
      block(whole, 0, whole.length)
    },
  }
  return { lines, counts, end: () => records?.end() }
}

/** Ends with fewer digits of a memory word than the row before: words have one width. */
function endsInShorterWord(text: string, other: string): boolean {
  const [own, before] = [text, other].map((line) => /(?:0x)?[0-9a-f]+$/i.exec(trimBlanks(line))?.[0].length ?? 0)
  return own !== undefined && before !== undefined && before >= WORD_CHARACTERS && own < before
}

const WORD_CHARACTERS = 8

/** Both end with the same word or mark, such as `errors` or `.`: neither is cut. */
function endsAlike(text: string, other: string): boolean {
  const end = /(?:\p{L}{2,}|[^\p{L}\p{N}\s])$/u.exec(trimBlanks(text))?.[0]
  return end !== undefined && trimBlanks(other).endsWith(end)
}

/** A count of none is not the beginning of another count: no number is written with a zero before it. */
const endsInNone = (text: string, other: string): boolean =>
  /(?:^|[^\w.,])0$/.test(trimBlanks(text)) && /(?:^|[^\w.,])(?:0|[1-9]\d*)$/.test(trimBlanks(other))

const BROKEN_OFF = say('what begins here does not end: the report breaks off, or it is no JSON')
const OVERLONG = say('the line is longer than {maxLineBytes} bytes', { maxLineBytes: MAX_LINE_BYTES })
const CUT = say('the report ends in the middle of this line: no line break, and it is shorter than every row before')

/** The text of the last line of a stretch that ends just behind a line break. */
function lastLine(bytes: Uint8Array, from: number, to: number): string {
  let end = to
  while (end > from && (bytes[end - 1] === LF || bytes[end - 1] === CR)) end--
  let start = end
  while (start > Math.max(from, end - 400) && bytes[start - 1] !== LF && bytes[start - 1] !== CR) start--
  return new TextDecoder().decode(bytes.subarray(start, end))
}

function lineEnd(bytes: Uint8Array, from: number, limit: number): number {
  let at = from
  while (at < limit && bytes[at] !== LF && bytes[at] !== CR) at++
  return at
}

/** Line breaks in a stretch that ends just behind one; CR LF is one. */
function countBreaks(bytes: Uint8Array, from: number, to: number): number {
  let breaks = 0
  for (let at = from; at < to; at++) {
    if (bytes[at] === LF || (bytes[at] === CR && bytes[at + 1] !== LF)) breaks++
  }
  return breaks
}

/** True for a line with something in it, but no hexadecimal digit: it can't be a row with an address. */
function isSurelyNoRow(bytes: Uint8Array, from: number, to: number): boolean {
  let isBlank = true
  for (let at = from; at < to; at++) {
    const code = bytes[at] ?? 0
    if ((code >= 48 && code <= 57) || ((code | 32) >= 97 && (code | 32) <= 102) || code === 27) return false
    if (code !== 32 && code !== 9) isBlank = false
  }
  return !isBlank
}
