/** Which column of a table of places holds what: by headings, else by what stands in the columns. */
import { typedLength } from '../units.ts'
import { type Heading, headingOf, headingWords, type Role, sideNamed } from './headings.ts'
import { cellsOf, type Separator, separators, type TableRow, writtenLines } from './rows.ts'

export interface Columns {
  readonly separator: Separator
  readonly roles: readonly Role[]
  readonly headings: readonly (Heading | undefined)[]
  /** The line of the headings; 0 where content alone told the columns. */
  readonly headingLine: number
  readonly rows: readonly TableRow[]
}

const REFERENCE = /^[A-Z]{1,6}[_-]?\d{1,5}[A-Z]?(_\w{1,8})?$/i
const FEWEST_ROWS_WITHOUT_HEADINGS = 4
/** Headings stand near the beginning. */
const LINES_LOOKED_AT = 80
const ROWS_LOOKED_AT = 200
const MOST_COLUMNS = 60

/** The reading with most columns told; undefined where no separator gives references with two coordinates. */
export function findColumns(text: string): Columns | undefined {
  const lines = writtenLines(text)
  const readings = separators.map((separator) => {
    const rows = lines.map(({ line, text: own, isComment }) => ({ line, isComment, cells: cellsOf(own, separator) }))
    return byHeadings(rows, separator)
  })
  const best = readings.reduce((a, b) => (told(b) > told(a) ? b : a), undefined)
  if (best !== undefined) return best
  for (const separator of separators) {
    const rows = lines.map(({ line, text: own, isComment }) => ({ line, isComment, cells: cellsOf(own, separator) }))
    const found = byContent(rows, separator)
    if (found !== undefined) return found
  }
  return undefined
}

const told = (columns: Columns | undefined): number =>
  columns === undefined ? 0 : columns.roles.filter((role) => role !== 'other').length

function byHeadings(rows: readonly TableRow[], separator: Separator): Columns | undefined {
  for (const [i, row] of rows.slice(0, LINES_LOOKED_AT).entries()) {
    const words = (separator === 'blanks' ? headingWords(row.cells) : row.cells).slice(0, MOST_COLUMNS)
    const headings = words.map(headingOf)
    const roles = rolesOf(headings)
    if (!['ref', 'x', 'y'].every((role) => roles.some((one) => one === role))) continue
    return { separator, roles, headings, headingLine: row.line, rows: rows.slice(i + 1) }
  }
  return undefined
}

/** One column a role: the first of the best rank. x and y come from the same kind of point. */
function rolesOf(headings: readonly (Heading | undefined)[]): Role[] {
  const taken = new Map<Role, number>()
  const best = (role: Role): number | undefined => {
    const ranks = headings.flatMap((heading) => (heading?.role === role ? [heading.rank] : []))
    return ranks.length === 0 ? undefined : Math.min(...ranks)
  }
  return headings.map((heading, i) => {
    if (heading === undefined || heading.role === 'other') return 'other'
    if (taken.has(heading.role) || heading.rank !== best(heading.role)) return 'other'
    taken.set(heading.role, i)
    return heading.role
  })
}

/** Without headings: every row begins alike, and references, sides and coordinates tell their columns. */
function byContent(all: readonly TableRow[], separator: Separator): Columns | undefined {
  const rows = all.filter((row) => !row.isComment)
  const sample = rows.slice(0, ROWS_LOOKED_AT)
  const width = sample[0]?.cells.length ?? 0
  if (sample.length < FEWEST_ROWS_WITHOUT_HEADINGS || width < 4 || width > MOST_COLUMNS) return undefined
  if (sample.some((row) => row.cells.length !== width)) return undefined
  const column = (i: number): string[] => sample.map((row) => row.cells[i] ?? '')
  const all80 = (i: number, test: (cell: string) => boolean): boolean =>
    column(i).filter(test).length >= 0.8 * sample.length
  const indices = Array.from({ length: width }, (_, i) => i)
  const ref = indices.find((i) => all80(i, (cell) => REFERENCE.test(cell)))
  const side = indices.find((i) => all80(i, (cell) => /[a-z]/i.test(cell) && sideNamed(cell) !== undefined))
  const numeric = indices.filter((i) => column(i).every((cell) => typedLength(cell) !== undefined))
  const [x, y, ...more] = numeric.filter((i) => new Set(column(i)).size > 1 || more180(column(i)))
  if (ref === undefined || side === undefined || x === undefined || y === undefined) return undefined
  const rotation = [...more, ...numeric].find((i) => i !== x && i !== y && more180(column(i)))
  const text = indices.filter((i) => i !== ref && i !== side && !numeric.includes(i))
  const roles = indices.map((i): Role => {
    if (i === ref) return 'ref'
    if (i === x) return 'x'
    if (i === y) return 'y'
    if (i === rotation) return 'rotation'
    if (i === side) return 'side'
    if (i === text[0]) return 'value'
    return i === text[1] ? 'package' : 'other'
  })
  return { separator, roles, headings: indices.map(() => undefined), headingLine: 0, rows }
}

/** Turns as parts are turned: mostly multiples of 15 degrees within a full turn. */
function more180(cells: readonly string[]): boolean {
  const turns = cells.map(Number)
  const usual = turns.filter((turn) => Math.abs(turn) <= 360 && Math.abs(turn % 15) < 1e-6)
  return usual.length >= 0.8 * turns.length
}
