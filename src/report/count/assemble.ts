/** From counters to the tally that other rooms read. */
import type { PlacedPart } from '../../board/index.ts'
import type { Counts } from './counts.ts'
import { signatureOf } from './signature.ts'
import type { CellSpread, ChannelTally, LaneTally, PartTally, Tally } from '../tally.ts'

/** The tally of one reading, all memory parts in the board's order; a part without errors is there and `clean`. */
export function assembleTally(
  counts: Counts,
  head: Pick<Tally, 'rows' | 'troubles' | 'level'>,
  spreads: ReadonlyMap<string, CellSpread> = new Map(),
): Tally {
  const lanes = counts.model.lanes.map((_, i) => laneTally(counts, i))
  const parts = counts.model.memories.map((part, i) => partTally(counts, lanes, part, i, spreads.get(part.ref)))
  return { ...head, parts }
}

function laneTally(counts: Counts, lane: number): LaneTally {
  const { id = '', bitCount = 0 } = counts.model.lanes[lane] ?? {}
  const from = counts.laneBase[lane] ?? 0
  const high = [...counts.high.subarray(from, from + bitCount)]
  const low = [...counts.low.subarray(from, from + bitCount)]
  const unsaid = counts.unsaid.subarray(from, from + bitCount)
  const errors = counts.laneErrors[lane] ?? 0
  const failed = errors > 0 || counts.laneFailed[lane] === 1
  return {
    id,
    errors,
    bits: high.map((count, bit) => count + (low[bit] ?? 0) + (unsaid[bit] ?? 0)),
    high,
    low,
    state: failed ? 'fail' : counts.laneCovered[lane] === 1 ? 'pass' : 'untested',
  }
}

function partTally(
  counts: Counts,
  lanes: readonly LaneTally[],
  part: PlacedPart,
  index: number,
  cells: CellSpread | undefined,
): PartTally {
  const { model } = counts
  const channels: ChannelTally[] = model.channels.flatMap((channel, c) => {
    const own = lanes.filter((_, i) => model.lanes[i]?.channel === channel.id && model.lanes[i]?.part === part.ref)
    return own.length === 0 ? [] : [{ id: channel.id, lanes: own, errors: counts.channelErrors[c] ?? 0 }]
  })
  const own = {
    ref: part.ref,
    errors: counts.partErrors[index] ?? 0,
    channels,
    ...(cells === undefined ? {} : { cells }),
  }
  return { ...own, signature: signatureOf(own) }
}
