/** Configurations of the causes that parts share, for boards on which so much fails that explained sets are too many. */
import type { Problem } from './posterior.ts'
import type { ReducedSpatial } from './reduce.ts'

/** One thing that several parts may suffer from: a shared point cause, or one group of a spatial cause. */
export interface Atom {
  /** Number of the variable: spatial causes first, then shared points. */
  readonly variable: number
  /** Group of the spatial cause; undefined for a point. */
  readonly group: number | undefined
  readonly weight: number
  readonly lifts: readonly number[]
  readonly bits: Uint8Array
  readonly q: Float64Array
}

export interface SharedVariable {
  /** Weight of all states that touch no bad finding. */
  readonly untouching: number
  readonly atoms: readonly Atom[]
  readonly spatial: ReducedSpatial | undefined
  /** Index into `Problem.points` where it is a point. */
  readonly point: number | undefined
  /** A reported spill: it was there, so its groups are the ground on which the rest is tried. */
  readonly ground: boolean
}

export function sharedVariables(problem: Problem, sharedPoints: readonly number[]): SharedVariable[] {
  const spatials = problem.moving === undefined ? problem.standing : [...problem.standing, problem.moving]
  const variables: SharedVariable[] = spatials.map((spatial, variable) => spatialVariable(spatial, variable))
  for (const index of sharedPoints) {
    const point = problem.points[index]
    if (point === undefined) continue
    const { bits, q } = point.firing
    const atom: Atom = {
      variable: variables.length,
      group: undefined,
      weight: point.probability,
      lifts: point.cause.lifts,
      bits,
      q,
    }
    const untouching = 1 - point.probability
    variables.push({ untouching, atoms: [atom], spatial: undefined, point: index, ground: false })
  }
  return variables
}

function spatialVariable(spatial: ReducedSpatial, variable: number): SharedVariable {
  const atoms: Atom[] = []
  let untouching = spatial.absent
  for (const [group, { weight, firing, lifts }] of spatial.groups.entries()) {
    if (firing.bits.length === 0) untouching += weight
    else if (weight > 0) atoms.push({ variable, group, weight, lifts, bits: firing.bits, q: firing.q })
  }
  return { untouching, atoms, spatial, point: undefined, ground: spatial.cause.kind === 'spill' }
}

/** Weight of the states of a variable that touch nothing bad and lift none of these parts. */
export function untouchingWithout(variable: SharedVariable, banned: ReadonlySet<number>): number {
  if (variable.spatial === undefined) return variable.untouching
  let weight = variable.spatial.absent
  for (const group of variable.spatial.groups) {
    if (group.firing.bits.length === 0 && !group.lifts.some((part) => banned.has(part))) weight += group.weight
  }
  return weight
}
