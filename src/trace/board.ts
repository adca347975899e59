/** From traced parts to a whole board: refs, channels, rails as the pattern makes them; checked like any board file. */
import {
  bad,
  boxOf,
  distance,
  type Fault,
  type Point,
  polygonContains,
  rectangleAround,
  type Result,
  unplacePoint,
  say,
} from '../base/index.ts'
import {
  type BoardModel,
  type FilePart,
  isStack,
  loadBoard,
  memoryPart,
  type PackagePair,
  packageOutlines,
  type PatternSupply,
  patternRails,
  type PlacedSupply,
  ringChannels,
} from '../board/index.ts'
import { behindOf, refsOf, type TracedPart } from './traced.ts'

/** Everything that was traced and entered, places in mm of any origin. */
export interface Trace {
  readonly name: string
  /** The board’s edge, a simple polygon. */
  readonly outline: readonly Point[]
  readonly parts: readonly TracedPart[]
  readonly supplies: readonly PatternSupply[]
  /** The memory that is U11. */
  readonly firstId?: string | undefined
}

/** What no photo tells, in words: shown beside the board like what an imported layout does not tell. */
export const traceUntold: readonly string[] = [
  say('Which stage makes which supply, and which parts a supply feeds: both are assumed in the order of the refs.'),
  say('Which end of a package lies towards the core, where its print does not tell: assumed as is usual.'),
  say('Which channel is where, and which data bit is on which ball: both are assumed or left open.'),
  say(
    'Which address belongs to which channel: a report must name lanes, channels or parts itself, until the map is learnt.',
  ),
  say('Its rails as they are: their ranges are common practice, for comparison only.'),
]

const STAGE_STANDOFF_MM = 0.05
/** A core of the repository that differs by less is that one. */
const SAME_SIZE_MM = 0.3
/** A capacitor further from every coil sits on the input. Common practice, no source. */
const NEAR_COIL_MM = 20

/**
 * The board of what was traced, its lower left corner at (0, 0).
 * Refuses no core or several, memories of different packages, supplies whose stages are not as many as were traced, and
 * whatever the board check refuses.
 */
export function boardFromTrace(trace: Trace): Result<BoardModel> {
  const faults = faultsOf(trace)
  if (faults.length > 0) return bad(...faults)
  const box = boxOf(trace.outline)
  const moved = ({ x, y }: Point): Point => ({ x: rounded(x - box.minX), y: rounded(y - box.minY) })
  const refs = refsOf(trace.parts, { firstId: trace.firstId })
  const alone = trace.parts
    .map(
      (part): Placed => ({
        part,
        ref: refs.get(part.id) ?? part.id,
        file: filePart(part, refs.get(part.id) ?? part.id, moved(part.at)),
      }),
    )
    .toSorted((a, b) => byRef(a.ref, b.ref))
  const core = alone.find(({ part }) => part.kind === 'core')
  const placed = alone.map((each) => (core === undefined ? each : onCore(each, core)))
  const memories = placed.filter(({ part }) => part.kind === 'memory')
  const name = memories[0]?.part.package
  const pairs = pairsOf(memories)
  return loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: trace.name,
    note: say(
      'Traced from a photo: {parts, plural, one {# part} other {# parts}}. What a photo does not tell: {untold}',
      { parts: trace.parts.length, untold: traceUntold.join(' ') },
    ),
    outline: trace.outline.map(moved),
    parts: placed.map(({ file }) => file),
    rails: railsOf(placed, trace.supplies, { memories, core: core?.ref ?? '' }),
    memory: { channels: name === undefined ? [] : ringChannels(name, pairs) },
  })
}

interface Placed {
  readonly part: TracedPart
  readonly ref: string
  readonly file: FilePart
}

/** A stack within the core's body stands on it. */
function onCore(each: Placed, { part: core, ref }: Placed): Placed {
  const { part } = each
  if (part.package === undefined || !isStack(part.package) || part.side !== core.side) return each
  const edge = rectangleAround(core.body.widthMm, core.body.lengthMm)
  const inside = polygonContains(
    edge,
    unplacePoint(part.at, { at: core.at, rotationDeg: core.rotationDeg, mirrored: false }),
  )
  return inside ? { ...each, file: { ...each.file, carriedBy: ref } } : each
}

const rounded = (mm: number): number => Math.round(mm * 100) / 100

const numberOf = (ref: string): number => Number(ref.replace(/^\D+/, ''))
const byRef = (a: string, b: string): number => a.charCodeAt(0) - b.charCodeAt(0) || numberOf(a) - numberOf(b)

function faultsOf({ parts, supplies }: Trace): Fault[] {
  const cores = parts.filter(({ kind }) => kind === 'core').length
  const stages = parts.filter(({ kind }) => kind === 'power-stage').length
  const wanted = supplies.reduce((sum, supply) => sum + supply.stages, 0)
  const packages = new Set(parts.filter(({ kind }) => kind === 'memory').map((part) => part.package))
  return [
    ...(cores === 1
      ? []
      : [
          {
            path: 'parts',
            found: cores === 0 ? say('no core') : say('{cores} cores', { cores }),
            expected: say('one core'),
          },
        ]),
    ...(packages.size <= 1
      ? []
      : [
          {
            path: 'parts',
            found: say('{kinds} kinds of memory package', { kinds: packages.size }),
            expected: say('memories of one kind'),
          },
        ]),
    ...(wanted === stages
      ? []
      : [
          {
            path: 'supplies',
            found: say('{wanted, plural, one {# stage} other {# stages}} in the supplies', { wanted }),
            expected: say('{stages}, as many as were traced', { stages }),
            todo: say('Change the supplies, or trace the stages that are missing.'),
          },
        ]),
  ]
}

function filePart(part: TracedPart, ref: string, at: Point): FilePart {
  const { kind, side, body } = part
  const rotationDeg = rounded(((part.rotationDeg % 360) + 360) % 360)
  if (kind === 'memory' && part.package !== undefined) return memoryPart(ref, side, { at, rotationDeg }, part.package)
  const shared = { ref, kind, side, at, rotationDeg }
  const core = kind === 'core' ? coreNamed(body.widthMm, body.lengthMm) : undefined
  if (core !== undefined) return { ...shared, package: core }
  return { ...shared, body, ...(kind === 'power-stage' ? { standoffMm: STAGE_STANDOFF_MM } : {}) }
}

const coreNamed = (widthMm: number, lengthMm: number): string | undefined =>
  [...packageOutlines.values()].find(
    ({ kind, body }) =>
      kind === 'core' &&
      Math.abs(body.widthMm - widthMm) < SAME_SIZE_MM &&
      Math.abs(body.lengthMm - lengthMm) < SAME_SIZE_MM,
  )?.name

/** Packages on the top with those behind them; a package alone on the bottom stands for itself. */
function pairsOf(memories: readonly Placed[]): PackagePair[] {
  const parts = memories.map(({ part }) => part)
  const refOf = new Map(memories.map(({ part, ref }) => [part.id, ref]))
  const behind = new Set<string>()
  const fronts = memories
    .filter(({ part }) => part.side === 'top')
    .map(({ part, ref }): PackagePair => {
      const back = behindOf(part, parts)
      if (back === undefined) return { front: ref }
      behind.add(back.id)
      return { front: ref, back: refOf.get(back.id) }
    })
  const alone = memories.filter(({ part }) => part.side === 'bottom' && !behind.has(part.id))
  return [...fronts, ...alone.map(({ ref }) => ({ front: ref }))]
}

interface Fed {
  readonly memories: readonly Placed[]
  readonly core: string
}

/** Stages go to the supplies in the order of their refs, coils to the nearest stage, capacitors to the nearest coil. */
function railsOf(placed: readonly Placed[], supplies: readonly PatternSupply[], { memories, core }: Fed) {
  const of = (kind: TracedPart['kind']): Placed[] => placed.filter(({ part }) => part.kind === kind)
  const stages = of('power-stage')
  let next = 0
  const supplyOf = new Map<string, PatternSupply>()
  for (const supply of supplies) {
    for (const stage of stages.slice(next, next + supply.stages)) supplyOf.set(stage.ref, supply)
    next += supply.stages
  }
  for (const coil of of('inductor')) {
    const supply = supplyOf.get(nearest(coil, stages)?.ref ?? '')
    if (supply !== undefined) supplyOf.set(coil.ref, supply)
  }
  const coils = of('inductor')
  for (const capacitor of of('capacitor')) {
    const coil = nearest(capacitor, coils)
    const near = coil !== undefined && distance(coil.part.at, capacitor.part.at) <= NEAR_COIL_MM
    const supply = near ? supplyOf.get(coil.ref) : undefined
    if (supply !== undefined) supplyOf.set(capacitor.ref, supply)
  }
  const made = (kind: TracedPart['kind'], supply: PatternSupply | undefined): string[] =>
    of(kind).flatMap(({ ref }) => (supplyOf.get(ref) === supply ? [ref] : []))
  const power = {
    supplies: supplies.map(
      (supply): PlacedSupply => ({
        supply,
        stages: made('power-stage', supply),
        inductors: made('inductor', supply),
        capacitors: made('capacitor', supply),
      }),
    ),
    inputCapacitors: made('capacitor', undefined),
    controllers: of('controller').map(({ ref }) => ref),
    slot: undefined,
    plug: undefined,
    displays: [],
  }
  const canvas = { parts: placed.map(({ file }) => file) }
  return patternRails(
    canvas,
    power,
    memories.map(({ ref }) => ref),
    core,
  )
}

function nearest(to: Placed, among: readonly Placed[]): Placed | undefined {
  let best: Placed | undefined
  for (const each of among)
    if (best === undefined || distance(each.part.at, to.part.at) < distance(best.part.at, to.part.at)) best = each
  return best
}
