/** The regions of one part: drawn in the board file, from its package's ball map, or derived from the balls that lanes use. */
import { placePoint, type Point, signedArea, say } from '../base/index.ts'
import { patchOf } from './ball-field.ts'
import type { Lane, PlacedPad, PlacedPart, Region } from './model.ts'
import type { PackageOutline, PackageRegion } from './package-outline.ts'
import { centroidOf, counterClockwise, grownHullOf } from './polygons.ts'

/** How far a patch of balls reaches beyond the centres of its outermost balls, where no pitch is known. */
const MARGIN_MM = 0.4

interface RegionShape {
  readonly name: string
  readonly role: Region['role']
  /** On the board. */
  readonly polygon: readonly Point[]
  readonly lanes: readonly string[]
  readonly from: Region['from']
}

/** A region with its id, `U2/L`, its polygon turned counter-clockwise, its centre in mm and its area in mm². */
export function makeRegion(part: PlacedPart, shape: RegionShape): Region {
  const polygon = counterClockwise(shape.polygon)
  return {
    id: `${part.ref}/${shape.name}`,
    part: part.ref,
    name: shape.name,
    side: part.side,
    role: shape.role,
    polygon,
    centre: centroidOf(polygon),
    areaMm2: Math.abs(signedArea(polygon)),
    lanes: shape.lanes,
    from: shape.from,
  }
}

/**
 * Regions of a part in the order drawn, package, derived; a drawn region hides the package's of the same name.
 * @param lanes the lanes that end in this part, or all lanes of the board for its core
 */
export function regionsOfPart(part: PlacedPart, outline: PackageOutline | undefined, lanes: readonly Lane[]): Region[] {
  const drawn = (part.description.regions ?? []).map((region) =>
    makeRegion(part, {
      name: region.name,
      ...servedBy(part, region.name, outline, lanes),
      polygon: region.polygon.map((point) => placePoint(point, part.placement)),
      from: 'drawn',
    }),
  )
  const names = new Set(drawn.map((region) => region.name))
  const packaged = (outline?.regions ?? [])
    .filter((region) => !names.has(region.name))
    .map((region) =>
      makeRegion(part, {
        name: region.name,
        ...servedBy(part, region.name, outline, lanes),
        polygon: outline ? patchOf(outline, region).map((point) => placePoint(point, part.placement)) : [],
        from: 'package',
      }),
    )
  const known = [...drawn, ...packaged]
  return [...known, ...regionsFromBalls(part, lanes, new Set(known.map((region) => region.id)))]
}

/** Role of a named region and the lanes that fail with it. */
function servedBy(
  part: PlacedPart,
  name: string,
  outline: PackageOutline | undefined,
  lanes: readonly Lane[],
): { readonly role: Region['role']; readonly lanes: readonly string[] } {
  const id = `${part.ref}/${name}`
  const ending = lanes.filter((lane) => lane.memoryRegion === id || lane.coreRegion === id)
  const patch = outline?.regions.find((region) => region.name === name)
  if (ending.length > 0 || patch?.role === 'lane') return { role: 'lane', lanes: ending.map((lane) => lane.id) }
  return { role: patch?.role ?? 'command', lanes: lanesServed(part, patch, lanes).map((lane) => lane.id) }
}

function lanesServed(part: PlacedPart, patch: PackageRegion | undefined, lanes: readonly Lane[]): readonly Lane[] {
  const serves = patch?.serves
  if (serves === undefined) return lanes
  return lanes.filter((lane) => serves.some((name) => lane.memoryRegion === `${part.ref}/${name}`))
}

/** Where neither drawn nor packaged: the grown hull of the balls that each lane uses, and of the command balls. */
function regionsFromBalls(part: PlacedPart, lanes: readonly Lane[], known: ReadonlySet<string>): Region[] {
  const padByNumber = new Map(part.pads.map((pad) => [pad.number, pad]))
  const marginMm = part.ballPitchMm === undefined ? MARGIN_MM : part.ballPitchMm / 2
  const found = new Map<string, { lanes: string[]; balls: PlacedPad[] }>()
  for (const lane of lanes) {
    const end = endIn(part, lane)
    if (end === undefined || known.has(end.region)) continue
    const balls = end.balls.flatMap((ball) => (ball === undefined ? [] : (padByNumber.get(ball) ?? [])))
    const entry = found.get(end.region) ?? { lanes: [], balls: [] }
    entry.lanes.push(lane.id)
    entry.balls.push(...balls)
    found.set(end.region, entry)
  }
  const regions: Region[] = []
  for (const [id, entry] of found) {
    if (entry.balls.length === 0) continue
    const polygon = grownHullOf(
      entry.balls.map((ball) => ball.at),
      marginMm,
    )
    const name = id.slice(part.ref.length + 1)
    regions.push(makeRegion(part, { name, role: 'lane', polygon, lanes: entry.lanes, from: 'derived' }))
  }
  const command = part.kind === 'memory' ? commandRegion(part, lanes, known, marginMm) : undefined
  return command === undefined ? regions : [...regions, command]
}

function endIn(part: PlacedPart, lane: Lane): { region: string; balls: readonly (string | undefined)[] } | undefined {
  if (lane.part === part.ref) return { region: lane.memoryRegion, balls: lane.memoryBalls }
  if (part.kind === 'core' && lane.coreRegion !== undefined) return { region: lane.coreRegion, balls: lane.coreBalls }
  return undefined
}

/**
 * Address, command, clock and control balls by their JEDEC names (JESD79, JESD209, JESD212, JESD250), overlines and
 * suffixes aside.
 */
const COMMAND_SIGNAL =
  /^(CA|BA|BG|A)\d{1,2}(_[AB])?$|^(RAS|CAS|WE|CS|CKE|ACT|ODT|RESET|RST|ABI|CABI|CK|CLK|PAR|ALERT)(\d|_?[ABNPTC]|_[tc])*$/i

function commandRegion(
  part: PlacedPart,
  lanes: readonly Lane[],
  known: ReadonlySet<string>,
  marginMm: number,
): Region | undefined {
  const anyKnown = [...known].some((id) => id.startsWith(`${part.ref}/`))
  if (anyKnown || lanes.length === 0) return undefined
  const balls = part.pads.filter((pad) => isCommandSignal(pad.signal))
  if (balls.length < 3) return undefined
  const polygon = grownHullOf(
    balls.map((ball) => ball.at),
    marginMm,
  )
  const isTaken = lanes.some((lane) => lane.memoryRegion === `${part.ref}/CA`)
  const region = makeRegion(part, {
    name: isTaken ? 'CA balls' : 'CA',
    role: 'command',
    polygon,
    lanes: lanes.map((lane) => lane.id),
    from: 'derived',
  })
  // its id is the same in each language
  return isTaken ? { ...region, name: say('CA balls') } : region
}

/** `~{CS}`, `A14/~{WE}`, `CK_t`, `RAS#`: any of the names of a multiplexed ball will do. */
function isCommandSignal(signal: string | undefined): boolean {
  if (signal === undefined) return false
  return signal.split('/').some((part) => COMMAND_SIGNAL.test(part.replaceAll(/[~{}#+-]/g, '').replace(/_n$/i, '')))
}
