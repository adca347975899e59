/** The ways in which lines of one shape can be cut into cells, with what stands over or before each cell. */
import { fieldsOf, joinBytes, splitDelimited, splitFixed, splitSpaced } from '../text/cells.ts'
import { isOtherHeading, roleOfHeading } from '../names/headings.ts'
import { patternCut } from './pattern-cut.ts'
import { verdictOf } from '../text/quantity.ts'
import type { Layout } from '../recipe.ts'
import type { SampleLine, Shape } from '../text/shapes.ts'
import { trimBlanks } from '../text/text.ts'

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
  /** Some lines have more cells than others: what stands where is no longer certain. */
  readonly isUneven?: boolean
}

const DELIMITERS = ['\t', ';', ',', '|']
const QUOTES = ['"', "'"]
const MAX_COLUMNS = 64
/** Headings stand at most this many lines with something in them above the first row. */
const HEADING_REACH = 4

/** Whether a word names something on the board. */
export type IsName = (text: string) => boolean

/** All cuts of a shape's lines that give at least one cell with a digit. */
export function cutsOf(shape: Shape, all: readonly SampleLine[], isName: IsName): Cut[] {
  const above = linesAbove(shape, all, isName)
  return [
    ...(patternCut(shape.lines, isName) ?? []),
    ...DELIMITERS.flatMap((delimiter) => delimitedCut(shape, above, delimiter) ?? []),
    ...(spacedCut(shape, above) ?? []),
    ...(pairsCut(shape) ?? []),
  ]
}

function linesAbove(shape: Shape, all: readonly SampleLine[], isName: IsName): Above {
  const first = shape.lines[0]
  const at = all.findIndex((line) => line.number === first?.number)
  return { lines: all.slice(Math.max(0, at - HEADING_REACH), Math.max(0, at)).toReversed(), isName }
}

/** Lines above the first row, the nearest first. */
interface Above {
  readonly lines: readonly SampleLine[]
  readonly isName: IsName
}

function delimitedCut(shape: Shape, above: Above, delimiter: string): Cut | undefined {
  if (!shape.key.includes(delimiter)) return undefined
  const quote = QUOTES.find((mark) => shape.lines.some((line) => opensWith(line.text, delimiter, mark)))
  const layout: Layout = { kind: 'delimited', delimiter, ...(quote === undefined ? {} : { quote }) }
  const split = (text: string): string[] => splitDelimited(text, delimiter, quote)
  return cutByIndex(layout, shape, split, (width) => headingsFrom(above, split, delimiter, width), above.isName)
}

const opensWith = (text: string, delimiter: string, quote: string): boolean =>
  text.split(delimiter).some((cell) => trimBlanks(cell).startsWith(quote))

function spacedCut(shape: Shape, above: Above): Cut[] | undefined {
  const cells = shape.lines.map((line) => splitSpaced(line.text).length)
  const uneven = cells.some((count) => count !== cells[0])
  const spaced = cutByIndex(
    { kind: 'spaced' },
    shape,
    splitSpaced,
    (width) => headingsFrom(above, splitSpaced, undefined, width),
    above.isName,
  )
  const dumps = byteCuts(shape, above)
  const starts = uneven ? fixedStarts(shape.lines) : undefined
  if (starts === undefined) return spaced === undefined ? dumps : [...dumps, spaced]
  const split = (text: string): string[] => splitFixed(text, starts)
  const fixed = cutByIndex(
    { kind: 'fixed', starts },
    shape,
    split,
    (width) => headingsFrom(above, split, undefined, width),
    above.isName,
  )
  return [...dumps, spaced, fixed].flatMap((cut) => cut ?? [])
}

/** Stretches of bytes as words: of 2, 4 or 8 bytes, where all stretches are made of such. */
function byteCuts(shape: Shape, above: Above): Cut[] {
  const stretches = (shape.lines[0]?.text ?? '').matchAll(/(?:^|\s)(?:[0-9a-fA-F]{2}\s+)+[0-9a-fA-F]{2}(?=\s|$)/g)
  const lengths = [...stretches].map((match) => trimBlanks(match[0]).split(/[ \t]+/).length)
  if (lengths.length === 0) return []
  return [2, 4, 8].flatMap((bytesPerWord) => {
    const words = lengths.reduce((sum, length) => sum + length / bytesPerWord, 0)
    if (lengths.some((length) => length % bytesPerWord !== 0) || words > MOST_WORDS_IN_A_DUMP) return []
    const split = (text: string): string[] => joinBytes(splitSpaced(text), bytesPerWord)
    const headings = (width: number): Headings => headingsFrom(above, split, undefined, width)
    return cutByIndex({ kind: 'spaced', bytesPerWord }, shape, split, headings, above.isName) ?? []
  })
}

/** Expected, actual and their difference. */
const MOST_WORDS_IN_A_DUMP = 3

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
  headingsOf: (width: number) => Headings,
  isName: IsName,
): Cut | undefined {
  const all = shape.lines.map((line) => split(line.text))
  const width = Math.min(MAX_COLUMNS, all[0]?.length ?? 0)
  if (width === 0) return undefined
  const headed = namesOverNumbers(all, isName)
  const rows = headed ? all.slice(1) : all
  const isProse = layout.kind === 'spaced' && isSentence(rows[0] ?? [], isName)
  const headings = headed ? { line: shape.lines[0]?.number, cells: all[0] } : isProse ? NO_HEADINGS : headingsOf(width)
  const columns = Array.from({ length: width }, (_, at): CutColumn => {
    const texts = rows.map((row) => row[at] ?? '')
    const isMeasure = rows.every((row) => UNIT.test(row[at + 1] ?? '')) && texts.every((text) => /\d$/.test(text))
    const heading = headings.cells?.[at] ?? wordBeside(rows[0] ?? [], at, isName)
    return { at, texts: isMeasure ? texts.map((text, i) => `${text} ${rows[i]?.[at + 1]}`) : texts, heading }
  })
  const isUneven = layout.kind !== 'fixed' && rows.some((row) => row.length !== width)
  return { layout, columns, headingLine: headings.line, isUneven }
}

/** A unit in a cell of its own, behind its number. */
const UNIT = /^(?:°?[CF]|degC?|m?V|W|A|[kMG]?Hz|ms|us|s|sec|seconds|min|minutes)[,;.)]?$/

interface Headings {
  readonly line: number | undefined
  readonly cells: readonly string[] | undefined
}

/** A first line of names such as `part;A0;A1` looks like its rows, but stands over numbers. */
function namesOverNumbers(rows: readonly (readonly string[])[], isName: IsName): boolean {
  const [first = [], second] = rows
  if (second === undefined) return false
  return first.filter((cell, at) => isName(cell) && /^[\d.,']+$/.test(second[at] ?? '')).length >= 2
}

const NO_HEADINGS: Headings = { line: undefined, cells: undefined }

/** Words among the cells that are neither names nor verdicts: it is a sentence, and no line above has its headings. */
const isSentence = (row: readonly string[], isName: IsName): boolean =>
  row.some(
    (cell) =>
      /^\p{L}{2,}[:,.]?$/u.test(cell) && !isName(cell) && verdictOf(cell) === undefined && !/^[0-9a-f]+h?$/i.test(cell),
  )

/** The nearest line above that has headings: as many as there are cells, none of them a number, and two that mean something. */
function headingsFrom(
  above: Above,
  split: (text: string) => readonly string[],
  delimiter: string | undefined,
  width: number,
): Headings {
  for (const line of above.lines) {
    const bare = line.text.replace(delimiter === undefined ? /^\s*(?:#|\/\/)\s+/ : /^\s*(?:#|\/\/|;)\s+/, '')
    const ways = [
      split(line.text),
      split(bare),
      ...(delimiter === undefined ? [trimBlanks(bare).split(/[ \t]{2,}/)] : []),
    ]
    const cells = ways.find((way) => way.length === width)
    if (cells === undefined || cells.some((cell) => /^\d/.test(cell))) continue
    const telling = cells.filter((cell) => roleOfHeading(cell) !== undefined).length
    const names = cells.filter((cell) => cell !== '' && above.isName(cell)).length
    // A sentence of as many words as there are cells is no row of headings.
    if (delimiter === undefined && isRemark(line.text) && 2 * (telling + names) <= width) continue
    if (telling >= 2 || names >= 2 || (telling === 1 && width <= 2 && !cells.some((cell) => /\d/.test(cell))))
      return { line: line.number, cells }
  }
  return { line: undefined, cells: undefined }
}

const isRemark = (text: string): boolean => /^\s*(?:#|\/\/|;|\*)\s/.test(text)

/** In `Error at 0x10: wrote FF`, what stands before a number says what it is; in `12 errors`, what stands behind it. */
function wordBeside(row: readonly string[], at: number, isName: IsName): string | undefined {
  if (!/\d|^[0-9a-fA-F]+\W?$/.test(row[at] ?? '')) return undefined
  const behind = row[at + 1] ?? ''
  const before = row[at - 1] ?? ''
  const isWord = !/\d/.test(behind) && !isName(behind)
  if (isWord && !/[:=]$/.test(before) && roleOfHeading(behind) === 'count' && !/[:=]$/.test(behind)) return behind
  for (let i = at - 1; i >= 0; i--) {
    const cell = row[i] ?? ''
    if (/\d/.test(cell) || isName(cell)) return undefined
    if (roleOfHeading(cell) !== undefined || isOtherHeading(cell)) return cell
  }
  return undefined
}

const PAIR = /([\p{L}_][\p{L}\p{N}_ -]{0,40}?)\s*[=:]\s*([^\s,;|)\]}]+)/gu

/** Fields of objects: those of the first, and what others have besides. */
export function fieldCut(lines: readonly SampleLine[]): Cut | undefined {
  const rows = lines.map((line) => fieldsOf(line.text))
  const names = [...new Set(rows.flatMap((row) => Object.keys(row)))].slice(0, MAX_COLUMNS)
  if (names.length === 0) return undefined
  const columns = names.map((at): CutColumn => {
    const filled = rows.flatMap((row) => (row[at] === undefined ? [] : [row[at]]))
    return {
      at,
      texts: filled.length === rows.length ? filled : rows.map((row) => row[at] ?? ''),
      heading: at.split('.').at(-1),
    }
  })
  return { layout: { kind: 'json' }, columns, headingLine: undefined }
}

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
