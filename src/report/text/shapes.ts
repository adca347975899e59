/** Lines grouped by what they look like: numbers, words and marks, whatever their values. */
import { tokensOf } from './tokens.ts'
import { firstLines, MAX_SAMPLE_LINES, stripColourCodes, trimBlanks } from './text.ts'

export interface SampleLine {
  /** From 1. */
  readonly number: number
  readonly text: string
}

export interface Shape {
  readonly key: string
  /** Numbers in each of its lines. */
  readonly numbers: number
  /** How many lines of the sample have it, and the first and some of the rest. */
  count: number
  readonly lines: SampleLine[]
}

const MAX_LINE_LOOKED_AT = 1000
/** Objects of JSON often stand all on one line. */
const MAX_JSON_LINE = 4_000_000
const MAX_KEPT_LINES = 400
const MAX_SHAPES = 5000
const MAX_CANDIDATES = 8

/**
 * The lines of a sample with something in them, colour codes taken out: at most 200,000, and of each at most 1000
 * characters, or 4,000,000 where it looks like JSON, which would not parse when cut.
 */
export function sampleLines(sample: string): SampleLine[] {
  const lines: SampleLine[] = []
  for (const [i, line] of firstLines(sample, MAX_SAMPLE_LINES).entries()) {
    const isJson = /^\s*[[{][^]{0,2000}?"/.test(line)
    const most = isJson ? MAX_JSON_LINE : MAX_LINE_LOOKED_AT
    const cut = line.length > most ? line.slice(0, most) : line
    const text = stripColourCodes(i === 0 ? cut.replace(/^\uFEFF/, '') : cut)
    if (trimBlanks(text) !== '') lines.push({ number: i + 1, text })
  }
  return lines
}

/** The shapes that may be rows of errors, most likely first: those with numbers, by count and numbers. */
export function rowShapes(lines: readonly SampleLine[]): Shape[] {
  const shapes = new Map<string, Shape>()
  for (const line of lines) {
    if (!/\d/.test(line.text)) continue
    const { key, numbers } = shapeOf(line.text.slice(0, MAX_LINE_LOOKED_AT))
    let shape = shapes.get(key)
    if (shape === undefined) {
      if (shapes.size >= MAX_SHAPES) continue
      shape = { key, numbers, count: 0, lines: [] }
      shapes.set(key, shape)
    }
    shape.count++
    if (shape.lines.length < MAX_KEPT_LINES) shape.lines.push(line)
  }
  return [...shapes.values()].toSorted((a, b) => weight(b) - weight(a)).slice(0, MAX_CANDIDATES)
}

const weight = (shape: Shape): number => shape.count * (1 + shape.numbers) ** 2

const LISTED = /(?<![\p{L}\p{N}])(?:DQ|dq|bits?|D)[\s#[]*\d{1,2}\]?(?:[\s,+&]*(?:DQ|dq|bit|D)[\s#[]*\d{1,2}\]?)+/gu

/** `Error at 0x10: wrote FF` becomes `w w N: w N`; a list such as `DQ3, DQ11` is one thing, however long it is. */
export function shapeOf(text: string): { key: string; numbers: number } {
  let numbers = 0
  let key = ''
  let behind = 0
  const listed = text.replace(LISTED, (list) => `\u0001${' '.repeat(list.length - 1)}`)
  for (const token of tokensOf(listed)) {
    const gap = text.slice(behind, token.from)
    key += gap.includes('\t') ? '\t' : gap === '' ? '' : ' '
    behind = token.to
    if (token.text === '\u0001') {
      key += 'N'
      numbers++
    } else if (token.kind === 'mark') key += token.text
    else if (token.kind === 'time') key += 'T'
    else if (token.kind === 'word' && !looksLikeNumber(token.text)) key += 'w'
    else if (key === '' && /^[A-Za-z]\d{1,2}$/.test(token.text)) key += 'w'
    else {
      key += 'N'
      numbers++
    }
  }
  return { key: trimBlanks(key), numbers }
}

const ENGLISH = new Set(['be', 'de', 'da', 'ad', 'ab', 'dead', 'face', 'feed', 'fade', 'cafe', 'bead', 'deaf', 'added'])

/** A number, or letters that may well be a hexadecimal one (`ff`, `deadbeef`). */
export function looksLikeNumber(token: string): boolean {
  if (/^(?:0[xX][0-9a-fA-F_]+|[0-9][0-9.,'_]*)$/.test(token)) return true
  if (/^[0-9a-fA-F]+[hH]$/.test(token) && /[0-9]/.test(token)) return true
  if (!/^[0-9a-fA-F]+$/.test(token)) return false
  return /[0-9]/.test(token) ? token.length > 1 : token.length % 2 === 0 && !ENGLISH.has(token.toLowerCase())
}
