/** What could be checked on a board: every sensible pair of a check of the catalogue and a place, what was done left out. */
import { type Point, say } from '../../base/index.ts'
import { type BoardModel, type PlacedPart, standsOnBoard } from '../../board/index.ts'
import type { AreaMark } from '../../spill/index.ts'
import { type CheckEntry, checkCatalogue, type CheckTarget } from './check-catalogue.ts'
import { compassWord } from '../causes/places.ts'
import type { Findings } from '../result.ts'

/** A place beside a body at which nobody has looked. */
export interface LookPlace {
  /** Where its mark would stand. */
  readonly mark: AreaMark
  /** `the south edge of U13`, the same in each language; said by `placeSaid`. */
  readonly at: string
  readonly ref: string
}

export interface CheckInstance {
  readonly check: CheckEntry
  /** As the board calls it, or the name of a look place. */
  readonly at: string
  /** Parts to light up, and lanes. */
  readonly refs: readonly string[]
  readonly lanes: readonly string[]
  readonly look?: LookPlace
}

const BESIDE_MM = 0.8
const LOOK_RADIUS_MM = 1.5
const LANES_CHECKED = 16

/**
 * One place at each memory, on the edge that is next to a reported spill or else to the core, and one at each edge of the
 * core. Places that have a mark already are left out.
 */
export function lookPlaces(model: BoardModel, findings: Findings): LookPlace[] {
  const bodies = bodiesOf(model)
  const places = bodies.flatMap((part) => {
    const edges = edgesOf(part)
    const towards = part === model.core ? undefined : (nearestSpill(part, findings) ?? model.core?.placement.at)
    if (towards === undefined) return part === model.core ? edges : edges.slice(0, 1)
    const far = ({ mark }: LookPlace): number => Math.hypot(mark.at.x - towards.x, mark.at.y - towards.y)
    return edges.toSorted((a, b) => far(a) - far(b)).slice(0, 1)
  })
  return places.filter(({ mark }) => !findings.areas.some((area) => isSeen(area, mark)))
}

/** The core, and the memories that stand on the board: a stack on the core is reached from nowhere. */
const bodiesOf = ({ core, memories }: BoardModel): PlacedPart[] => [
  ...(core === undefined ? [] : [core]),
  ...memories.filter(standsOnBoard),
]

const isSeen = (area: AreaMark, mark: AreaMark): boolean =>
  area.side === mark.side && Math.hypot(area.at.x - mark.at.x, area.at.y - mark.at.y) < LOOK_RADIUS_MM

function edgesOf(part: PlacedPart): LookPlace[] {
  const middle = { x: (part.box.minX + part.box.maxX) / 2, y: (part.box.minY + part.box.maxY) / 2 }
  const least = Math.min(part.widthMm, part.lengthMm) / 2
  return part.outline.flatMap((from, i) => {
    const to = part.outline[(i + 1) % part.outline.length]
    if (to === undefined || Math.hypot(to.x - from.x, to.y - from.y) < least) return []
    const edge = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }
    const out = Math.hypot(edge.x - middle.x, edge.y - middle.y)
    if (out === 0) return []
    const share = 1 + BESIDE_MM / out
    const at = rounded({ x: middle.x + (edge.x - middle.x) * share, y: middle.y + (edge.y - middle.y) * share })
    const word = compassWord(middle, at)
    const id = `look-${part.ref}-${word}`
    const mark = { kind: 'clean', id, side: part.side, at, radiusMm: LOOK_RADIUS_MM } as const
    return [{ mark, at: `the ${word} edge of ${part.ref}`, ref: part.ref }]
  })
}

const rounded = ({ x, y }: Point): Point => ({ x: Math.round(x * 100) / 100, y: Math.round(y * 100) / 100 })

function nearestSpill(part: PlacedPart, { spills }: Findings): Point | undefined {
  const far = ({ at }: { at: Point }): number => Math.hypot(at.x - part.placement.at.x, at.y - part.placement.at.y)
  return spills.filter(({ side }) => side === part.side).toSorted((a, b) => far(a) - far(b))[0]?.at
}

interface Target extends Omit<CheckInstance, 'check'> {
  readonly target: CheckTarget
}

/**
 * Lanes and memories are worth checking where something fails; rails, stages, the core and edges wherever they are.
 * @returns the instances, and what was left out for its number, in words
 */
export function checkInstances(
  model: BoardModel,
  findings: Findings,
  places: readonly LookPlace[],
): { instances: CheckInstance[]; leftOut: string[] } {
  const failing = model.lanes.filter(({ id }) => findings.lanes.get(id) === 'fail')
  const targets = [
    ...boardTargets(model, findings),
    ...laneTargets(
      model,
      failing.slice(0, LANES_CHECKED).map(({ id }) => id),
    ),
    ...places.map((look): Target => ({ target: 'edge', at: look.at, refs: [look.ref], lanes: [], look })),
  ]
  const asked = [...(findings.checks ?? []), ...(findings.unanswered ?? [])]
  const done = new Set(asked.map(({ check, at }) => `${check} ${at}`))
  const instances = checkCatalogue.flatMap((check) =>
    targets.flatMap(({ target, ...instance }) => {
      const wanted = check.proposed && check.targets.includes(target) && !done.has(`${check.id} ${instance.at}`)
      return wanted && !isMeasured(check, instance.at, findings) ? [{ check, ...instance }] : []
    }),
  )
  const cut = failing.length > LANES_CHECKED
  return {
    instances,
    leftOut: cut ? [say('checks at {more} more failing lanes', { more: failing.length - LANES_CHECKED })] : [],
  }
}

const isMeasured = ({ evidence }: CheckEntry, at: string, { rails, stages }: Findings): boolean =>
  (evidence === 'rail' && rails.has(at)) || (evidence === 'stage' && (stages?.has(at) ?? false))

function boardTargets(model: BoardModel, findings: Findings): Target[] {
  const failing = new Set(model.lanes.flatMap(({ id, part }) => (findings.lanes.get(id) === 'fail' ? [part] : [])))
  const stages = new Set(model.rails.flatMap((rail) => rail.stages).filter((ref) => model.partByRef.has(ref)))
  const bodies = bodiesOf(model)
  const sides = [...new Set(bodies.map(({ side }) => side))]
  const partTarget = (target: CheckTarget, ref: string): Target => ({ target, at: ref, refs: [ref], lanes: [] })
  return [
    ...model.rails.map(({ name, stages: refs }): Target => ({ target: 'rail', at: name, refs, lanes: [] })),
    ...[...stages].map((ref) => partTarget('stage', ref)),
    ...bodies.flatMap(({ ref, kind }) => (kind === 'memory' && failing.has(ref) ? [partTarget('memory', ref)] : [])),
    ...(model.core === undefined ? [] : [partTarget('core', model.core.ref)]),
    ...sides.map((side): Target => ({ target: 'side', at: side, refs: [], lanes: [] })),
  ]
}

function laneTargets(model: BoardModel, lanes: readonly string[]): Target[] {
  return lanes.flatMap((id) => {
    const refs = [model.laneById.get(id)?.part ?? []].flat()
    const target = { at: id, refs, lanes: [id] }
    const corridor = model.corridorByLane.has(id) ? [{ target: 'corridor' as const, ...target }] : []
    return [{ target: 'lane' as const, ...target }, ...corridor]
  })
}
