/** What kind of failure a part's counts look like. The order of the tests is the order of the functions here. */
import { joined, numberWords, percentOf, say } from '../../base/index.ts'
import type { CellCount, CellSpread, ChannelTally, LaneTally, Signature } from '../tally.ts'
import { THRESHOLDS } from './thresholds.ts'

/** What a signature is read from: one part's counts, without the signature. */
export interface PartCounts {
  readonly ref: string
  readonly errors: number
  readonly channels: readonly ChannelTally[]
  readonly cells?: CellSpread
}

type Guess = Omit<Signature, 'stuck'>

/** The signature of one part, with the numbers that decided and a sentence; see `thresholds.ts` for the lines drawn. */
export function signatureOf(part: PartCounts): Signature {
  const guess =
    clean(part) ?? cells(part) ?? unplaced(part) ?? tooFew(part) ?? line(part) ?? sparse(part) ?? wholeLanes(part)
  return { ...guess, stuck: stuckOf(lanesOf(part)) }
}

const lanesOf = (part: PartCounts): LaneTally[] => part.channels.flatMap((channel) => channel.lanes)

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)

const rowsOf = (errors: number): string =>
  say('{errors, plural, one {# failing row} other {# failing rows}}', { errors })

function clean(part: PartCounts): Guess | undefined {
  if (part.errors > 0 || lanesOf(part).some((lane) => lane.state === 'fail')) return undefined
  const tested = lanesOf(part).some((lane) => lane.state === 'pass')
  const sentence = tested
    ? say('No errors in {ref}.', { ref: part.ref })
    : say('The report says nothing about {ref}.', { ref: part.ref })
  return { kind: 'clean', where: part.ref, numbers: [{ name: say('errors'), value: 0 }], sentence }
}

function cells(part: PartCounts): Guess | undefined {
  const spread = part.cells
  if (spread === undefined) return undefined
  const covered = { rows: spread.coveredRows, columns: spread.coveredColumns, addresses: spread.coveredWords }
  return (
    cellKind(part, 'addresses', spread.mostAddresses, covered.addresses, spread.failingRows) ??
    cellKind(part, 'rows', spread.mostRows, covered.rows, spread.failingRows) ??
    cellKind(part, 'columns', spread.mostColumns, covered.columns, spread.failingRows)
  )
}

function cellKind(
  part: PartCounts,
  what: 'rows' | 'columns' | 'addresses',
  most: readonly CellCount[],
  covered: number,
  total: number,
): Guess | undefined {
  let held = 0
  let groups = 0
  while (groups < most.length && groups < THRESHOLDS.cellGroups && held < THRESHOLDS.cellShare * total) {
    held += most[groups]?.errors ?? 0
    groups++
  }
  if (groups === 0 || held < THRESHOLDS.cellShare * total) return undefined
  if (total < groups * THRESHOLDS.errorsPerGroup || covered < groups * THRESHOLDS.coveredPerGroup) return undefined
  const where = most
    .slice(0, Math.min(groups, 3))
    .map((group) => group.name)
    .join(', ')
  return {
    kind: 'cells',
    where: `${part.ref} ${where}${groups > 3 ? say(' and {groups} more', { groups: groups - 3 }) : ''}`,
    numbers: [
      {
        name: say('{what, select, rows {rows} columns {columns} other {addresses}} that hold most errors', { what }),
        value: groups,
      },
      { name: say('share of the errors in them'), value: Math.min(1, held / total) },
      {
        name: say('{what, select, rows {rows} columns {columns} other {addresses}} that the report covers, at least', {
          what,
        }),
        value: covered,
      },
    ],
    sentence: say(
      '{held} of the errors of {ref} lie in {groups} {what, select, rows {{groups, plural, one {row} other {rows}}} columns {{groups, plural, one {column} other {columns}}} other {{groups, plural, one {address} other {addresses}}}} of its array ({where}), out of at least {covered} that the report covers: the die itself.',
      { held: percentOf(Math.min(held, total), total), ref: part.ref, groups, what, where, covered },
    ),
  }
}

/** Errors that the report places in the part or a channel but in no lane. */
function unplaced(part: PartCounts): Guess | undefined {
  if (lanesOf(part).some((lane) => lane.errors > 0)) return undefined
  const failing = part.channels.filter((channel) => channel.lanes.some((lane) => lane.state === 'fail'))
  const numbers = [
    { name: say('errors'), value: part.errors },
    { name: say('channels that fail'), value: failing.length },
  ]
  const [only] = failing
  if (failing.length === 1 && only !== undefined && part.channels.length > 1) {
    const sentence = say('All errors of {ref} are in channel {id}; the report does not say in which lane.', {
      ref: part.ref,
      id: only.id,
    })
    return { kind: 'channel', where: only.id, numbers, sentence }
  }
  const sentence = say('{ref} has errors; the report does not say in which lanes.', { ref: part.ref })
  return { kind: 'package', where: part.ref, numbers, sentence }
}

function tooFew(part: PartCounts): Guess | undefined {
  if (part.errors >= THRESHOLDS.few) return undefined
  const lanes = lanesOf(part).filter((lane) => lane.errors > 0)
  return {
    kind: 'sparse',
    where: lanes.map((lane) => lane.id).join(', '),
    numbers: [{ name: say('failing rows'), value: part.errors }],
    sentence: say('Only {errors} in {ref}: too few to see a place in; margin, voltage or heat are possible.', {
      errors: rowsOf(part.errors),
      ref: part.ref,
    }),
  }
}

interface BitCount {
  readonly name: string
  readonly errors: number
}

function line(part: PartCounts): Guess | undefined {
  const bits: BitCount[] = lanesOf(part).flatMap((lane) =>
    lane.bits.map((errors, bit) => ({ name: say('{lane} bit {bit}', { lane: lane.id, bit }), errors })),
  )
  const total = sum(bits.map((bit) => bit.errors))
  if (total === 0) return undefined
  const sorted = [...bits].toSorted((a, b) => b.errors - a.errors)
  for (let n = 1; n <= THRESHOLDS.lineBits; n++) {
    const lines = sorted.slice(0, n)
    const share = sum(lines.map((bit) => bit.errors)) / total
    if (share < THRESHOLDS.nearlyAll) continue
    const where = joined(lines.map((bit) => bit.name))
    return {
      kind: 'line',
      where,
      numbers: [
        {
          name: n === 1 ? say('share of bad bits in one DQ') : say('share of bad bits in {n} DQ', { n }),
          value: share,
        },
        { name: say('bad bits'), value: total },
      ],
      sentence: say('{where} {n, plural, one {holds} other {hold}} {share} of the {total} bad bits of {ref}.', {
        where,
        n,
        share: percentOf(share, 1),
        total,
        ref: part.ref,
      }),
    }
  }
  return undefined
}

function sparse(part: PartCounts): Guess | undefined {
  if (part.cells === undefined) return undefined
  const { failing, total } = failingLanes(part)
  const density = part.cells.failingRows / part.cells.coveredWords
  if (failing.length < Math.min(2, total) || density >= THRESHOLDS.sparseDensity) return undefined
  const badBits = sum(lanesOf(part).flatMap((lane) => lane.bits))
  const bitsPerRow = badBits / Math.max(1, part.errors)
  if (isOnePlace(part, failing) || bitsPerRow > THRESHOLDS.sparseBitsPerRow) return undefined
  return {
    kind: 'sparse',
    where: failing.map((lane) => lane.id).join(', '),
    numbers: [
      { name: say('failing rows'), value: part.errors },
      { name: say('words covered per failing row'), value: 1 / density },
      { name: say('bad bits a row'), value: bitsPerRow },
      { name: say('lanes that fail'), value: failing.length },
    ],
    sentence: say(
      '{errors} scattered over {lanes} lanes of {ref}, one in {words} words covered: margin, voltage or heat rather than a break.',
      {
        errors: rowsOf(part.errors),
        lanes: failing.length,
        ref: part.ref,
        words: numberWords(Number((1 / density).toPrecision(2))),
      },
    ),
  }
}

/** All failing lanes in one lane or one channel of several: a place, however few the errors. */
function isOnePlace(part: PartCounts, failing: readonly LaneTally[]): boolean {
  if (failing.length === 1) return true
  const channels = part.channels.filter((channel) => channel.lanes.some((lane) => failing.includes(lane)))
  return channels.length === 1 && part.channels.length > 1
}

function failingLanes(part: PartCounts): { failing: LaneTally[]; total: number; share: number } {
  const lanes = lanesOf(part)
  const errors = sum(lanes.map((lane) => lane.errors))
  const failing = lanes.filter((lane) => lane.errors > 0 && lane.errors >= THRESHOLDS.strayShare * errors)
  return { failing, total: lanes.length, share: errors === 0 ? 0 : sum(failing.map((lane) => lane.errors)) / errors }
}

/** Byte, channel or package, by which lanes fail. */
function wholeLanes(part: PartCounts): Guess {
  const { failing, total, share } = failingLanes(part)
  const channels = part.channels.filter((channel) => channel.lanes.some((lane) => failing.includes(lane)))
  const whole = channels.filter((channel) => channel.lanes.every((lane) => failing.includes(lane)))
  const names = failing.map((lane) => lane.id).join(', ')
  const numbers = [
    { name: say('failing rows'), value: part.errors },
    { name: say('lanes that fail'), value: failing.length },
    { name: say('lanes of the part'), value: total },
    { name: say('share of errors in them'), value: share },
  ]
  const [channel] = whole
  const severalChannels = part.channels.length > 1
  if (failing.length < total && whole.every((full) => full.lanes.length === 1)) {
    const sentence = say(
      '{names} {count, plural, one {holds} other {hold}} {share} of the errors of {ref}; the lanes beside are clean.',
      { names, count: failing.length, share: percentOf(share, 1), ref: part.ref },
    )
    return { kind: 'byte', where: names, numbers, sentence }
  }
  if (severalChannels && channels.length === 1 && channel !== undefined) {
    const sentence = say(
      'Channel {id} holds {share} of the errors of {ref}, in all of its {lanes} lanes; the rest of the part is clean.',
      { id: channel.id, share: percentOf(share, 1), ref: part.ref, lanes: channel.lanes.length },
    )
    return { kind: 'channel', where: channel.id, numbers, sentence }
  }
  const extent =
    failing.length === total
      ? say('all {total} lanes', { total })
      : say('{failing} of {total} lanes, over several channels', { failing: failing.length, total })
  return {
    kind: 'package',
    where: part.ref,
    numbers,
    sentence: say('Errors in {extent} of {ref}.', { extent, ref: part.ref }),
  }
}

function stuckOf(lanes: readonly LaneTally[]): Signature['stuck'] {
  const high = sum(lanes.flatMap((lane) => lane.high))
  const low = sum(lanes.flatMap((lane) => lane.low))
  if (high + low === 0) return undefined
  const share = high / (high + low)
  if (share >= THRESHOLDS.stuckShare) return 'high'
  return share <= 1 - THRESHOLDS.stuckShare ? 'low' : 'both'
}
