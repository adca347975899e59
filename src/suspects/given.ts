/** A card given that one more finding comes out good: every cause weighed anew by how surely it would have shown. */
import type { Item, SpatialCause } from './network.ts'
import type { Problem } from './posterior.ts'
import type { ReducedPoint, ReducedSpatial } from './reduce.ts'
import type { Setting } from './setting.ts'

export interface Given {
  /** With the same bad findings; unaffected causes are the same objects as before. */
  readonly problem: Problem
  readonly idle: readonly ReducedPoint[]
  /** Times the mass of the weighed problem: together with the good outcome. */
  readonly factor: number
}

/** @param finding index of an asked finding among the network's: taken to be good, (1 - leak) · Π (1 - q) */
export function givenGood(setting: Setting, problem: Problem, finding: number): Given {
  const leak = setting.frame.network.findings[finding]?.leak ?? 0
  let factor = 1 - leak
  const weigh = (point: ReducedPoint): ReducedPoint => {
    const q = point.cause.touches.find((touch) => touch.finding === finding)?.q ?? 0
    if (q === 0 || point.probability === 0) return point
    const share = 1 - point.probability * q
    factor *= share
    return { ...point, probability: (point.probability * (1 - q)) / share }
  }
  const { moving } = problem
  const weighed: Problem = {
    ...problem,
    points: problem.points.map(weigh),
    standing: problem.standing.map((spatial) => weighStates(spatial, finding)),
    moving: moving === undefined ? undefined : weighStates(moving, finding),
  }
  return { problem: weighed, idle: setting.idle.map(weigh), factor }
}

/** The weights of its groups, each state of theirs times Π (1 - q) over what it covers. Weights are not scaled to one. */
function weighStates(spatial: ReducedSpatial, finding: number): ReducedSpatial {
  const { cause, groupOf, stateWeight } = spatial
  const kept = keptBy(cause, finding)
  if (kept === undefined) return spatial
  const weight = new Float64Array(spatial.groups.length)
  for (let state = 0; state < groupOf.length; state++) {
    const covered = cause.states[state]
    const own = stateWeight[state] ?? 0
    if (covered === undefined || own === 0) continue
    let share = own
    for (let i = 0; i < covered.regions.length; i++) share *= kept.regions[covered.regions[i] ?? 0] ?? 1
    for (let i = 0; i < covered.areas.length; i++) share *= kept.areas[covered.areas[i] ?? 0] ?? 1
    const group = groupOf[state] ?? 0
    weight[group] = (weight[group] ?? 0) + share
  }
  return { ...spatial, groups: spatial.groups.map((group, at) => ({ ...group, weight: weight[at] ?? 0 })) }
}

/** By item: 1 - q; undefined where nothing touches the finding. Corridors touch lanes alone. */
function keptBy(cause: SpatialCause, finding: number): { regions: Float64Array; areas: Float64Array } | undefined {
  const keptOf = ({ touches }: Item): number => 1 - (touches.find((touch) => touch.finding === finding)?.q ?? 0)
  const regions = Float64Array.from(cause.regionItems, keptOf)
  const areas = Float64Array.from(cause.areaItems, keptOf)
  const touched = (kept: Float64Array): boolean => kept.some((value) => value < 1)
  return touched(regions) || touched(areas) ? { regions, areas } : undefined
}
