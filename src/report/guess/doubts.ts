/** What speaks against a reading: each a sentence; a reading without any is sure. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { splitterOf } from '../text/cells.ts'
import { isBlankLine, isProse, type LineTeller } from './suspicious.ts'
import { roleOfHeading } from '../names/headings.ts'
import { LIMITS } from './likelihoods.ts'
import { shapeOf } from '../text/shapes.ts'
import { tokensOf } from '../text/tokens.ts'
import type { Trial, TriedRow } from './trial.ts'

/** All that speaks against a reading of the whole beginning. */
export function doubtsOf(trial: Trial, model: BoardModel, teller: LineTeller): string[] {
  const doubts = trial.plan.level === 'words' ? doubtsOfWords(trial, model) : doubtsOfNames(trial, model)
  if (isRagged(trial)) doubts.push(say('some rows have more numbers than others, and those are not read'))
  if (isRunningCount(trial)) doubts.push(say('the counts rise from row to row, as a running number does'))
  if (trial.recipe.record !== undefined && isMixed(trial)) doubts.push(say('the records do not look alike'))
  const told = toldOtherwise(trial)
  if (told !== undefined) doubts.push(told)
  const left = teller(trial)
  if (left.length > 0) {
    const [first] = left
    const shown =
      first === undefined || isBlankLine(first.text) ? '' : say(', such as line {number}', { number: first.number })
    doubts.push(say('{length} lines that may tell of errors are not read{shown}', { length: left.length, shown }))
  }
  return doubts
}

/** Cells go by their number, but rows have different numbers of cells with digits. */
function isRagged({ plan, recipe, rows }: Trial): boolean {
  const { layout } = plan
  const own = plan.level === 'labels' ? rows.filter((row) => row.place !== undefined) : rows
  if (layout.kind === 'pattern') return isRaggedText(plan, own)
  if (layout.kind !== 'spaced' && layout.kind !== 'delimited') return false
  if ((recipe.tables ?? []).length > 0) return false
  const last = Math.max(...plan.columns.map((column) => Number(column.at)))
  const split = splitterOf(layout)
  const beyond = own.map(({ text }) => {
    return split(text)
      .slice(last + 1)
      .filter((cell) => /\d/.test(cell)).length
  })
  return new Set(beyond).size > 1
}

/** By chance six counts in a row rise once in 720 reports. */
const RISING_ROWS = 6

/** Lines such as `address: 1` and `expected: 2`, read as if they told the same. */
export function toldOtherwise({ plan, recipe, rows }: Trial): string | undefined {
  if (plan.level !== 'words' || recipe.record !== undefined || plan.layout.kind === 'json') return undefined
  const told = new Map<string, string>()
  for (const { text } of rows.slice(0, MOST_NAMED)) {
    const lead = /^[^\p{L}\p{N}]*(\p{L}[\p{L} _]*?)\s*[:=]/u.exec(text)?.[1] ?? ''
    const role = roleOfHeading(lead)
    if (role !== undefined && !told.has(role)) told.set(role, lead)
  }
  if (told.size < 2) return undefined
  return say('lines that begin with {leads} are read as if they told the same', {
    leads: [...told.values()].join(', '),
  })
}

/** Rows that are counted one by one from 0 or 1 on. */
const NUMBERED_ROWS = 3

function isRunningCount({ plan, rows }: Trial): boolean {
  if (!plan.columns.some(({ role, of }) => role === 'count' && of === undefined)) return false
  const [first] = rows
  const isNumbering =
    first !== undefined && first.row.count <= 1 && rows.every(({ row }, i) => row.count === first.row.count + i)
  if (isNumbering && rows.length >= NUMBERED_ROWS) return true
  if (rows.length < RISING_ROWS) return false
  return rows.every(({ row }, i) => i === 0 || row.count > (rows[i - 1]?.row.count ?? 0))
}

/** Fewer than four in five records have the lines that most have. */
function isMixed({ rows }: Trial): boolean {
  const counts = new Map<string, number>()
  for (const { text } of rows) {
    // Names such as `B0` look like numbers, others like words.
    const look = shapeOf(text).key.replaceAll('w', 'N')
    counts.set(look, (counts.get(look) ?? 0) + 1)
  }
  return Math.max(...counts.values()) < LIMITS.alike.value * rows.length
}

/** A pattern fits a part of each line: rows with more numbers than others say more than is read. */
function isRaggedText(plan: Trial['plan'], rows: readonly TriedRow[]): boolean {
  if (plan.columns.some(({ role }) => role === 'bits' || role === 'bit')) return false
  const numbers = rows.map(
    ({ text }) => tokensOf(text).filter(({ kind }) => kind === 'number' || kind === 'share').length,
  )
  return plan.level === 'labels' && new Set(numbers).size > 1
}

function doubtsOfNames(trial: Trial, model: BoardModel): string[] {
  const doubts: string[] = []
  const { read, unmapped } = trial.tally.rows
  if (unmapped > LIMITS.strangers.value * (read + unmapped)) {
    doubts.push(say('{unmapped} of {read} rows name nothing on this board', { unmapped, read: read + unmapped }))
  }
  const rows = trial.rows.filter((row) => row.place !== undefined)
  const byOrder = rows.filter((row) => row.place?.by === 'order').length
  if (byOrder > 0)
    doubts.push(say('{byOrder} names fit only by their number in the board’s order, counted from 0', { byOrder }))
  if (isEverywhere(rows, model))
    doubts.push(say('the errors are spread evenly over the whole board, as real faults are not'))
  return doubts
}

/** Every place that is named has errors, and about as many as the others. */
function isEverywhere(rows: readonly TriedRow[], model: BoardModel): boolean {
  const errors = new Map<string, number>()
  for (const { place, row } of rows) {
    if (place === undefined) continue
    const key = `${place.kind} ${place.index}`
    errors.set(key, (errors.get(key) ?? 0) + row.count)
  }
  const counts = [...errors.values()]
  const wide = errors.size >= Math.max(4, model.memories.length)
  return wide && Math.min(...counts) > 0 && Math.max(...counts) < LIMITS.evenly.value * Math.min(...counts)
}

function doubtsOfWords(trial: Trial, model: BoardModel): string[] {
  const { rows, map, plan } = trial
  const doubts: string[] = []
  const n = rows.length
  if (n === 0 || map === undefined) return doubts
  const addresses = rows.map(({ row }) => row.address)
  const outside = addresses.filter((address) => address < map.firstAddress || address >= map.endAddress).length
  if (outside > LIMITS.outside.value * n)
    doubts.push(say('{outside} of {n} addresses lie beyond this board’s memory', { outside, n }))
  const hasWords =
    plan.bits === 'expected+actual' || plan.bits === 'expected+difference' || plan.bits === 'actual+difference'
  const same = rows.filter(({ row }) => row.differenceLow === 0 && row.differenceHigh === 0).length
  if (plan.bits !== 'none' && same > LIMITS.noDifference.value * n)
    doubts.push(say('{same} of {n} rows tell of no difference at all', { same, n }))
  const wide = rows.some(({ row }) => (row.differenceLow & ~0xffff) !== 0 || row.differenceHigh !== 0)
  const odd = addresses.filter((address) => address % 4 !== 0).length
  if ((hasWords || plan.bits === 'difference') && wide && odd > LIMITS.unaligned.value * n) {
    doubts.push(say('{odd} of {n} addresses are no multiples of 4: they may count words instead of bytes', { odd, n }))
  }
  const distinct = new Set(addresses).size
  if ((n >= 3 && distinct === 1) || (n >= 8 && distinct < LIMITS.repeated.value * n))
    doubts.push(say('only {distinct} different addresses in {n} rows', { distinct, n }))
  if (isEvenOverChannels(addresses, trial, model)) {
    doubts.push(say('the addresses are spread evenly over all channels, as those of real faults are not'))
  }
  const steps = new Set(addresses.slice(1).map((address, i) => address - (addresses[i] ?? 0)))
  if (n >= 5 && steps.size === 1 && Math.abs([...steps][0] ?? 0) <= 4)
    doubts.push(say('the addresses rise in equal small steps, as a running number does'))
  const prose = rows.filter(({ text }) => isProse(text)).length
  if (prose > 0 && prose < LIMITS.prose.value * n)
    doubts.push(say('{prose} lines that begin with a word are read as rows, though others do not', { prose }))
  if (leavesWords(trial)) doubts.push(say('the rows have words beside the address that are not read'))
  const against = namedOtherwise(rows, trial, model)
  if (against !== undefined) doubts.push(against)
  const torn = rows.filter(
    ({ row }) => !Number.isNaN(row.end) && channelAt(map, row.address) !== channelAt(map, row.end),
  ).length
  if (torn > 0)
    doubts.push(say('{torn} ranges reach over several channels, and nobody says which of them failed', { torn }))
  return doubts
}

/** Rows that tell an address and no bits, though more words of memory stand in them. */
function leavesWords({ plan, rows }: Trial): boolean {
  if (plan.bits !== 'none') return false
  const read = plan.columns.some(({ role }) => role === 'end') ? 2 : 1
  const more = rows.filter(
    ({ text }) =>
      tokensOf(text).filter(({ kind, text: own }) => kind === 'hex' && own.length >= LONG_WORD).length > read,
  )
  return more.length > MOST_WITH_MORE * rows.length
}

const LONG_WORD = 6
const MOST_WITH_MORE = 0.2

const MOST_NAMED = 200

/** A row that names a package of the board, and whose address lies in another. */
function namedOtherwise(rows: readonly TriedRow[], { map, plan }: Trial, model: BoardModel): string | undefined {
  // `D8` in a list of bits is no part.
  if (map === undefined || plan.columns.some(({ role }) => role === 'bits')) return undefined
  const refs = new Map(model.memories.map(({ ref }) => [ref.toLowerCase(), ref]))
  for (const { text, line, row } of rows.slice(0, MOST_NAMED)) {
    const named = (text.match(/[\p{L}\p{N}_]+/gu) ?? []).flatMap((word) => refs.get(word.toLowerCase()) ?? [])
    const parts = model.channelById.get(map.channelIds[channelAt(map, row.address)] ?? '')?.parts ?? []
    if (named.length === 0 || parts.length === 0 || named.some((ref) => parts.includes(ref))) continue
    return say('line {line} names {named}, and its address lies in {parts}: the map may be another', {
      line,
      named: named.join(', '),
      parts: parts.join(', '),
    })
  }
  return undefined
}

function channelAt(map: NonNullable<Trial['map']>, address: number): number {
  const channels = new Int32Array(1)
  map.decodeChannels(Float64Array.of(address), channels)
  return channels[0] ?? -1
}

function isEvenOverChannels(addresses: readonly number[], { map }: Trial, model: BoardModel): boolean {
  if (map === undefined || addresses.length < 4 * model.channels.length) return false
  const channels = new Int32Array(addresses.length)
  map.decodeChannels(Float64Array.from(addresses), channels)
  const hits = new Map<number, number>()
  for (const channel of channels) hits.set(channel, (hits.get(channel) ?? 0) + 1)
  return (
    hits.size >= model.channels.length &&
    Math.min(...hits.values()) > (LIMITS.fair.value * addresses.length) / hits.size
  )
}
