/** A table of places (pick and place, centroid) as a piece of a board: reference, place, turn and side of each part. */
import { bad, type Fault, good, type Point, type Result, say } from '../../../base/index.ts'
import type { Side } from '../../schema.ts'
import { emptyPart, emptyPiece, type Piece, type PiecePart } from '../pieces.ts'
import type { NamedText } from '../text.ts'
import { MM_PER_INCH, mmPer, typedLength } from '../units.ts'
import { type Columns, findColumns } from './columns.ts'
import { fitWords } from './fit.ts'
import { mirrorNamed, type Role, sideNamed } from './headings.ts'
import { type TableRow, writtenLines } from './rows.ts'

const MOST_ROWS = 20_000
const MOST_FAULTS = 20
/** A reference with two numbers may be of anything; a turn, a side, a value or a package makes it a part. */
const FEWEST_TOLD = 4
const LARGEST_MM = 10_000
/** Boards are so long; a table of bare numbers is read in the unit that makes its board one. Common practice, no source. */
const [SHORTEST_MM, LONGEST_MM] = [12, 700]

/** Whether a text is such a table: headings for reference and both coordinates, or columns that can be nothing else. */
export function looksLikePlacements(text: string): boolean {
  const columns = findColumns(text)
  if (columns === undefined || columns.roles.filter((role) => role !== 'other').length < FEWEST_TOLD) return false
  const cells = columns.rows.slice(0, 40).flatMap((row) => cellsUnder(row, columns) ?? [])
  return cells.some((row) => row.x !== undefined && row.y !== undefined)
}

/** @returns faults by line for rows of parts whose coordinates can't be read; no table at all is a fault too */
export function readPlacements({ name, text }: NamedText): Result<Piece> {
  const columns = findColumns(text)
  if (columns === undefined)
    return bad({
      path: `${name}, line 1`,
      found: say('no columns of references and coordinates'),
      expected: say('a table with headings such as Ref, X, Y, Rotation, Side'),
    })
  const faults: Fault[] = []
  const rows = columns.rows.flatMap((row) => rowOf(row, columns, name, faults) ?? [])
  if (faults.length > 0) return bad(...faults.slice(0, MOST_FAULTS))
  if (rows.length === 0 || rows.length > MOST_ROWS)
    return bad({
      path: name,
      found: say('{parts, plural, one {# part} other {# parts}}', { parts: rows.length }),
      expected: say('from 1 to {mostRows} parts', { mostRows: MOST_ROWS }),
    })
  const untold: string[] = []
  const unit = unitOf(text, columns, rows, untold)
  const fileSide = sideSaid(text)
  const parts = rows.map((row): PiecePart => partOf(row, unit, fileSide))
  const far = parts.find(({ at }) => at !== undefined && Math.max(Math.abs(at.x), Math.abs(at.y)) > LARGEST_MM)
  if (far !== undefined)
    return bad({
      path: name,
      found: say('{ref} more than {largestMm} mm away', { ref: far.ref, largestMm: LARGEST_MM }),
      expected: say('places on a board'),
    })
  untold.push(...unsaid(columns))
  return good({ ...emptyPiece(name, 'placements'), parts, untold })
}

type Cells = Partial<Readonly<Record<Role, string>>>

interface PlacedRow {
  readonly cells: Cells
  readonly x: Length
  readonly y: Length
}

interface Length {
  readonly value: number
  readonly mmPerUnit: number | undefined
}

function cellsUnder(row: TableRow, columns: Columns): Cells | undefined {
  const cells = columns.separator === 'blanks' ? fitWords(row.cells, columns.roles) : row.cells
  if (cells === undefined) return undefined
  const under: Partial<Record<Role, string>> = {}
  for (const [i, role] of columns.roles.entries()) if (role !== 'other') under[role] = cells[i] ?? ''
  return under
}

/** Nothing for comments, repeated headings and lines below the table; a fault for a part whose place can't be read. */
function rowOf(row: TableRow, columns: Columns, name: string, faults: Fault[]): PlacedRow | undefined {
  if (row.isComment) return undefined
  const cells = cellsUnder(row, columns)
  const x = lengthIn('x', cells, columns)
  const y = lengthIn('y', cells, columns)
  if (cells !== undefined && x !== undefined && y !== undefined) return { cells, x, y }
  const isPart = /^[A-Z]{1,4}\d+$/i.test(row.cells[columns.roles.indexOf('ref')] ?? '')
  if (isPart)
    faults.push({
      path: `${name}, line ${row.line}`,
      found: row.cells.join(' ').slice(0, 80),
      expected: say('a reference with two coordinates, as in the other rows'),
    })
  return undefined
}

function lengthIn(role: 'x' | 'y', cells: Cells | undefined, columns: Columns): Length | undefined {
  const typed = typedLength(cells?.[role] ?? '')
  if (typed === undefined) return undefined
  return { value: typed.value, mmPerUnit: typed.mmPerUnit ?? columns.headings[columns.roles.indexOf(role)]?.mmPerUnit }
}

/** mm in a bare number: by headings and cells themselves, by a line that names a unit, else by the size of the board. */
function unitOf(text: string, columns: Columns, rows: readonly PlacedRow[], untold: string[]): number {
  const bare = rows.filter(({ x, y }) => x.mmPerUnit === undefined || y.mmPerUnit === undefined)
  if (bare.length === 0) return 1
  const said = writtenLines(text)
    .filter(({ line, isComment }) => isComment || line < columns.headingLine)
    .flatMap(({ text: words }) => unitIn(words) ?? [])
  const [first] = said
  if (first !== undefined) return first
  const spanOf = (values: readonly number[]): number =>
    values.reduce((a, b) => Math.max(a, b), -Infinity) - values.reduce((a, b) => Math.min(a, b), Infinity)
  const span = Math.max(spanOf(bare.map(({ x }) => x.value)), spanOf(bare.map(({ y }) => y.value)))
  const [unit, words] =
    span > LONGEST_MM
      ? [MM_PER_INCH / 1000, say('thousandths of an inch')]
      : span < SHORTEST_MM
        ? [MM_PER_INCH, say('inches')]
        : [1, say('millimetres')]
  untold.push(
    say('Neither headings nor numbers tell the unit of the places; {words} were taken by the size of the board.', {
      words,
    }),
  )
  return unit
}

const UNIT_SAID =
  /\b(?:units?(?:\s+used)?|x\s*,\s*y|coordinates?|dimensions?)\b[^\n]{0,24}?\b(mm|millimet(?:er|re)s?|mils?|thou|inch(?:es)?|in|um|microns?)\b\.?/i
const UNIT_AFTER = /\b(?:units?(?:\s+used)?|x\s*,\s*y)\b\s*(?:[:=]|in)\s*([a-zµ]+)/i

function unitIn(words: string): number | undefined {
  const found = UNIT_AFTER.exec(words) ?? UNIT_SAID.exec(words)
  return found === null ? undefined : mmPer(found[1] ?? '')
}

/** Some writers make a file a side and say which in a comment. */
function sideSaid(text: string): Side | undefined {
  const said = writtenLines(text).find(({ text: words }) => /^side\s*[:=]/i.test(words))
  return said === undefined ? undefined : sideNamed(said.text.replace(/^side\s*[:=]\s*/i, ''))
}

function partOf({ cells, x, y }: PlacedRow, unit: number, fileSide: Side | undefined): PiecePart {
  const at: Point = { x: x.value * (x.mmPerUnit ?? unit), y: y.value * (y.mmPerUnit ?? unit) }
  const turn = typedTurn(cells.rotation)
  const height = cells.height === undefined ? undefined : typedLength(cells.height)
  const heightMm = height === undefined ? undefined : height.value * (height.mmPerUnit ?? unit)
  return {
    ...emptyPart(cells.ref ?? ''),
    at,
    rotationDeg: turn,
    side: sideIn(cells) ?? fileSide,
    value: wordIn(cells.value),
    packageName: wordIn(cells.package),
    heightMm: heightMm !== undefined && heightMm > 0 && heightMm < 200 ? heightMm : undefined,
  }
}

function typedTurn(cell: string | undefined): number | undefined {
  const turn = Number((cell ?? '').replace(/\s*(deg|°)$/i, '').replace(',', '.'))
  return cell === undefined || cell === '' || !Number.isFinite(turn) ? undefined : turn % 360
}

function sideIn(cells: Cells): Side | undefined {
  if (cells.side !== undefined) return sideNamed(cells.side)
  return cells.mirror === undefined ? undefined : mirrorNamed(cells.mirror)
}

/** Writers put a word of their own where a design gives none. */
const wordIn = (cell: string | undefined): string | undefined =>
  cell === undefined || /^(\(?unknown\)?|n\/?a|-|~|comment)?$/i.test(cell) ? undefined : cell

function unsaid({ roles }: Columns): string[] {
  return [
    ...(roles.includes('rotation')
      ? [say('Turns of the table were taken as counter-clockwise, seen from the top; such tables have no rule for it.')]
      : []),
    ...(roles.includes('package') ? [] : [say("The table doesn't name packages.")]),
  ]
}
