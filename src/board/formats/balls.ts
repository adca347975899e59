/** A table of a package's balls, as a shop has it from a schematic or a data sheet: ball, signal, net. */
import { bad, type Fault, good, type Result, showValue, say } from '../../base/index.ts'
import { cellsOf, separators, type TableRow, writtenLines } from './placements/rows.ts'

export interface NamedBall {
  readonly ball: string
  readonly signal?: string
  readonly net?: string
}

const BALL = /^[A-Z]{1,2}[1-9]\d?$/
const MOST_ROWS = 20_000
const HEADINGS: readonly (readonly [keyof NamedBall, RegExp])[] = [
  ['ball', /^(ball|balls|pin|pad|pinnumber|padnumber|ballname|ballnumber|location)$/],
  ['signal', /^(signal|signalname|function|pinname|name|pinfunction)$/],
  ['net', /^(net|netname)$/],
]

/**
 * Reads lines such as `G2,DQ3_A` or `G2,DQ3_A,MEM_D3`, parted by commas, semicolons, tabs, bars or blanks, with headings or
 * without; then the first name of a ball is the ball, what follows it the signal, and what follows that the net. Comments
 * and empty lines are passed.
 * @returns at most 20,000 balls, each once; or the first 20 faults: a line without a ball, a ball twice with two signals
 */
export function readBalls(text: string): Result<NamedBall[]> {
  const lines = writtenLines(text).filter(({ isComment }) => !isComment)
  if (lines.length === 0)
    return bad({
      path: 'line 1',
      found: say('nothing'),
      expected: say('lines such as G2,DQ3_A'),
      todo: say('Give one a line.'),
    })
  if (lines.length > MOST_ROWS)
    return bad({
      path: `line ${MOST_ROWS + 1}`,
      found: say('one more line'),
      expected: say('at most {mostRows} lines', { mostRows: MOST_ROWS }),
    })
  const separator = separators.find((one) => lines.every(({ text: line }) => cellsOf(line, one).length > 1)) ?? ','
  const rows = lines.map(({ line, text: words }) => ({ line, cells: cellsOf(words, separator), isComment: false }))
  const columns = columnsOf(rows)
  const read = (columns.hasHead ? rows.slice(1) : rows).map((row) => ballOf(row, columns))
  const faults = read.flatMap((one) => ('expected' in one ? [one] : []))
  const balls = read.flatMap((one) => ('expected' in one ? [] : [one]))
  const twice = repeated(balls)
  if (faults.length + twice.length > 0) return bad(...[...faults, ...twice].slice(0, 20))
  return good([...new Map(balls.map(({ named }) => [named.ball, named])).values()])
}

interface ReadBall {
  readonly line: number
  readonly named: NamedBall
}

interface BallColumns {
  readonly ball: number
  readonly signal: number | undefined
  readonly net: number | undefined
  readonly hasHead: boolean
}

/** By its headings; without, by the first column that holds names of balls. */
function columnsOf(rows: readonly TableRow[]): BallColumns {
  const head = rows[0]?.cells.map((cell) => cell.toLowerCase().replace(/[^a-z]/g, '')) ?? []
  const at = (role: keyof NamedBall): number | undefined => {
    const words = HEADINGS.find(([one]) => one === role)?.[1]
    const found = head.findIndex((cell) => words?.test(cell) === true)
    return found < 0 ? undefined : found
  }
  const ball = at('ball')
  if (ball !== undefined && !isBall(rows[0]?.cells[ball]))
    return { ball, signal: at('signal'), net: at('net'), hasHead: true }
  const width = Math.max(...rows.map(({ cells }) => cells.length))
  const shares = Array.from({ length: width }, (_, i) => rows.filter(({ cells }) => isBall(cells[i])).length)
  const first = Math.max(0, shares.indexOf(Math.max(...shares)))
  return { ball: first, signal: first + 1, net: first + 2, hasHead: false }
}

const isBall = (cell: string | undefined): boolean => BALL.test(cell?.toUpperCase() ?? '')

function ballOf({ line, cells }: TableRow, columns: BallColumns): ReadBall | Fault {
  const ball = cells[columns.ball]?.toUpperCase() ?? ''
  if (!BALL.test(ball))
    return {
      path: `line ${line}`,
      found: showValue(cells.join(', ')),
      expected: say('a ball such as G2, and its signal'),
    }
  const cellAt = (column: number | undefined): string =>
    column === undefined ? '' : (cells[column] ?? '').slice(0, 120)
  const signal = cellAt(columns.signal)
  const net = cellAt(columns.net)
  return { line, named: { ball, ...(signal === '' ? {} : { signal }), ...(net === '' ? {} : { net }) } }
}

function repeated(balls: readonly ReadBall[]): Fault[] {
  const first = new Map<string, NamedBall>()
  return balls.flatMap(({ line, named }) => {
    const before = first.get(named.ball)
    first.set(named.ball, before ?? named)
    if (before === undefined || (before.signal === named.signal && before.net === named.net)) return []
    return [
      {
        path: `line ${line}`,
        found: say('{ball} a second time, otherwise', { ball: named.ball }),
        expected: say('each ball once'),
      },
    ]
  })
}
