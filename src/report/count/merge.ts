/** Several reports of one board as one tally. */
import { signatureOf } from './signature.ts'
import type { CellCount, CellSpread, ChannelTally, LaneTally, PartTally, Tally } from '../tally.ts'

const MOST_SHOWN = 16
const LEVELS = ['words', 'labels', 'table'] as const

/**
 * Adds tallies of the same board up: counts are summed, a lane fails if it fails in any, passes if it passes in any and
 * fails in none; signatures are read again from the sums. The level is the most detailed one. No tallies: an empty one.
 */
export function mergeTallies(tallies: readonly Tally[]): Tally {
  const [only] = tallies
  if (only !== undefined && tallies.length === 1) return only
  const total = (pick: (tally: Tally) => number): number => tallies.reduce((sum, tally) => sum + pick(tally), 0)
  return {
    rows: {
      read: total((tally) => tally.rows.read),
      unreadable: total((tally) => tally.rows.unreadable),
      unmapped: total((tally) => tally.rows.unmapped),
      skipped: total((tally) => tally.rows.skipped),
    },
    troubles: tallies.flatMap((tally) => tally.troubles),
    level: LEVELS.find((level) => tallies.some((tally) => tally.level === level)) ?? 'table',
    parts: groupBy(
      tallies.flatMap((tally) => tally.parts),
      (part) => part.ref,
    ).map(mergeParts),
  }
}

function groupBy<T>(items: readonly T[], key: (item: T) => string): (readonly [T, ...T[]])[] {
  const groups = new Map<string, [T, ...T[]]>()
  for (const item of items) {
    const group = groups.get(key(item))
    if (group === undefined) groups.set(key(item), [item])
    else group.push(item)
  }
  return [...groups.values()]
}

function mergeParts(parts: readonly [PartTally, ...PartTally[]]): PartTally {
  const channels = groupBy(
    parts.flatMap((part) => part.channels),
    (channel) => channel.id,
  ).map(mergeChannels)
  const spreads = parts.flatMap((part) => (part.cells === undefined ? [] : [part.cells]))
  const merged = {
    ref: parts[0].ref,
    errors: parts.reduce((sum, part) => sum + part.errors, 0),
    channels,
    ...(spreads.length === 0 ? {} : { cells: mergeSpreads(spreads) }),
  }
  return { ...merged, signature: signatureOf(merged) }
}

function mergeChannels(channels: readonly [ChannelTally, ...ChannelTally[]]): ChannelTally {
  return {
    id: channels[0].id,
    lanes: groupBy(
      channels.flatMap((channel) => channel.lanes),
      (lane) => lane.id,
    ).map(mergeLanes),
    errors: channels.reduce((sum, channel) => sum + (channel.errors ?? 0), 0),
  }
}

function mergeLanes(lanes: readonly [LaneTally, ...LaneTally[]]): LaneTally {
  const addUp = (pick: (lane: LaneTally) => readonly number[]): number[] =>
    pick(lanes[0]).map((_, bit) => lanes.reduce((sum, lane) => sum + (pick(lane)[bit] ?? 0), 0))
  const has = (state: LaneTally['state']): boolean => lanes.some((lane) => lane.state === state)
  return {
    id: lanes[0].id,
    errors: lanes.reduce((sum, lane) => sum + lane.errors, 0),
    bits: addUp((lane) => lane.bits),
    high: addUp((lane) => lane.high),
    low: addUp((lane) => lane.low),
    state: has('fail') ? 'fail' : has('pass') ? 'pass' : 'untested',
  }
}

/** Sums of what each shows; different addresses can only be bounded, so the largest number stands. */
function mergeSpreads(spreads: readonly CellSpread[]): CellSpread {
  const largest = (pick: (spread: CellSpread) => number): number => Math.max(...spreads.map(pick))
  return {
    failingRows: spreads.reduce((sum, spread) => sum + spread.failingRows, 0),
    sampled: spreads.reduce((sum, spread) => sum + spread.sampled, 0),
    addresses: largest((spread) => spread.addresses),
    coveredWords: largest((spread) => spread.coveredWords),
    coveredRows: largest((spread) => spread.coveredRows),
    coveredColumns: largest((spread) => spread.coveredColumns),
    mostRows: mergeCounts(spreads.flatMap((spread) => spread.mostRows)),
    mostColumns: mergeCounts(spreads.flatMap((spread) => spread.mostColumns)),
    mostAddresses: mergeCounts(spreads.flatMap((spread) => spread.mostAddresses)),
  }
}

function mergeCounts(counts: readonly CellCount[]): CellCount[] {
  return groupBy(counts, (count) => count.name)
    .map((group) => ({ name: group[0].name, errors: group.reduce((sum, count) => sum + count.errors, 0) }))
    .toSorted((a, b) => b.errors - a.errors || (a.name < b.name ? -1 : 1))
    .slice(0, MOST_SHOWN)
}
