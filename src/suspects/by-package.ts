/**
 * Inference for many bad findings: configurations of the shared causes are enumerated, and given one, each part sums
 * over its own causes exactly. Enumerated are every place of the reported spill with none or one further shared cause,
 * and pairs of the likeliest further ones; what that leaves out is said.
 */
import { type OwnCauses, type OwnSum, ownSum, sumOver } from './part-sum.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedPoint } from './reduce.ts'
import { type Atom, type SharedVariable, sharedVariables, untouchingWithout } from './shared.ts'

const MAX_CONFIGURATIONS = 12_000
const PAIRED_ATOMS = 24
const PAIRED_GROUNDS = 16
const NEGLIGIBLE = 1e-10

interface Configuration {
  readonly atoms: readonly Atom[]
  /** By bit: what the atoms leave good. */
  readonly good: Float64Array
  readonly mass: number
}

export function judgeByPackage(problem: Problem): Posterior {
  const { owns, sharedPoints } = splitByPart(problem)
  const variables = sharedVariables(problem, sharedPoints)
  const sums = owns.map((own) => ownSum(own, problem.leak, () => undefined))
  const { configurations, leftOut } = enumerate(problem.n, variables, sums)
  const evidence = configurations.reduce((total, { mass }) => total + mass, 0)
  const largest = configurations.reduce((most, { mass }) => Math.max(most, mass), 0)
  const kept = configurations.filter(({ mass }) => mass >= largest * NEGLIGIBLE && mass > 0)
  const norm = evidence > 0 ? 1 / evidence : 0
  const noneLifted = (parts: readonly number[]): number => {
    const banned = new Set(parts)
    const allowed = kept.filter(({ atoms }) => !atoms.some((atom) => atom.lifts.some((part) => banned.has(part))))
    const untouching = untouchingRatios(variables, banned)
    const ratio = allowed.map((configuration) => untouching(configuration))
    scaleByOwn(owns, sums, problem, allowed, ratio, (point) =>
      point.cause.lifts.some((part) => banned.has(part)) ? false : undefined,
    )
    let sum = 0
    for (const [index, { mass }] of allowed.entries()) sum += mass * (ratio[index] ?? 0)
    return sum * norm
  }
  return {
    evidence,
    points: pointPosteriors(problem, owns, sums, kept, variables, norm),
    groups: groupPosteriors(variables, kept, norm),
    noneLifted,
    leftOut,
  }
}

function splitByPart(problem: Problem): { owns: OwnCauses[]; sharedPoints: number[] } {
  const byPart = new Map<string, { bits: number[]; indices: number[]; points: ReducedPoint[] }>()
  for (const [bit, part] of problem.partOfBit.entries()) {
    const own = byPart.get(part) ?? { bits: [], indices: [], points: [] }
    own.bits.push(bit)
    byPart.set(part, own)
  }
  const sharedPoints: number[] = []
  for (const [index, point] of problem.points.entries()) {
    const parts = new Set(Array.from(point.firing.bits, (bit) => problem.partOfBit[bit] ?? ''))
    const own = parts.size === 1 ? byPart.get([...parts][0] ?? '') : undefined
    if (own === undefined) sharedPoints.push(index)
    else {
      own.indices.push(index)
      own.points.push(point)
    }
  }
  return { owns: [...byPart.values()], sharedPoints }
}

function enumerate(n: number, variables: readonly SharedVariable[], sums: readonly OwnSum[]) {
  const make = (atoms: readonly Atom[]): Configuration => {
    const good = new Float64Array(n).fill(1)
    for (const atom of atoms) {
      for (const [i, bit] of atom.bits.entries()) good[bit] = (good[bit] ?? 1) * (1 - (atom.q[i] ?? 0))
    }
    let mass = weightOf(variables, atoms)
    if (mass > 0) for (const sum of sums) mass *= sumOver(sum, good)
    return { atoms, good, mass }
  }
  const leftOut = new Set<string>()
  const allGrounds = groundsOf(variables)
  const further = variables.filter((variable) => !variable.ground).flatMap((variable) => variable.atoms)
  const alone = allGrounds.map(make)
  const room = Math.max(4, Math.floor(MAX_CONFIGURATIONS / Math.max(1, further.length)))
  const grounds = bestGrounds(variables, alone, room)
  if (grounds.length < alone.length)
    leftOut.add('rarer places of the reported spill together with a second shared cause')
  const withOne = grounds.flatMap((ground) => further.map((atom) => make([...ground.atoms, atom])))
  const pairs = pairsOf(alone, withOne, further)
  if (pairs.cut) leftOut.add('rarer pairs of shared causes')
  if (further.length > 2) leftOut.add('three or more shared causes at once beside the reported spill')
  return { configurations: [...alone, ...withOne, ...pairs.atoms.map(make)], leftOut: [...leftOut] }
}

/** Every way in which the reported spills can lie. */
function groundsOf(variables: readonly SharedVariable[]): Atom[][] {
  let grounds: Atom[][] = [[]]
  for (const variable of variables) {
    if (!variable.ground) continue
    const atoms = [...variable.atoms].sort((a, b) => b.weight - a.weight)
    const room = Math.max(8, Math.floor(MAX_CONFIGURATIONS / grounds.length))
    const options = atoms.slice(0, room)
    grounds = grounds.flatMap((ground) => [ground, ...options.map((atom) => [...ground, atom])])
  }
  return grounds
}

function weightOf(variables: readonly SharedVariable[], atoms: readonly Atom[]): number {
  let weight = 1
  for (const [index, variable] of variables.entries()) {
    weight *= atoms.find((atom) => atom.variable === index)?.weight ?? variable.untouching
  }
  return weight
}

/** Half of the room for those that explain best, half for those that are likeliest beforehand. */
function bestGrounds(
  variables: readonly SharedVariable[],
  alone: readonly Configuration[],
  room: number,
): Configuration[] {
  if (alone.length <= room) return [...alone]
  const byMass = [...alone].sort((a, b) => b.mass - a.mass).slice(0, room / 2)
  const byWeight = [...alone]
    .map((configuration) => ({ configuration, weight: weightOf(variables, configuration.atoms) }))
    .sort((a, b) => b.weight - a.weight)
    .slice(0, room / 2)
  return [...new Set([...byMass, ...byWeight.map(({ configuration }) => configuration)])]
}

function pairsOf(
  alone: readonly Configuration[],
  withOne: readonly Configuration[],
  further: readonly Atom[],
): { atoms: Atom[][]; cut: boolean } {
  const massBy = new Map<Atom, number>()
  const massOfGround = new Map<string, { atoms: readonly Atom[]; mass: number }>()
  const isFurther = new Set(further)
  for (const { atoms, mass } of [...alone, ...withOne]) {
    const ground = atoms.filter((atom) => !isFurther.has(atom))
    const key = ground.map((atom) => `${atom.variable}:${atom.group}`).join()
    const known = massOfGround.get(key) ?? { atoms: ground, mass: 0 }
    massOfGround.set(key, { atoms: ground, mass: known.mass + mass })
    for (const atom of atoms) if (isFurther.has(atom)) massBy.set(atom, (massBy.get(atom) ?? 0) + mass)
  }
  const best = [...further].sort((a, b) => (massBy.get(b) ?? 0) - (massBy.get(a) ?? 0)).slice(0, PAIRED_ATOMS)
  const grounds = [...massOfGround.values()].sort((a, b) => b.mass - a.mass).slice(0, PAIRED_GROUNDS)
  const atoms: Atom[][] = []
  for (const [i, first] of best.entries()) {
    for (const second of best.slice(i + 1)) {
      if (first.variable === second.variable) continue
      for (const ground of grounds) atoms.push([...ground.atoms, first, second])
    }
  }
  return { atoms, cut: best.length < further.length || grounds.length < massOfGround.size }
}

/** For a configuration: the share of its untouching states that lift none of the banned parts. */
function untouchingRatios(variables: readonly SharedVariable[], banned: ReadonlySet<number>) {
  const ratios = variables.map((variable) =>
    variable.untouching > 0 ? untouchingWithout(variable, banned) / variable.untouching : 1,
  )
  return ({ atoms }: Configuration): number => {
    const touched = new Set(atoms.map((atom) => atom.variable))
    return ratios.reduce((product, ratio, index) => (touched.has(index) ? product : product * ratio), 1)
  }
}

/** In place: for parts whose own causes are decided otherwise, the ratio of the new sum to the old one. */
function scaleByOwn(
  owns: readonly OwnCauses[],
  sums: readonly OwnSum[],
  problem: Problem,
  configurations: readonly Configuration[],
  ratio: number[],
  decided: (point: ReducedPoint, index: number) => boolean | undefined,
): void {
  for (const [at, own] of owns.entries()) {
    if (!own.points.some((point, i) => decided(point, own.indices[i] ?? -1) !== undefined)) continue
    const plain = sums[at]
    if (plain === undefined) continue
    const other = ownSum(own, problem.leak, decided)
    for (const [index, { good }] of configurations.entries()) {
      const whole = sumOver(plain, good)
      ratio[index] = whole > 0 ? ((ratio[index] ?? 0) * sumOver(other, good)) / whole : 0
    }
  }
}

function pointPosteriors(
  problem: Problem,
  owns: readonly OwnCauses[],
  sums: readonly OwnSum[],
  kept: readonly Configuration[],
  variables: readonly SharedVariable[],
  norm: number,
): Float64Array {
  const posterior = new Float64Array(problem.points.length)
  for (const { atoms, mass } of kept) {
    for (const atom of atoms) {
      const point = variables[atom.variable]?.point
      if (point !== undefined) posterior[point] = (posterior[point] ?? 0) + mass * norm
    }
  }
  const likely = kept.filter(({ mass }) => mass * norm >= 1e-5)
  const likelyMass = likely.reduce((sum, { mass }) => sum + mass, 0)
  for (const own of owns) {
    for (const index of own.indices) {
      const ratio = likely.map(() => 1)
      scaleByOwn(
        [own],
        [sums[owns.indexOf(own)]].filter((sum) => sum !== undefined),
        problem,
        likely,
        ratio,
        (_, at) => (at === index ? true : undefined),
      )
      let sum = 0
      for (const [i, { mass }] of likely.entries()) sum += mass * (ratio[i] ?? 0)
      posterior[index] = likelyMass > 0 ? sum / likelyMass : 0
    }
  }
  return posterior
}

function groupPosteriors(
  variables: readonly SharedVariable[],
  kept: readonly Configuration[],
  norm: number,
): Float64Array[] {
  const spatial = variables.filter((variable) => variable.spatial !== undefined)
  const result = spatial.map(({ spatial: cause }) => new Float64Array(cause?.groups.length ?? 0))
  const untouched = spatial.map(() => 0)
  for (const { atoms, mass } of kept) {
    const chosen = new Map(atoms.map((atom) => [atom.variable, atom]))
    for (const [index, posterior] of result.entries()) {
      const group = chosen.get(index)?.group
      if (group === undefined) untouched[index] = (untouched[index] ?? 0) + mass * norm
      else posterior[group] = (posterior[group] ?? 0) + mass * norm
    }
  }
  for (const [index, { spatial: cause, untouching }] of spatial.entries()) {
    for (const [group, { firing, weight }] of cause?.groups.entries() ?? []) {
      const posterior = result[index]
      if (firing.bits.length > 0 || posterior === undefined || untouching <= 0) continue
      posterior[group] = ((untouched[index] ?? 0) * weight) / untouching
    }
  }
  return result
}
