/** How a damage shows in the lanes that it spoils. */
import type { Random } from '../../base/index.ts'
import type { BoardModel, Lane } from '../../board/index.ts'
import { chance, logNormal, pick, pickWeighted } from './draw.ts'
import type { LaneFault, Reads } from './types.ts'

export interface Looks {
  /** The lane's bits all go. */
  readonly whole: number
  /** One data line, or two. */
  readonly line: number
  /** A bit now and then: margin, voltage or heat. */
  readonly sparse: number
}

const READS: readonly Reads[] = ['high', 'low', 'random']

/** The lanes of one memory part, in the board's order. */
export const lanesOfPart = (model: BoardModel, ref: string): Lane[] => model.lanes.filter(({ part }) => part === ref)

/** Lanes by their ids; an id that the board does not have is passed over. */
export function lanesCalled(model: BoardModel, ids: readonly string[]): Lane[] {
  return ids.flatMap((id) => model.laneById.get(id) ?? [])
}

const allBits = (lane: Lane): number => 2 ** lane.bitCount - 1

/** Every bit of the lane wrong in every read, always reading high, always low, or at random. */
export const wholeFault = (lane: Lane, random: Random): LaneFault => ({
  lane: lane.id,
  bits: allBits(lane),
  reads: pick(random, READS) ?? 'random',
  perRead: 1,
})

function lineFault(lane: Lane, random: Random): LaneFault {
  const bits = (1 << random.whole(lane.bitCount)) | (chance(random, 0.25) ? 1 << random.whole(lane.bitCount) : 0)
  return { lane: lane.id, bits, reads: chance(random, 0.5) ? 'high' : 'low', perRead: 1 }
}

/** Any bit now and then, in a log-normal share of reads about 0.015, at most 0.5. */
export const sparseFault = (lane: Lane, random: Random): LaneFault => ({
  lane: lane.id,
  bits: allBits(lane),
  reads: 'random',
  perRead: Math.min(0.5, logNormal(random, 0.015, 1)),
})

/** A fault of a lane, its look drawn by the weights of `looks`. */
export function faultOf(lane: Lane, looks: Looks, random: Random): LaneFault {
  const look = pickWeighted(random, { ...looks })
  if (look === 'whole') return wholeFault(lane, random)
  return look === 'line' ? lineFault(lane, random) : sparseFault(lane, random)
}

/** One look for all lanes that one break takes together. */
export function faultsAlike(lanes: readonly Lane[], looks: Looks, random: Random): LaneFault[] {
  const look = pickWeighted(random, { ...looks })
  return lanes.map((lane) => faultOf(lane, { whole: 0, line: 0, sparse: 0, [look]: 1 }, random))
}
