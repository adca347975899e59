/** Labelled addresses, and how a text of `address,label` lines becomes them. */
import { bad, type Fault, good, type Result, showValue, say } from '../../../base/index.ts'

/** One entry a row, in the order of the text. */
export interface Observations {
  /** Whole numbers below 2^52. */
  readonly addresses: Float64Array
  /** Index into `labels`. */
  readonly labelOf: Int32Array
  readonly labels: readonly string[]
  /** Line of each row, from 1. */
  readonly lines: Int32Array
}

export type LabelKind = 'known' | 'unknown-one' | 'not'

/** `U5` is a package; `?a` is one package, which one is unknown; `!U5` is any package but U5. */
export function kindOfLabel(label: string): LabelKind {
  if (label.startsWith('?')) return 'unknown-one'
  return label.startsWith('!') ? 'not' : 'known'
}

export const MOST_LABELS = 4096
export const MOST_ROWS = 2_000_000
const MOST_FAULTS = 20
const MOST_LABEL_CHARACTERS = 80
const ADDRESS_LIMIT = 2 ** 52
const HEADER = /^"?addr(ess(es)?)?"?[,;\t]/i

/**
 * Reads lines `address,label`: the address hexadecimal (0x…) or decimal, the label a name. Semicolons and tabs part as
 * well; a label may stand in double quotes. Empty lines, lines that start with # and a first line `address,…` are passed.
 * @returns the rows; or the first 20 faults, each with its line: no address, one of more than 52 bits, no label, a third
 * field, a quote that does not end, control characters; more than 4096 labels or 2,000,000 rows; nothing at all
 */
export function readObservations(text: string): Result<Observations> {
  const reader = rowReader()
  let start = text.startsWith('\ufeff') ? 1 : 0
  for (let line = 1; start < text.length && !reader.isFull(); line++) {
    const end = lineEnd(text, start)
    reader.read(text.slice(start, end), line)
    start = text[end] === '\r' && text[end + 1] === '\n' ? end + 2 : end + 1
  }
  return reader.finish()
}

function lineEnd(text: string, start: number): number {
  for (let i = start; i < text.length; i++) {
    const code = text.charCodeAt(i)
    if (code === 10 || code === 13) return i
  }
  return text.length
}

interface RowReader {
  readonly read: (line: string, number: number) => void
  /** True where nothing more need be read: too many faults or rows. */
  readonly isFull: () => boolean
  readonly finish: () => Result<Observations>
}

function rowReader(): RowReader {
  const addresses: number[] = []
  const labelOf: number[] = []
  const lines: number[] = []
  const indexes = new Map<string, number>()
  const faults: Fault[] = []

  const read = (line: string, number: number): void => {
    if (line === '' || line.startsWith('#') || line.trim() === '') return
    if (addresses.length === 0 && faults.length === 0 && HEADER.test(line)) return
    const path = say('line {number}', { number })
    const row = rowOf(line)
    if ('expected' in row) {
      faults.push({ path, ...row })
      return
    }
    const index = indexes.get(row.label) ?? indexes.size
    indexes.set(row.label, index)
    if (index >= MOST_LABELS)
      faults.push({
        path,
        found: say('one more label'),
        expected: say('at most {mostLabels} labels', { mostLabels: MOST_LABELS }),
      })
    if (addresses.length >= MOST_ROWS)
      faults.push({
        path,
        found: say('one more row'),
        expected: say('at most {mostRows} rows', { mostRows: MOST_ROWS }),
        todo: ENOUGH,
      })
    addresses.push(row.address)
    labelOf.push(index)
    lines.push(number)
  }
  const isFull = (): boolean =>
    faults.length >= MOST_FAULTS || indexes.size > MOST_LABELS || addresses.length > MOST_ROWS
  const finish = (): Result<Observations> => {
    if (faults.length >= MOST_FAULTS) return bad(...faults.slice(0, -1), { ...lastOf(faults), todo: STOPPED })
    if (faults.length > 0) return bad(...faults)
    if (addresses.length === 0)
      return bad({
        path: 'line 1',
        found: say('nothing'),
        expected: say('lines such as 0x1f400,U5'),
        todo: say('Give one a line.'),
      })
    return good({
      addresses: Float64Array.from(addresses),
      labelOf: Int32Array.from(labelOf),
      labels: [...indexes.keys()],
      lines: Int32Array.from(lines),
    })
  }
  return { read, isFull, finish }
}

const STOPPED = say('Reading stopped here, after {mostFaults} faults.', { mostFaults: MOST_FAULTS })
const ENOUGH = say('A few thousand rows tell as much; give a part of them.')

const lastOf = (faults: readonly Fault[]): Fault => faults.at(-1) ?? { path: '', found: '', expected: '' }

type Wrong = Pick<Fault, 'found' | 'expected' | 'todo'>

function rowOf(line: string): { address: number; label: string } | Wrong {
  const cut = line.search(/[,;\t]/)
  const word = (cut < 0 ? line : line.slice(0, cut)).trim()
  const address = addressOf(word)
  if (typeof address !== 'number') return address
  if (cut < 0) return { found: showValue(line.trim()), expected: say('a label after the address, such as 0x1f400,U5') }
  const label = labelOfField(line.slice(cut + 1).trim(), line[cut] ?? ',')
  return typeof label === 'string' ? { address, label } : label
}

function addressOf(word: string): number | Wrong {
  const bare = /^"(.*)"$/.exec(word)?.[1] ?? word
  const isNumber = /^(0x[0-9a-f]+|\d+)$/i.test(bare)
  if (!isNumber) return { found: showValue(word), expected: say('an address such as 0x1f400 or 128000') }
  const significant = bare.replace(/^0x0*|^0+/i, '')
  const value = significant.length > 16 ? Infinity : Number(bare)
  return value < ADDRESS_LIMIT ? value : { found: showValue(word), expected: say('an address of at most 52 bits') }
}

function labelOfField(field: string, separator: string): string | Wrong {
  const quoted = field.startsWith('"')
  const label = quoted ? /^"([^"]*)"$/.exec(field)?.[1]?.trim() : field
  if (label === undefined) return { found: showValue(field), expected: say('a label whose quotes end with the line') }
  if (!quoted && label.includes(separator))
    return {
      found: showValue(field),
      expected: say('two fields, address and label'),
      todo: say('Put the label in quotes.'),
    }
  if (label === '' || label === '?' || label === '!')
    return { found: showValue(field), expected: say('a label such as U5, ?a or !U5') }
  if (label.length > MOST_LABEL_CHARACTERS)
    return {
      found: say('{count} characters', { count: label.length }),
      expected: say('a label of at most {mostLabelCharacters}', { mostLabelCharacters: MOST_LABEL_CHARACTERS }),
    }
  // oxlint-disable-next-line no-control-regex -- they are what is refused
  if (/[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufffd]/.test(label))
    return { found: showValue(field), expected: say('a label of printable characters') }
  return label
}
