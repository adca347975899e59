/** Lines grouped by what they look like: numbers, words and marks, whatever their values. */
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
const MAX_KEPT_LINES = 400
const MAX_SHAPES = 5000
const MAX_CANDIDATES = 8

/** All lines of a sample with something in them, colour codes taken out, at most 1000 characters of each. */
export function sampleLines(sample: string): SampleLine[] {
  const lines: SampleLine[] = []
  for (const [i, line] of firstLines(sample, MAX_SAMPLE_LINES).entries()) {
    const cut = line.length > MAX_LINE_LOOKED_AT ? line.slice(0, MAX_LINE_LOOKED_AT) : line
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
    const { key, numbers } = shapeOf(line.text)
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

/** `Error at 0x10: wrote FF` becomes `w w N: w N`. */
export function shapeOf(text: string): { key: string; numbers: number } {
  let numbers = 0
  const key = text
    .replace(/[\p{L}\p{N}_.#]+/gu, (token) => {
      if (!looksLikeNumber(token)) return 'w'
      numbers++
      return 'N'
    })
    .replace(/[ \t]*\t[ \t]*/g, '\t')
    .replace(/ +/g, ' ')
  return { key: trimBlanks(key), numbers }
}

/** A number, or letters that may well be a hexadecimal one (`ff`, `deadbeef`). */
export function looksLikeNumber(token: string): boolean {
  const bare = token.replace(/\.$/, '')
  if (/^(?:0[xX][0-9a-fA-F_]+|[0-9]+)$/.test(bare)) return true
  if (/^[0-9a-fA-F]+[hH]$/.test(bare) && /[0-9]/.test(bare)) return true
  if (!/^[0-9a-fA-F]+$/.test(bare)) return false
  return /[0-9]/.test(bare) ? bare.length > 1 : bare.length % 2 === 0
}
