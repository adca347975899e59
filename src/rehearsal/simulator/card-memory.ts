/** The card's memory as a test sees it: stored words behind lanes that are damaged, weak or fine. */
import type { Random } from '../../base/index.ts'
import type { BoardModel, Lane } from '../../board/index.ts'
import { type MarchTest, runMarch, type TestedMemory } from './march-tests.ts'
import type { Damage, LaneFault, Reads } from './types.ts'
import type { Walk } from './walk.ts'

export interface BadRead {
  readonly element: number
  readonly word: number
  readonly expected: number
  readonly actual: number
}

interface WordFault {
  readonly mask: number
  readonly reads: Reads
  readonly perRead: number
  readonly rows: ReadonlySet<number> | undefined
}

/** Walks one test over the words of the walk and lists the reads that came back wrong. */
export function testCard(
  { model, walk }: { readonly model: BoardModel; readonly walk: Walk },
  damages: readonly Damage[],
  test: MarchTest,
  random: Random,
): BadRead[] {
  const bad: BadRead[] = []
  if (damages.every(({ lanes }) => lanes.length === 0)) return bad
  runMarch(test, cardMemory(model, walk, damages, random), (element, word, expected, actual) => {
    bad.push({ element, word, expected, actual })
  })
  return bad
}

function cardMemory(model: BoardModel, walk: Walk, damages: readonly Damage[], random: Random): TestedMemory {
  const stored = new Uint32Array(walk.addresses.length)
  const faults = faultsByChannel(model, damages)
  return {
    words: stored.length,
    write: (word, value) => {
      stored[word] = value
    },
    read: (word) => {
      let value = stored[word] ?? 0
      for (const fault of faults[walk.channel[word] ?? -1] ?? []) {
        if (fault.rows !== undefined && !fault.rows.has(walk.row[word] ?? -1)) continue
        value = spoil(value, fault, random)
      }
      return value >>> 0
    },
  }
}

function spoil(value: number, { mask, reads, perRead }: WordFault, random: Random): number {
  if (perRead < 1) {
    if (random.next() >= perRead) return value
    return value ^ (mask & (1 << random.whole(32)))
  }
  if (reads === 'high') return value | mask
  if (reads === 'low') return value & ~mask
  return (value & ~mask) | (random.whole(2 ** 32) & mask)
}

function faultsByChannel(model: BoardModel, damages: readonly Damage[]): WordFault[][] {
  const indexOf = new Map(model.channels.map(({ id }, i) => [id, i]))
  const faults: WordFault[][] = model.channels.map(() => [])
  for (const { lanes } of damages) {
    for (const fault of lanes) {
      const lane = model.laneById.get(fault.lane)
      const own = lane === undefined ? undefined : faults[indexOf.get(lane.channel) ?? -1]
      if (lane !== undefined) own?.push(wordFault(model, lane, fault))
    }
  }
  return faults
}

function wordFault(model: BoardModel, lane: Lane, { bits, reads, perRead, rows }: LaneFault): WordFault {
  return { mask: wordMask(model, lane, bits), reads, perRead, rows }
}

/** Bit b of the 32-bit word at byte address A is data bit (8·A + b) mod the channel's bits; the walk keeps A a multiple of 256. */
export function wordMask(model: BoardModel, lane: Lane, bits: number): number {
  const channelBits = model.channelById.get(lane.channel)?.bitCount ?? 32
  let mask = 0
  for (let b = 0; b < 32; b++) {
    const inLane = (b % channelBits) - lane.firstBit
    if (inLane >= 0 && inLane < lane.bitCount && ((bits >>> inLane) & 1) === 1) mask |= 1 << b
  }
  return mask >>> 0
}

/** Failing reads of each lane that has any. */
export function errorsByLane(model: BoardModel, walk: Walk, bad: readonly BadRead[]): Map<string, number> {
  const lanes = model.channels.map(({ lanes: ids }) =>
    ids.flatMap((id) => {
      const lane = model.laneById.get(id)
      return lane === undefined ? [] : [{ id, mask: wordMask(model, lane, 2 ** lane.bitCount - 1) }]
    }),
  )
  const errors = new Map<string, number>()
  for (const { word, expected, actual } of bad) {
    for (const { id, mask } of lanes[walk.channel[word] ?? -1] ?? []) {
      if (((expected ^ actual) & mask) !== 0) errors.set(id, (errors.get(id) ?? 0) + 1)
    }
  }
  return errors
}
