/** Small boards and spills for tests of the reasoning, made from numbers alone. */
import { boxOf, type Point, rectangleAround } from '../../src/base/index.ts'
import type { BoardModel, Corridor, Lane, PlacedPart, Rail, Region } from '../../src/board/index.ts'
import type { SpillHypotheses, SpillMark } from '../../src/spill/index.ts'
import type { Findings } from '../../src/suspects/index.ts'

export interface SmallBoard {
  readonly memories: readonly { readonly ref: string; readonly at: Point; readonly lanes: readonly string[] }[]
  readonly core: boolean
  readonly corridors: boolean
  readonly commandRegions: boolean
  readonly rails: readonly Rail[]
  readonly stages: readonly string[]
  readonly coreSizeMm?: number
  /** Angle between neighbouring lanes' regions as seen from the core's middle; they lie on a circle inside of its body. */
  readonly laneStepRad?: number
}

const square = (at: Point, sizeMm: number): Point[] =>
  rectangleAround(sizeMm, sizeMm).map(({ x, y }) => ({ x: x + at.x, y: y + at.y }))

function placed(ref: string, kind: PlacedPart['kind'], at: Point, sizeMm: number): PlacedPart {
  const outline = square(at, sizeMm)
  return {
    ref,
    kind,
    side: 'top',
    placement: { at, rotationDeg: 0, mirrored: false },
    widthMm: sizeMm,
    lengthMm: sizeMm,
    heightMm: 1,
    standoffMm: 0.3,
    outline,
    box: boxOf(outline),
    description: { ref, kind, side: 'top', at, rotationDeg: 0, bonding: 'none' },
    pads: [],
    ballPitchMm: undefined,
  }
}

function region(part: string, name: string, role: Region['role'], centre: Point, lanes: readonly string[]): Region {
  const polygon = square(centre, 2)
  return { id: `${part}/${name}`, part, name, side: 'top', role, polygon, centre, areaMm2: 4, lanes, from: 'drawn' }
}

export const CORE_AT: Point = { x: 50, y: 50 }

/** A core in the middle, packages where the description says, core regions on the way to each lane. */
export function smallBoard(description: SmallBoard): BoardModel {
  const { coreSizeMm = 20, laneStepRad = 0.5 } = description
  const core = description.core ? placed('U1', 'core', CORE_AT, coreSizeMm) : undefined
  const memories = description.memories.map(({ ref, at }) => placed(ref, 'memory', at, 12))
  const stages = description.stages.map((ref, i) => placed(ref, 'power-stage', { x: 5 + 8 * i, y: 95 }, 5))
  const parts = [...(core === undefined ? [] : [core]), ...memories, ...stages]
  const lanes: Lane[] = []
  const regions: Region[] = []
  const corridors: Corridor[] = []
  for (const { ref, at, lanes: names } of description.memories) {
    const ids = names.map((name) => `${ref}.${name}`)
    if (description.commandRegions) regions.push(region(ref, 'CA', 'command', at, ids))
    for (const [i, name] of names.entries()) {
      const id = `${ref}.${name}`
      const memoryAt = { x: at.x + (i % 2 === 0 ? -4 : 4), y: at.y + (i < 2 ? 0 : 4) }
      const angle = Math.atan2(at.y - CORE_AT.y, at.x - CORE_AT.x) + (i - (names.length - 1) / 2) * laneStepRad
      const coreAt = {
        x: CORE_AT.x + 0.4 * coreSizeMm * Math.cos(angle),
        y: CORE_AT.y + 0.4 * coreSizeMm * Math.sin(angle),
      }
      regions.push(region(ref, name, 'lane', memoryAt, [id]))
      if (core !== undefined) regions.push(region('U1', id, 'lane', coreAt, [id]))
      if (description.corridors)
        corridors.push({ lane: id, path: [coreAt, memoryAt], widthMm: 2, side: 'top', from: 'derived' })
      lanes.push({
        id,
        name,
        channel: ref,
        part: ref,
        firstBit: 8 * i,
        bitCount: 8,
        memoryRegion: `${ref}/${name}`,
        coreRegion: core === undefined ? undefined : `U1/${id}`,
        memoryBalls: [],
        coreBalls: [],
      })
    }
  }
  const outline = square(CORE_AT, 120)
  const channels = description.memories.map(({ ref, lanes: names }) => ({
    id: ref,
    lanes: names.map((name) => `${ref}.${name}`),
    parts: [ref],
    bitCount: 8 * names.length,
  }))
  return {
    name: 'small',
    description: {
      format: 'liftmap-board',
      version: 1,
      name: 'small',
      outline,
      holes: [],
      thicknessMm: 1.6,
      copper: [],
      parts: parts.map((part) => part.description),
      rails: [...description.rails],
      memory: { channels: [] },
    },
    outline,
    cutouts: [],
    drills: [],
    box: boxOf(outline),
    parts,
    partByRef: new Map(parts.map((part) => [part.ref, part])),
    core,
    memories,
    regions,
    regionById: new Map(regions.map((entry) => [entry.id, entry])),
    corridors,
    corridorByLane: new Map(corridors.map((corridor) => [corridor.lane, corridor])),
    channels,
    channelById: new Map(channels.map((channel) => [channel.id, channel])),
    lanes,
    laneById: new Map(lanes.map((lane) => [lane.id, lane])),
    rails: description.rails,
    addressMap: undefined,
  }
}

export const rail = (
  name: string,
  feeds: readonly string[],
  stages: readonly string[],
  branches: Rail['branches'],
) => ({
  name,
  feeds: [...feeds],
  stages: [...stages],
  branches,
  points: [],
})

/** Twelve packages around a core, four lanes each, three to a side: a ring as on a 384 bit card. */
export function ringOfTwelve(): BoardModel {
  const along = [-16, 0, 16]
  const places = [
    ...along.map((x) => ({ x, y: 36 })),
    ...along.map((y) => ({ x: 36, y: -y })),
    ...along.map((x) => ({ x: -x, y: -36 })),
    ...along.map((y) => ({ x: -36, y })),
  ]
  const memories = places.map(({ x, y }, i) => ({
    ref: `U${11 + i}`,
    at: { x: CORE_AT.x + x, y: CORE_AT.y + y },
    lanes: ['A0', 'A1', 'B0', 'B1'],
  }))
  const refs = memories.map(({ ref }) => ref)
  return smallBoard({
    memories,
    core: true,
    corridors: true,
    commandRegions: true,
    rails: [rail('VMEM', refs, ['S1', 'S2'], [])],
    stages: ['S1', 'S2'],
    coreSizeMm: 40,
    laneStepRad: 0.1,
  })
}

export const spillMark = (id: string, at: Point): SpillMark => ({
  kind: 'spill',
  id,
  side: 'top',
  at,
  sdMm: 3,
  substance: 'coolant',
  amount: { volumeMl: 0.5 },
  amountSdLog: 0.4,
  pressed: 'unknown',
  pushMm: 0,
  reachesOtherSide: false,
})

/** One place and size of a puddle that reaches all that its circle holds. */
export interface Disc {
  readonly at: Point
  readonly radiusMm: number
  readonly weight: number
}

const indices = <T>(list: readonly T[], test: (entry: T) => boolean): Uint16Array =>
  Uint16Array.from(list.flatMap((entry, i) => (test(entry) ? [i] : [])))

/** Hypotheses of round puddles: what lies within the radius of the place is reached; nothing is merged. */
export function roundHypotheses(model: BoardModel, discs: readonly Disc[], areas: readonly Point[]): SpillHypotheses {
  const total = discs.reduce((sum, { weight }) => sum + weight, 0)
  const within = (disc: Disc, point: Point): boolean =>
    Math.hypot(point.x - disc.at.x, point.y - disc.at.y) <= disc.radiusMm
  const groups = discs.map((disc) => ({
    weight: disc.weight / total,
    regions: indices(model.regions, ({ centre }) => within(disc, centre)),
    corridors: indices(model.corridors, ({ path }) => path.some((point) => within(disc, point))),
    areas: indices(areas, (point) => within(disc, point)),
  }))
  return {
    groups,
    members: {
      xMm: Float32Array.from(discs, ({ at }) => at.x),
      yMm: Float32Array.from(discs, ({ at }) => at.y),
      weight: Float32Array.from(groups, ({ weight }) => weight),
      group: Uint32Array.from(groups.keys()),
    },
    side: 'top',
    grid: { originXMm: 0, originYMm: 0, cellMm: 2, columns: 50, rows: 50 },
  }
}

/** Puddles around a point: places on a square of the given spacing, each with every radius. */
export function discsAround(at: Point, spacingMm: number, radiiMm: readonly number[]): Disc[] {
  const steps = [-2, -1, 0, 1, 2]
  return steps.flatMap((i) =>
    steps.flatMap((j) =>
      radiiMm.map((radiusMm) => ({
        at: { x: at.x + i * spacingMm, y: at.y + j * spacingMm },
        radiusMm,
        weight: Math.exp(-(i * i + j * j) / 2),
      })),
    ),
  )
}

/** A core U1 of 20 × 20 mm about (50, 50), packages of 12 × 12 mm, U2 east and U3 west of it, one rail from one stage. */
export const eastAndWest = (changed: Partial<SmallBoard> = {}): BoardModel =>
  smallBoard({
    memories: [
      { ref: 'U2', at: { x: 90, y: 50 }, lanes: ['A0', 'A1'] },
      { ref: 'U3', at: { x: 10, y: 50 }, lanes: ['A0', 'A1'] },
    ],
    core: true,
    corridors: true,
    commandRegions: true,
    rails: [rail('VMEM', ['U2', 'U3'], ['S1'], [])],
    stages: ['S1'],
    ...changed,
  })

/** What is known of a card by its lanes alone, and what is known besides. */
export const findingsOf = (lanes: Findings['lanes'], more: Partial<Findings> = {}): Findings => ({
  lanes,
  signatures: new Map(),
  spills: [],
  areas: [],
  slips: [],
  rails: new Map(),
  ...more,
})

/** Every lane passes but those named, and those of parts that are. */
export const failingIn = ({ lanes }: BoardModel, failing: readonly string[]): Findings['lanes'] =>
  new Map(lanes.map(({ id, part }) => [id, failing.includes(id) || failing.includes(part) ? 'fail' : 'pass']))
