/** What goes wrong by itself: dies, joints under a package, the core in part or as a whole. */
import { distance, type Random } from '../../base/index.ts'
import type { BoardModel, Lane, Region } from '../../board/index.ts'
import { between, chance, pick, pickSome, pickWeighted } from './draw.ts'
import { faultOf, faultsAlike, lanesCalled, lanesOfPart, type Looks } from './faults.ts'
import type { Accident, Scene } from './scene.ts'
import { rowsMet } from './walk.ts'
import type { LaneFault } from './types.ts'

const JOINT_LOOKS: Looks = { whole: 0.5, line: 0.35, sparse: 0.15 }
const COMMAND_LOOKS: Looks = { whole: 0.9, line: 0, sparse: 0.1 }
const CORE_LOOKS: Looks = { whole: 0.65, line: 0.15, sparse: 0.2 }

/** One memory die, any with the same chance; bad rows need the walk, as only rows that the test walks can show. */
export function dieAccident({ model, walk, random }: Scene): Accident {
  const ref = pick(random, model.memories)?.ref ?? ''
  const lanes = lanesOfPart(model, ref)
  const look = pickWeighted(random, { cells: 0.3, line: 0.05, sparse: 0.12, whole: 0.53 })
  const faults = look === 'cells' ? badRows(model, walk, lanes, random) : badLanes(lanes, look, random)
  return {
    cause: { kind: 'die', at: ref },
    damages: [{ kind: 'die', at: ref, ref: liftedAs(model, ref), lanes: faults, lines: [] }],
  }
}

function badLanes(lanes: readonly Lane[], look: 'line' | 'sparse' | 'whole', random: Random): LaneFault[] {
  const looks: Looks = { whole: 0, line: 0, sparse: 0, [look]: 1 }
  const extent = look === 'line' ? 'lane' : pickWeighted(random, { all: 0.45, channel: 0.3, lane: 0.25 })
  const channel = pick(random, lanes)?.channel
  const hit =
    extent === 'all'
      ? lanes
      : extent === 'channel'
        ? lanes.filter((lane) => lane.channel === channel)
        : pickSome(random, lanes, 1)
  return faultsAlike(hit, looks, random)
}

/** A few rows of one channel, with some bits of each word lost. */
function badRows(model: BoardModel, walk: Scene['walk'], lanes: readonly Lane[], random: Random): LaneFault[] {
  const channel = pick(random, lanes)?.channel
  const index = model.channels.findIndex(({ id }) => id === channel)
  const met = [...rowsMet(walk, new Set([index]))].filter(([, words]) => words >= 4).map(([row]) => row)
  const rows = new Set(pickSome(random, met, 1 + random.whole(3)))
  const own = lanes.filter((lane) => lane.channel === channel)
  const hit = chance(random, 0.6) ? own : pickSome(random, own, 1)
  return hit.map((lane) => ({
    lane: lane.id,
    bits: 1 + random.whole(2 ** lane.bitCount - 1),
    reads: chance(random, 0.5) ? 'low' : 'high',
    perRead: 1,
    rows,
  }))
}

/** Bad joints in the field of one lane of a memory. */
export function jointsAccident({ model, random }: Scene): Accident {
  const region = pick(random, memoryRegions(model, 'lane'))
  const lanes = lanesCalled(model, region?.lanes ?? [])
  return underRegion(model, 'joints', region, faultsAlike(lanes, JOINT_LOOKS, random))
}

/** Bad joints in a command field of a memory: all lanes that it serves may fail. */
export function commandAccident({ model, random }: Scene): Accident {
  const region = pick(random, memoryRegions(model, 'command'))
  const lanes = lanesCalled(model, region?.lanes ?? [])
  return underRegion(model, 'command-joints', region, faultsAlike(lanes, COMMAND_LOOKS, random))
}

/** What comes off for a part: the core for a stack on it. */
const liftedAs = (model: BoardModel, ref: string): string => model.partByRef.get(ref)?.description.carriedBy ?? ref

function underRegion(
  model: BoardModel,
  kind: 'joints' | 'command-joints',
  region: Region | undefined,
  lanes: LaneFault[],
): Accident {
  const at = region?.id ?? ''
  const ref = region === undefined ? undefined : liftedAs(model, region.part)
  return { cause: { kind, at }, damages: [{ kind, at, ref, lanes, lines: [] }] }
}

const memoryRegions = (model: BoardModel, role: Region['role']): Region[] =>
  model.regions.filter((region) => region.role === role && region.part !== model.core?.ref && region.lanes.length > 0)

/** Joints under a patch of the core, from a few balls to most of it. */
export function corePatchAccident({ model, random }: Scene): Accident {
  const box = model.core?.box ?? model.box
  const at = { x: between(random, box.minX, box.maxX), y: between(random, box.minY, box.maxY) }
  const radiusMm = 2 * 15 ** random.next()
  const hit = coreLanes(model).filter(
    ({ region }) => distance(region.centre, at) <= radiusMm + 1.5 && chance(random, 0.8),
  )
  return ofCore(model, 'core-patch', hit, random)
}

/** One controller of the core: one channel, or two or three that stand next to each other. */
export function coreControllerAccident({ model, random }: Scene): Accident {
  const count = 1 + random.whole(3)
  const first = random.whole(model.channels.length)
  const ids = Array.from({ length: count }, (_, i) => model.channels[(first + i) % model.channels.length]?.id)
  const hit = coreLanes(model).filter(({ lane }) => ids.includes(lane.channel) && chance(random, 0.9))
  return ofCore(model, 'core-controller', hit, random)
}

/**
 * One quarter of the core's edge, as it lies on the board; each lane there fails with a severity drawn from 0.4 to 1.
 */
export function coreSideAccident({ model, random }: Scene): Accident {
  const severity = between(random, 0.4, 1)
  const middle = model.core?.placement.at ?? { x: 0, y: 0 }
  const quarter = random.whole(4)
  const hit = coreLanes(model).filter(({ region }) => {
    const angle = Math.atan2(region.centre.y - middle.y, region.centre.x - middle.x)
    return Math.floor((angle + Math.PI / 4 + 2 * Math.PI) / (Math.PI / 2)) % 4 === quarter && chance(random, severity)
  })
  return ofCore(model, 'core-side', hit, random, severity)
}

/** The core all over: each lane fails with a severity drawn from 0.15 to 1. */
export function coreWholeAccident({ model, random }: Scene): Accident {
  const severity = between(random, 0.15, 1)
  const hit = coreLanes(model).filter(() => chance(random, severity))
  return ofCore(model, 'core-whole', hit, random, severity)
}

interface CoreLane {
  readonly lane: Lane
  readonly region: Region
}

/** Each with its region on the core; of a stack on it with the stack's own, which lies beside the same end of the die. */
function coreLanes(model: BoardModel): CoreLane[] {
  return model.lanes.flatMap((lane) => {
    const region = model.core === undefined ? undefined : model.regionById.get(lane.coreRegion ?? lane.memoryRegion)
    return region === undefined ? [] : [{ lane, region }]
  })
}

function ofCore(
  model: BoardModel,
  kind: 'core-patch' | 'core-controller' | 'core-side' | 'core-whole',
  hit: readonly CoreLane[],
  random: Random,
  severity = 1,
): Accident {
  const at = model.core?.ref ?? ''
  const lanes = hit.map(({ lane }) => faultOf(lane, CORE_LOOKS, random))
  return {
    cause: { kind, at, severity },
    damages: [{ kind: kind === 'core-patch' ? kind : 'core', at, ref: model.core?.ref, lanes, lines: [] }],
  }
}
