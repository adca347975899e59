/** A line cut into cells the way a recipe's layout says. The plain version; `rows/scan.ts` is the fast one for two layouts. */
import { z } from 'zod'
import { bad, good, type Result, say } from '../../base/index.ts'
import { compilePattern } from './pattern.ts'
import type { Column, Layout } from '../recipe.ts'
import { isBlank, trimBlanks } from './text.ts'

/** The text of each column of one line, in the order of the columns; undefined where the line has none. */
export type CellReader = (line: string) => readonly (string | undefined)[]

/** Compiles a layout for the given columns; each column must be named the way that the layout names its cells. */
export function compileCells(layout: Layout, columns: readonly Column[]): Result<CellReader> {
  const named = isByName(layout)
  const wrong = columns.findIndex((column) => (typeof column.at === 'string') !== named)
  if (wrong >= 0) {
    return bad({
      path: `$.columns[${wrong}].at`,
      found: JSON.stringify(columns[wrong]?.at),
      expected: named
        ? say('the name of a field, since the layout is {kind}', { kind: layout.kind })
        : say('the number of a cell, from 0'),
    })
  }
  switch (layout.kind) {
    case 'pattern':
      return patternCells(layout.pattern, columns)
    case 'json':
      return good((line) => readFields(line, columns))
    case 'named':
      return good(() => columns.map(() => undefined))
    case 'pairs':
      return good((line) => readPairs(line, columns))
    case 'delimited':
    case 'spaced':
    case 'fixed':
      return good(byIndex(columns, splitterOf(layout)))
    default:
      return layout satisfies never
  }
}

const BY_NAME = {
  pairs: true,
  pattern: true,
  json: true,
  named: true,
  delimited: false,
  spaced: false,
  fixed: false,
} as const satisfies Record<Layout['kind'], boolean>

/** Whether a layout's cells go by names and not by numbers. */
export const isByName = ({ kind }: Layout): boolean => BY_NAME[kind]

/** The fields of one object, as `records.ts` hands it on. */
function readFields(line: string, columns: readonly Column[]): (string | undefined)[] {
  const fields = fieldsOf(line)
  return columns.map((column) => fields[String(column.at)])
}

/** The fields of one JSON object as texts; none where the line is no object or a field is no text. */
export function fieldsOf(line: string): Record<string, string> {
  if (!line.startsWith('{')) return {}
  try {
    const parsed = fieldsSchema.safeParse(JSON.parse(line))
    return parsed.success ? parsed.data : {}
  } catch {
    return {}
  }
}

const fieldsSchema = z.record(z.string(), z.string())

/** Cuts a line into cells that go by their number. */
export function splitterOf(
  layout: Exclude<Layout, { kind: 'pairs' | 'pattern' | 'json' | 'named' }>,
): (line: string) => readonly string[] {
  if (layout.kind === 'spaced') {
    const { bytesPerWord } = layout
    return bytesPerWord === undefined ? splitSpaced : (line) => joinBytes(splitSpaced(line), bytesPerWord)
  }
  if (layout.kind === 'fixed') return (line) => splitFixed(line, layout.starts)
  return (line) => splitDelimited(line, layout.delimiter, layout.quote)
}

function byIndex(columns: readonly Column[], split: (line: string) => readonly string[]): CellReader {
  const indices = columns.map((column) => Number(column.at))
  return (line) => {
    const cells = split(line)
    return indices.map((index) => cells[index])
  }
}

/** Cells between delimiters, blanks around them cut; a quote at the start of a cell encloses it up to the next lone quote. */
export function splitDelimited(line: string, delimiter: string, quote?: string): string[] {
  if (quote === undefined || !line.includes(quote)) return line.split(delimiter).map(trimBlanks)
  const cells: string[] = []
  let at = 0
  for (;;) {
    const [cell, end] = delimitedCell(line, at, delimiter, quote)
    cells.push(cell)
    if (end >= line.length) return cells
    at = end + 1
  }
}

function delimitedCell(line: string, from: number, delimiter: string, quote: string): [string, number] {
  let at = from
  while (at < line.length && isBlank(line.charCodeAt(at)) && line[at] !== delimiter) at++
  let inside = ''
  if (line[at] === quote) {
    at++
    for (;;) {
      const close = line.indexOf(quote, at)
      if (close < 0) return [inside + line.slice(at), line.length]
      inside += line.slice(at, close)
      at = close + 1
      if (line[at] !== quote) break
      inside += quote
      at++
    }
  }
  const next = line.indexOf(delimiter, at)
  const end = next < 0 ? line.length : next
  return [trimBlanks(inside + line.slice(at, end)), end]
}

/** Cells between runs of blanks and tabs; a blank line has none. */
export function splitSpaced(line: string): string[] {
  const bare = trimBlanks(line)
  return bare === '' ? [] : bare.split(/[ \t]+/)
}

const isByte = (cell: string): boolean => /^[0-9a-f]{2}$/i.test(cell)

/** Puts so many byte cells beside each other together; of a longer stretch what is left stays at its beginning. */
export function joinBytes(cells: readonly string[], bytesPerWord: number): string[] {
  const joined: string[] = []
  let at = 0
  while (at < cells.length) {
    let to = at
    while (isByte(cells[to] ?? '')) to++
    const single = at + ((to - at) % bytesPerWord)
    joined.push(...cells.slice(at, to === at ? at + 1 : single))
    for (let from = single; from < to; from += bytesPerWord)
      joined.push(cells.slice(from, from + bytesPerWord).join(' '))
    at = Math.max(to, at + 1)
  }
  return joined
}

/**
 * Cells by where each begins, in characters from 0, the last one to the end of the line; blanks at both ends are cut
 * off. `starts` ascend.
 */
export function splitFixed(line: string, starts: readonly number[]): string[] {
  return starts.map((start, i) => trimBlanks(line.slice(start, starts[i + 1] ?? line.length)))
}

const VALUE_END = /[\s,;|)\]}]/

function readPairs(line: string, columns: readonly Column[]): (string | undefined)[] {
  const lower = line.toLowerCase()
  return columns.map((column) => readPair(line, lower, String(column.at).toLowerCase()))
}

/** The value after `name=` or `name:`, blanks allowed around the sign; the name must not begin inside another word. */
function readPair(line: string, lower: string, name: string): string | undefined {
  for (let at = lower.indexOf(name); at >= 0; at = lower.indexOf(name, at + 1)) {
    if (at > 0 && /[a-z0-9_]/.test(lower.charAt(at - 1))) continue
    let sign = at + name.length
    while (isBlank(line.charCodeAt(sign))) sign++
    if (line[sign] !== '=' && line[sign] !== ':') continue
    let from = sign + 1
    while (isBlank(line.charCodeAt(from))) from++
    const quote = line.charAt(from)
    const close = quote === '"' || quote === "'" ? line.indexOf(quote, from + 1) : -1
    if (close > from + 1) return line.slice(from + 1, close)
    let to = from
    while (to < line.length && !VALUE_END.test(line.charAt(to))) to++
    return to > from ? line.slice(from, to) : undefined
  }
  return undefined
}

function patternCells(source: string, columns: readonly Column[]): Result<CellReader> {
  const pattern = compilePattern(source)
  if (!pattern.ok) return pattern
  const missing = columns.findIndex((column) => !pattern.value.fields.includes(String(column.at)))
  if (missing >= 0) {
    return bad({
      path: `$.columns[${missing}].at`,
      found: JSON.stringify(columns[missing]?.at),
      expected: say('a field of the pattern: {fields}', { fields: pattern.value.fields.join(', ') }),
    })
  }
  return good((line) => {
    const found = pattern.value.match(line)
    return columns.map((column) => found?.get(String(column.at)))
  })
}
