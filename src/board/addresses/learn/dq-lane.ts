/** What the order of a lane's data bits is learnt from: the balls of its package, and lines of failing bits. */
import { bad, type Fault, good, type Result, showValue, say } from '../../../base/index.ts'
import type { BoardModel, Lane } from '../../model.ts'
import { packageOutlines } from '../../packages.ts'
import type { FailedBit } from './dq-order.ts'

/** Balls of DQ 0, 1, 2 … of a lane, by its package's ball map; undefined where no map of its package ships. */
export function dqBallsOf({ partByRef }: BoardModel, { part, memoryRegion }: Lane): readonly string[] | undefined {
  const name = partByRef.get(part)?.description.package
  const outline = name === undefined ? undefined : packageOutlines.get(name)
  return outline?.regions.find((region) => `${part}/${region.name}` === memoryRegion)?.dq
}

const MOST_LINES = 10_000
const MOST_FAULTS = 20
const HEADER = /^"?bits?"?[,;\t]/i

/**
 * Reads lines `bit,ball`: the data bit that failed while that ball was open or held. Semicolons and tabs part as well.
 * Empty lines, lines that start with # and a first line `bit,…` are passed.
 * @returns the lines that tell something; or the first 20 faults, each with its line: no bit, no ball, a third field; more
 * than 10,000 lines; nothing at all
 */
export function readFailedBits(text: string): Result<FailedBit[]> {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/)
  if (lines.length > MOST_LINES + 1)
    return bad({
      path: `line ${MOST_LINES + 1}`,
      found: say('one more line'),
      expected: say('at most {mostLines} lines', { mostLines: MOST_LINES }),
    })
  const told = lines
    .map((words, i) => ({ words: words.trim(), line: i + 1 }))
    .filter(({ words }) => words !== '' && !words.startsWith('#'))
  const rows = told.filter(({ words }, i) => i > 0 || !HEADER.test(words)).map(rowOf)
  const faults = rows.flatMap((row) => ('expected' in row ? [row] : []))
  if (faults.length > 0) return bad(...faults.slice(0, MOST_FAULTS))
  if (rows.length === 0) return bad({ path: 'line 1', found: say('nothing'), expected: say('lines such as 3,B4') })
  return good(rows.flatMap((row) => ('expected' in row ? [] : [row])))
}

function rowOf({ words, line }: { readonly words: string; readonly line: number }): FailedBit | Fault {
  const [bit = '', ball = '', ...more] = words.split(/[,;\t]/).map((field) => field.trim().replace(/^"(.*)"$/, '$1'))
  const expected = say('a data bit and its ball, such as 3,B4')
  if (!/^\d{1,3}$/.test(bit) || ball === '' || more.length > 0)
    return { path: `line ${line}`, found: showValue(words), expected }
  return { bit: Number(bit), ball, line }
}
