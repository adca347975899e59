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

export const lanesOfPart = (model: BoardModel, ref: string): Lane[] => model.lanes.filter(({ part }) => part === ref)

export function lanesCalled(model: BoardModel, ids: readonly string[]): Lane[] {
  return ids.flatMap((id) => model.laneById.get(id) ?? [])
}

const allBits = (lane: Lane): number => 2 ** lane.bitCount - 1

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

export const sparseFault = (lane: Lane, random: Random): LaneFault => ({
  lane: lane.id,
  bits: allBits(lane),
  reads: 'random',
  perRead: Math.min(0.5, logNormal(random, 0.015, 1)),
})

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
