/** The ways in which lines of one shape can be cut into cells, with what stands over or before each cell. */
import { splitDelimited, splitFixed, splitSpaced } from './cells.ts'
import { roleOfHeading } from './headings.ts'
import type { Layout } from './recipe.ts'
import type { SampleLine, Shape } from './shapes.ts'
import { trimBlanks } from './text.ts'

export interface CutColumn {
  readonly at: number | string
  /** The cell of each line of the shape; empty where there is none. */
  readonly texts: readonly string[]
  readonly heading: string | undefined
}

export interface Cut {
  readonly layout: Layout
  readonly columns: readonly CutColumn[]
  /** Line with the headings, if any. */
  readonly headingLine: number | undefined
}

const DELIMITERS = ['\t', ';', ',', '|']
const QUOTES = ['"', "'"]
const MAX_COLUMNS = 64
/** Headings stand at most this many lines with something in them above the first row. */
const HEADING_REACH = 4

/** All cuts of a shape's lines that give at least one cell with a digit. */
export function cutsOf(shape: Shape, all: readonly SampleLine[]): Cut[] {
  const above = linesAbove(shape, all)
  return [
    ...DELIMITERS.flatMap((delimiter) => delimitedCut(shape, above, delimiter) ?? []),
    ...(spacedCut(shape, above) ?? []),
    ...(pairsCut(shape) ?? []),
  ]
}

function linesAbove(shape: Shape, all: readonly SampleLine[]): SampleLine[] {
  const first = shape.lines[0]
  const at = all.findIndex((line) => line.number === first?.number)
  return all.slice(Math.max(0, at - HEADING_REACH), Math.max(0, at)).toReversed()
}

function delimitedCut(shape: Shape, above: readonly SampleLine[], delimiter: string): Cut | undefined {
  if (!shape.key.includes(delimiter)) return undefined
  const quote = QUOTES.find((mark) => shape.lines.some((line) => opensWith(line.text, delimiter, mark)))
  const layout: Layout = { kind: 'delimited', delimiter, ...(quote === undefined ? {} : { quote }) }
  const split = (text: string): string[] => splitDelimited(text, delimiter, quote)
  return cutByIndex(layout, shape, split, headingsFrom(above, split, delimiter))
}

const opensWith = (text: string, delimiter: string, quote: string): boolean =>
  text.split(delimiter).some((cell) => trimBlanks(cell).startsWith(quote))

function spacedCut(shape: Shape, above: readonly SampleLine[]): Cut[] | undefined {
  const cells = shape.lines.map((line) => splitSpaced(line.text).length)
  const uneven = cells.some((count) => count !== cells[0])
  const spaced = cutByIndex({ kind: 'spaced' }, shape, splitSpaced, headingsFrom(above, splitSpaced, undefined))
  const starts = uneven ? fixedStarts(shape.lines) : undefined
  if (starts === undefined) return spaced === undefined ? undefined : [spaced]
  const split = (text: string): string[] => splitFixed(text, starts)
  const fixed = cutByIndex({ kind: 'fixed', starts }, shape, split, headingsFrom(above, split, undefined))
  return [spaced, fixed].flatMap((cut) => cut ?? [])
}

/** Where columns start: the first character after a stretch that is blank in every line. */
function fixedStarts(lines: readonly SampleLine[]): number[] | undefined {
  const width = Math.min(200, Math.max(...lines.map((line) => line.text.length)))
  const starts: number[] = []
  let wasBlank = true
  for (let at = 0; at < width; at++) {
    const isBlank = lines.every((line) => trimBlanks(line.text.charAt(at)) === '')
    if (wasBlank && !isBlank) starts.push(at)
    wasBlank = isBlank
  }
  return starts.length >= 2 ? starts : undefined
}

function cutByIndex(
  layout: Layout,
  shape: Shape,
  split: (text: string) => readonly string[],
  headings: Headings,
): Cut | undefined {
  const rows = shape.lines.map((line) => split(line.text))
  const width = Math.min(MAX_COLUMNS, rows[0]?.length ?? 0)
  if (width === 0) return undefined
  const columns = Array.from({ length: width }, (_, at): CutColumn => {
    const texts = rows.map((row) => row[at] ?? '')
    return { at, texts, heading: headings.cells?.[at] ?? wordBefore(rows[0] ?? [], at) }
  })
  return { layout, columns, headingLine: headings.line }
}

interface Headings {
  readonly line: number | undefined
  readonly cells: readonly string[] | undefined
}

/** The nearest line above that has headings: no digit-led cell, and at least one word that names a role. */
function headingsFrom(
  above: readonly SampleLine[],
  split: (text: string) => readonly string[],
  delimiter: string | undefined,
): Headings {
  for (const line of above) {
    const text = delimiter === undefined ? line.text : line.text.replace(/^\s*(?:#|\/\/|;)\s*/, '')
    const cells = split(delimiter === undefined ? text.replace(/^\s*(?:#|\/\/)\s*/, '') : text)
    const named = cells.filter((cell) => roleOfHeading(cell) !== undefined).length
    if (named >= 2 && !cells.some((cell) => /^[\d]/.test(cell))) return { line: line.number, cells }
    const wide = trimBlanks(line.text).split(/[ \t]{2,}/)
    if (delimiter === undefined && wide.filter((cell) => roleOfHeading(cell) !== undefined).length >= 2) {
      return { line: line.number, cells: wide }
    }
  }
  return { line: undefined, cells: undefined }
}

/** In `Error at 0x10: wrote FF`, what stands before a number says what it is; the words of its own cell count too. */
function wordBefore(row: readonly string[], at: number): string | undefined {
  if (!/\d|^[0-9a-fA-F]+\W?$/.test(row[at] ?? '')) return undefined
  for (let i = at - 1; i >= 0; i--) {
    const cell = row[i] ?? ''
    if (/\d/.test(cell)) return undefined
    if (roleOfHeading(cell) !== undefined) return cell
  }
  return undefined
}

const PAIR = /([\p{L}_][\p{L}\p{N}_ -]{0,40}?)\s*[=:]\s*([^\s,;|)\]}]+)/gu

/** name=value or name: value; the names are those of the shape's first line. */
function pairsCut(shape: Shape): Cut[] | undefined {
  const first = shape.lines[0]?.text ?? ''
  const names = [...first.matchAll(PAIR)].map((match) => lastWords(match[1] ?? ''))
  const unique = [...new Set(names)].slice(0, MAX_COLUMNS)
  if (unique.length < 2) return undefined
  const columns = unique.map((name): CutColumn => {
    const texts = shape.lines.map((line) => pairValue(line.text, name))
    return { at: name, texts, heading: name }
  })
  return [{ layout: { kind: 'pairs' }, columns, headingLine: undefined }]
}

/** Of the words before a sign, the one that names it: the last that names a role, else the last. */
function lastWords(text: string): string {
  const words = trimBlanks(text).split(/\s+/)
  return words.at(-1) ?? text
}

function pairValue(line: string, name: string): string {
  const found = [...line.matchAll(PAIR)].find((match) => lastWords(match[1] ?? '') === name)
  return found?.[2] ?? ''
}
