/** Faults of channels and lanes: names, parts, regions, balls, swaps. */
import { type Fault, jsonPath, showValue } from '../base/index.ts'
import { ballsOf } from './ball-field.ts'
import { repeated } from './check-parts.ts'
import type { BoardDraft, Placed } from './draft.ts'
import { laneIdOf, lanePart, regionNameOf } from './lanes.ts'
import type { PackageOutline } from './package-outline.ts'
import type { ChannelDescription, LaneDescription, Part } from './schema.ts'

interface Known {
  readonly draft: BoardDraft
  readonly outlines: ReadonlyMap<string, PackageOutline>
  readonly partByRef: ReadonlyMap<string, Part>
  readonly core: Part | undefined
  readonly ballNames: (part: Part) => ReadonlySet<string> | undefined
}

interface LaneAt {
  readonly lane: LaneDescription
  readonly channel: ChannelDescription
  readonly steps: readonly PropertyKey[]
  readonly partRef: string
}

export function checkMemory(draft: BoardDraft, outlines: ReadonlyMap<string, PackageOutline>): Fault[] {
  const partByRef = new Map(draft.parts.map(({ value }) => [value.ref, value]))
  const core = draft.parts.find(({ value }) => value.kind === 'core')?.value
  const known: Known = { draft, outlines, partByRef, core, ballNames: ballNamesOnce(outlines) }
  const lanes = draft.channels.flatMap(lanesAt)
  return [
    ...repeated(
      draft.channels,
      (channel) => channel.id,
      (index) => ['memory', 'channels', index, 'id'],
      'a channel id that no other channel has',
    ),
    ...draft.channels.flatMap((entry) => checkChannelPart(entry, known)),
    ...repeated(
      lanes.map((value, index) => ({ index, value })),
      ({ lane, partRef }) => laneIdOf(partRef, lane),
      (index) => [...(lanes[index]?.steps ?? []), 'name'],
      'a lane name that its part has once',
    ),
    ...lanes.flatMap((at) => [...checkLanePart(at, known), ...checkLaneRegions(at, known), ...checkBalls(at, known)]),
    ...checkBallsUsedOnce(lanes),
    ...lanes.flatMap((at) => checkSwaps(at, known)),
  ]
}

function lanesAt({ index, value }: Placed<ChannelDescription>): LaneAt[] {
  return value.lanes.map((lane, i) => ({
    lane,
    channel: value,
    steps: ['memory', 'channels', index, 'lanes', i],
    partRef: lanePart(value, lane),
  }))
}

/** Ball or pad names of a part, worked out once a part; undefined where neither pads nor package tell them. */
function ballNamesOnce(outlines: ReadonlyMap<string, PackageOutline>): Known['ballNames'] {
  const cache = new Map<Part, ReadonlySet<string> | undefined>()
  return (part) => {
    if (!cache.has(part)) cache.set(part, padNamesOf(part, outlines))
    return cache.get(part)
  }
}

/** Names of a part's pads, else of its package's balls; undefined where neither is told. */
export function padNamesOf(part: Part, outlines: ReadonlyMap<string, PackageOutline>): ReadonlySet<string> | undefined {
  if (part.pads !== undefined) return new Set(part.pads.map((pad) => pad.number))
  const outline = outlines.get(part.package ?? '')
  return outline === undefined ? undefined : new Set(ballsOf(outline).map((ball) => ball.name))
}

function checkChannelPart({ index, value }: Placed<ChannelDescription>, known: Known): Fault[] {
  return checkMemoryPart(['memory', 'channels', index, 'part'], value.part, known)
}

function checkLanePart({ lane, steps }: LaneAt, known: Known): Fault[] {
  return lane.part === undefined ? [] : checkMemoryPart([...steps, 'part'], lane.part, known)
}

function checkMemoryPart(steps: readonly PropertyKey[], ref: string, known: Known): Fault[] {
  if (!known.draft.refs.has(ref))
    return [{ path: jsonPath(steps), found: `${showValue(ref)}, which no part has`, expected: 'the ref of a part' }]
  const part = known.partByRef.get(ref)
  if (part === undefined || part.kind === 'memory') return []
  return [{ path: jsonPath(steps), found: `${ref}, of kind ${part.kind}`, expected: 'a part of kind memory' }]
}

function checkLaneRegions(at: LaneAt, known: Known): Fault[] {
  return [...checkMemoryRegion(at, known), ...checkCoreRegion(at, known)]
}

function regionNames(part: Part, known: Known): string[] {
  const packaged = known.outlines.get(part.package ?? '')?.regions ?? []
  return [...new Set([...(part.regions ?? []), ...packaged].map((region) => region.name))]
}

function checkMemoryRegion({ lane, steps, partRef }: LaneAt, known: Known): Fault[] {
  const part = known.partByRef.get(partRef)
  if (part === undefined || (part.package !== undefined && !known.outlines.has(part.package))) return []
  const names = regionNames(part, known)
  if (names.includes(regionNameOf(lane)) || lane.bits !== undefined) return []
  const expected =
    names.length > 0 ? `a region of ${partRef}: ${names.join(', ')}` : `bits with balls, or a drawn region`
  if (lane.memoryRegion !== undefined)
    return [{ path: jsonPath([...steps, 'memoryRegion']), found: showValue(lane.memoryRegion), expected }]
  return [{ path: jsonPath([...steps, 'name']), found: `${showValue(lane.name)} as the region`, expected }]
}

function checkCoreRegion({ lane, steps }: LaneAt, known: Known): Fault[] {
  if (lane.coreRegion === undefined) return []
  const path = jsonPath([...steps, 'coreRegion'])
  if (known.core === undefined)
    return hasUnreadParts(known.draft)
      ? []
      : [{ path, found: showValue(lane.coreRegion), expected: 'no core region on a board without a core' }]
  const names = regionNames(known.core, known)
  if (names.includes(lane.coreRegion)) return []
  if (lane.bits?.some((bit) => bit.coreBall !== undefined)) return []
  const expected =
    names.length > 0 ? `a region of ${known.core.ref}: ${names.join(', ')}` : 'a region that the core draws'
  return [{ path, found: showValue(lane.coreRegion), expected }]
}

const hasUnreadParts = (draft: BoardDraft): boolean =>
  [...draft.refs].some((ref) => !draft.parts.some(({ value }) => value.ref === ref))

function checkBalls({ lane, steps, partRef }: LaneAt, known: Known): Fault[] {
  const part = known.partByRef.get(partRef)
  const memoryBalls = part && known.ballNames(part)
  const coreBalls = known.core && known.ballNames(known.core)
  return (lane.bits ?? []).flatMap(({ memoryBall, coreBall }, bit) => {
    const faults: Fault[] = []
    if (memoryBalls && !memoryBalls.has(memoryBall))
      faults.push({
        path: jsonPath([...steps, 'bits', bit, 'memoryBall']),
        found: showValue(memoryBall),
        expected: `a ball of ${partRef}`,
      })
    if (coreBall !== undefined && coreBalls && !coreBalls.has(coreBall))
      faults.push({
        path: jsonPath([...steps, 'bits', bit, 'coreBall']),
        found: showValue(coreBall),
        expected: `a ball of ${known.core?.ref}`,
      })
    return faults
  })
}

function checkBallsUsedOnce(lanes: readonly LaneAt[]): Fault[] {
  const uses = lanes.flatMap(({ lane, steps, partRef }) =>
    (lane.bits ?? []).map(({ memoryBall }, bit) => ({
      ball: `${partRef}.${memoryBall}`,
      steps: [...steps, 'bits', bit],
    })),
  )
  return repeated(
    uses.map((value, index) => ({ index, value })),
    ({ ball }) => ball,
    (index) => [...(uses[index]?.steps ?? []), 'memoryBall'],
    'a ball that carries one data bit',
  )
}

function checkSwaps({ lane, steps, partRef }: LaneAt, known: Known): Fault[] {
  const { swaps } = lane
  if (swaps === undefined) return []
  const path = jsonPath([...steps, 'swaps'])
  const patch = known.outlines
    .get(known.partByRef.get(partRef)?.package ?? '')
    ?.regions.find((region) => region.name === regionNameOf(lane))
  const bitCount = lane.bits?.length ?? patch?.dq?.length ?? patch?.bitCount ?? swaps.length
  if (swaps.length !== bitCount)
    return [{ path, found: `${swaps.length} entries`, expected: `one for each of the lane’s ${bitCount} data bits` }]
  const faults: Fault[] = []
  for (const [bit, dq] of swaps.entries()) {
    if (dq >= bitCount)
      faults.push({ path: `${path}[${bit}]`, found: String(dq), expected: `a DQ number from 0 to ${bitCount - 1}` })
    else if (swaps.indexOf(dq) < bit)
      faults.push({ path: `${path}[${bit}]`, found: `${dq} for the second time`, expected: 'each DQ number once' })
  }
  return faults
}
