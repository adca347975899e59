/** Faults of channels and lanes: names, parts, regions, balls, swaps. */
import { type Fault, jsonPath, showValue, say } from '../base/index.ts'
import { repeated } from './check-parts.ts'
import type { BoardDraft, Placed } from './draft.ts'
import type { KnownParts } from './known-parts.ts'
import { laneIdOf, lanePart, regionNameOf } from './lanes.ts'
import type { ChannelDescription, LaneDescription } from './schema.ts'

interface LaneAt {
  readonly lane: LaneDescription
  readonly channel: ChannelDescription
  readonly steps: readonly PropertyKey[]
  readonly partRef: string
}

/** Repeated ids, then for each lane its part, its regions, its balls and its swaps, and balls that two lanes use. */
export function checkMemory(draft: BoardDraft, known: KnownParts): Fault[] {
  const lanes = draft.channels.flatMap(lanesAt)
  return [
    ...repeated(
      draft.channels,
      (channel) => channel.id,
      (index) => ['memory', 'channels', index, 'id'],
      say('a channel id that no other channel has'),
    ),
    ...draft.channels.flatMap(({ index, value }) =>
      checkMemoryPart(['memory', 'channels', index, 'part'], value.part, draft, known),
    ),
    ...repeated(
      lanes.map((value, index) => ({ index, value })),
      ({ lane, partRef }) => laneIdOf(partRef, lane),
      (index) => [...(lanes[index]?.steps ?? []), 'name'],
      say('a lane name that its part has once'),
    ),
    ...lanes.flatMap((at) => [
      ...(at.lane.part === undefined ? [] : checkMemoryPart([...at.steps, 'part'], at.lane.part, draft, known)),
      ...checkMemoryRegion(at, known),
      ...checkCoreRegion(at, known),
      ...checkBalls(at, known),
      ...checkSwaps(at, known),
    ]),
    ...checkBallsUsedOnce(lanes),
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

function checkMemoryPart(steps: readonly PropertyKey[], ref: string, draft: BoardDraft, known: KnownParts): Fault[] {
  if (!draft.refs.has(ref))
    return [
      {
        path: jsonPath(steps),
        found: say('{ref}, which no part has', { ref: showValue(ref) }),
        expected: say('the ref of a part'),
      },
    ]
  const part = known.byRef.get(ref)
  if (part === undefined || part.kind === 'memory') return []
  return [
    {
      path: jsonPath(steps),
      found: say('{ref}, of kind {kind}', { ref, kind: part.kind }),
      expected: say('a part of kind memory'),
    },
  ]
}

function checkMemoryRegion({ lane, steps, partRef }: LaneAt, known: KnownParts): Fault[] {
  const part = known.byRef.get(partRef)
  if (part === undefined || (part.package !== undefined && known.outlineOf(part) === undefined)) return []
  const names = known.regionNames(partRef)
  if (names.has(regionNameOf(lane)) || (lane.bits !== undefined && known.padNames(partRef) !== undefined)) return []
  const expected = expectedRegion(partRef, names)
  if (lane.memoryRegion !== undefined)
    return [{ path: jsonPath([...steps, 'memoryRegion']), found: showValue(lane.memoryRegion), expected }]
  return [
    {
      path: jsonPath([...steps, 'name']),
      found: say('{name} as the region', { name: showValue(lane.name) }),
      expected,
    },
  ]
}

const expectedRegion = (ref: string, names: ReadonlySet<string>): string =>
  names.size > 0
    ? say('a region of {ref}: {names}', { ref, names: [...names].join(', ') })
    : say('a region that {ref} draws, or bits on its balls', { ref })

function checkCoreRegion({ lane, steps }: LaneAt, known: KnownParts): Fault[] {
  if (lane.coreRegion === undefined) return []
  const path = jsonPath([...steps, 'coreRegion'])
  const found = showValue(lane.coreRegion)
  if (known.core === undefined)
    return known.someUnread ? [] : [{ path, found, expected: say('no core region on a board without a core') }]
  const names = known.regionNames(known.core.ref)
  const onBalls = lane.bits?.some((bit) => bit.coreBall !== undefined) && known.padNames(known.core.ref) !== undefined
  if (names.has(lane.coreRegion) || onBalls) return []
  return [{ path, found, expected: expectedRegion(known.core.ref, names) }]
}

function checkBalls({ lane, steps, partRef }: LaneAt, known: KnownParts): Fault[] {
  const memoryBalls = known.padNames(partRef)
  const coreBalls = known.core && known.padNames(known.core.ref)
  return (lane.bits ?? []).flatMap(({ memoryBall, coreBall }, bit) => {
    const faults: Fault[] = []
    if (memoryBalls && !memoryBalls.has(memoryBall))
      faults.push({
        path: jsonPath([...steps, 'bits', bit, 'memoryBall']),
        found: showValue(memoryBall),
        expected: say('a ball of {partRef}', { partRef }),
      })
    if (coreBall !== undefined && coreBalls && !coreBalls.has(coreBall))
      faults.push({
        path: jsonPath([...steps, 'bits', bit, 'coreBall']),
        found: showValue(coreBall),
        expected: say('a ball of {ref}', { ref: known.core?.ref }),
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
    say('a ball that carries one data bit'),
  )
}

function checkSwaps({ lane, steps, partRef }: LaneAt, known: KnownParts): Fault[] {
  const { swaps } = lane
  if (swaps === undefined) return []
  const path = jsonPath([...steps, 'swaps'])
  const patch = known.outlineOf(known.byRef.get(partRef))?.regions.find((region) => region.name === regionNameOf(lane))
  const bitCount = lane.bits?.length ?? patch?.dq?.length ?? patch?.bitCount ?? swaps.length
  if (swaps.length !== bitCount)
    return [
      {
        path,
        found: say('{count} entries', { count: swaps.length }),
        expected: say('one for each of the lane’s {bitCount} data bits', { bitCount }),
      },
    ]
  const faults: Fault[] = []
  for (const [bit, dq] of swaps.entries()) {
    if (dq >= bitCount)
      faults.push({
        path: `${path}[${bit}]`,
        found: String(dq),
        expected: say('a DQ number from 0 to {bitCount}', { bitCount: bitCount - 1 }),
      })
    else if (swaps.indexOf(dq) < bit)
      faults.push({
        path: `${path}[${bit}]`,
        found: say('{dq} for the second time', { dq }),
        expected: say('each DQ number once'),
      })
  }
  return faults
}
