/** Which parts have to come off: the joint probability that none of some does, from the ways that were kept. */
import type { Frame } from './frame.ts'
import type { GroupValue } from './evaluate.ts'
import type { Posterior } from './posterior.ts'
import type { ReducedVariable } from './states.ts'
import type { GroupValues } from './values.ts'
import { bundleShares, type WayTable, wayTable } from './way-table.ts'

/**
 * Probability that none of these parts (indices) has to come off; with the index after the last part also that no rail,
 * branch or slip is at work.
 */
export type NoneNeeds = (parts: readonly number[]) => number

export interface NeedInput {
  readonly frame: Frame
  readonly posterior: Posterior
  readonly values: GroupValues
  /** By index of a part that can come off: its ref. */
  readonly parts: readonly string[]
  readonly core: string | undefined
}

/** What every question about one set of parts shares. */
export interface Spared {
  readonly asked: ReadonlySet<number>
  readonly core: boolean
  /** By group: whether its package is among the parts asked for. */
  readonly packages: Uint8Array
  /** By row of the way table: 1 where none of them comes off. */
  readonly rows: Uint8Array
  /** By kept way: its probability times the share of each group in which what is asked for is sound. */
  readonly ways: Float64Array
  /** Probability that no own cause that touches nothing bad has one of them come off. */
  readonly idle: number
}

export interface NeedGround {
  readonly input: NeedInput
  readonly table: WayTable
  /** Remembered by set. */
  readonly spared: (asked: readonly number[]) => Spared
  /** By kept way: its probability together with nothing that is asked for coming off, but for `Spared.idle`. */
  readonly masses: (spared: Spared) => Float64Array
  /** By variable: states that touch nothing bad and have a part come off. */
  readonly idleLifts: readonly (readonly { readonly state: number; readonly part: number; readonly weight: number }[])[]
}

/** Tables for questions about sets of parts, over one posterior. What is asked for once is remembered by its set. */
export function needGround(input: NeedInput): NeedGround {
  const { posterior } = input
  const table = wayTable(posterior.variables, posterior.kept, input.parts.length)
  const idle = idleSound(input)
  const remembered = new Map<string, Spared>()
  const soundBy = soundShares(input)
  const probabilities = Float64Array.from(posterior.kept.map(({ probability }) => probability))
  const rowsOff = rowsByPart(table, input.parts.length)
  const spared = (asked: readonly number[]): Spared => {
    const key = asked.join()
    const known = remembered.get(key)
    if (known !== undefined) return known
    const made = sparedBy({ input, idle, soundBy, probabilities, rowsOff, table }, asked)
    remembered.set(key, made)
    return made
  }
  const { variables } = posterior
  const idleLifts = variables.map(idleLiftsOf)
  const gone = idleLifts.map((lifts) => byPart(lifts, () => 1))
  const quietOf = quietShares(variables, new Float64Array(variables.length), gone)
  const known = new Map<Spared, Float64Array>()
  const masses = (of: Spared): Float64Array => {
    const before = known.get(of)
    if (before !== undefined) return before
    const made = massesOfWays({ table }, of, table.share, quietOf(of.asked), new Float64Array(of.ways.length))
    known.set(of, made)
    return made
  }
  return { input, table, spared, masses, idleLifts }
}

const idleLiftsOf = ({ idle, states }: ReducedVariable): { state: number; part: number; weight: number }[] =>
  idle.flatMap((state) => {
    const { lifts = -1, weight = 0 } = states[state] ?? {}
    return lifts >= 0 ? [{ state, part: lifts, weight }] : []
  })

/** By kept way: how much of a group's value is left when what is asked for is sound. */
type SoundBy = (group: number, packageAsked: boolean, coreAsked: boolean) => Float64Array

function soundShares({ posterior, values }: NeedInput): SoundBy {
  const known = new Map<number, Float64Array>()
  return (group, packageAsked, coreAsked) => {
    const key = 4 * group + (packageAsked ? 2 : 0) + (coreAsked ? 1 : 0)
    const before = known.get(key)
    if (before !== undefined) return before
    const shares = Float64Array.from(posterior.kept, ({ patterns }) =>
      soundShare(values.of(group, patterns[group] ?? 0), packageAsked, coreAsked),
    )
    known.set(key, shares)
    return shares
  }
}

interface SparedWork {
  readonly input: NeedInput
  readonly table: WayTable
  readonly idle: Float64Array
  readonly soundBy: SoundBy
  /** By kept way. */
  readonly probabilities: Float64Array
  /** By part (and what is no part): rows of the way table in which it comes off. */
  readonly rowsOff: readonly (readonly number[])[]
}

function rowsByPart({ parts }: WayTable, other: number): number[][] {
  const rows = Array.from({ length: other + 1 }, () => [] as number[])
  for (const [row, off] of parts.entries()) for (const part of off) rows[part]?.push(row)
  return rows
}

function sparedRows(rowsOff: SparedWork['rowsOff'], count: number, asked: readonly number[]): Uint8Array {
  const spared = new Uint8Array(count).fill(1)
  for (const part of asked) for (const row of rowsOff[part] ?? []) spared[row] = 0
  return spared
}

function sparedBy(
  { input, table, idle, soundBy, probabilities, rowsOff }: SparedWork,
  asked: readonly number[],
): Spared {
  const { frame, parts, core } = input
  const refs = new Set(asked.map((part) => parts[part]))
  const coreAsked = core !== undefined && refs.has(core)
  const packages = Uint8Array.from(frame.groups, ({ part }) => (part !== undefined && refs.has(part) ? 1 : 0))
  // The core's end lies in every group, a package's only in its own: no other group's value changes.
  const concerned = coreAsked ? [...packages.keys()] : [...packages.keys()].filter((group) => packages[group] === 1)
  const ways = probabilities.slice()
  for (const group of concerned) {
    const shares = soundBy(group, packages[group] === 1, coreAsked)
    for (let way = 0; way < ways.length; way++) ways[way] = (ways[way] ?? 0) * (shares[way] ?? 0)
  }
  return {
    asked: new Set(asked),
    core: coreAsked,
    packages,
    rows: sparedRows(rowsOff, table.parts.length, asked),
    ways,
    idle: asked.reduce((product, part) => product * (idle[part] ?? 1), 1),
  }
}

/** How much of a group's value is left when what is asked for is sound. */
export function soundValue(value: GroupValue, packageAsked: boolean, coreAsked: boolean): number {
  if (packageAsked) return coreAsked ? value.bothSound : value.packageSound
  return coreAsked ? value.coreSound : value.all
}

const soundShare = (value: GroupValue, packageAsked: boolean, coreAsked: boolean): number =>
  value.all <= 0 ? 0 : soundValue(value, packageAsked, coreAsked) / value.all

/** The question over these tables: a probability for each set of parts by ascending indices, remembered. */
export function noneNeeds(ground: NeedGround): NoneNeeds {
  const remembered = new Map<string, number>()
  return (asked) => {
    const key = asked.join()
    const known = remembered.get(key)
    if (known !== undefined) return known
    const spared = ground.spared(asked)
    const sum = sumOfMasses(ground.masses(spared)) * spared.idle
    remembered.set(key, sum)
    return sum
  }
}

/** Weights of quiet states that have a part come off, by part. */
export function byPart(
  lifts: NeedGround['idleLifts'][number],
  goodOf: (state: number) => number,
): { part: number; weight: number }[] {
  const weights = new Map<number, number>()
  for (const { state, part, weight } of lifts) weights.set(part, (weights.get(part) ?? 0) + weight * goodOf(state))
  return [...weights].map(([part, weight]) => ({ part, weight }))
}

type PartWeights = readonly { readonly part: number; readonly weight: number }[]

function sumOfAsked(weights: PartWeights, asked: ReadonlySet<number>): number {
  let sum = 0
  for (const { part, weight } of weights) if (asked.has(part)) sum += weight
  return sum
}

/**
 * @param lost by variable: weight of its quiet states that are lost whatever is asked for
 * @param gone by variable: weights of those that are lost with a part
 * @returns by what is asked for, by variable: how surely it spares that while it is quiet
 */
export function quietShares(
  variables: readonly ReducedVariable[],
  lost: Float64Array,
  gone: readonly PartWeights[],
): (asked: ReadonlySet<number>) => Float64Array {
  const whatever = Float64Array.from(variables.map(({ quiet }, number) => quietShare(quiet, lost[number] ?? 0)))
  const dependent = [...gone.keys()].filter((number) => (gone[number]?.length ?? 0) > 0)
  return (asked) => {
    const quiet = whatever.slice()
    for (const number of dependent) {
      const also = sumOfAsked(gone[number] ?? [], asked)
      if (also > 0) quiet[number] = quietShare(variables[number]?.quiet ?? 0, (lost[number] ?? 0) + also)
    }
    return quiet
  }
}

/** Above zero, because ways in which the variable is not quiet have it divided out again. */
const quietShare = (whole: number, lost: number): number => (whole > 0 ? Math.max(LEAST_QUIET, 1 - lost / whole) : 1)

const LEAST_QUIET = 1e-12

/**
 * By kept way: its probability times the share of both bundles that spares what is asked for.
 * @param shares by row of the way table
 * @param quiet by variable: how surely it is good and spares what is asked for while it is quiet
 * @param masses room for the answer
 */
export function massesOfWays(
  { table }: Pick<NeedGround, 'table'>,
  { ways, rows }: Spared,
  shares: Float64Array,
  quiet: Float64Array,
  masses: Float64Array,
): Float64Array {
  const ofBundle = bundleShares(table, shares, rows, quiet)
  const { rareOf, likelyOf } = table
  let allQuiet = 1
  for (let variable = 0; variable < quiet.length; variable++) allQuiet *= quiet[variable] ?? 1
  for (let way = 0; way < ways.length; way++) {
    masses[way] = allQuiet * (ways[way] ?? 0) * (ofBundle[rareOf[way] ?? 0] ?? 0) * (ofBundle[likelyOf[way] ?? 0] ?? 0)
  }
  return masses
}

/** Σ of masses, each times a further factor; none where left out. */
export function sumOfMasses(masses: Float64Array, times?: Float64Array): number {
  let sum = 0
  if (times === undefined) for (let way = 0; way < masses.length; way++) sum += masses[way] ?? 0
  else for (let way = 0; way < masses.length; way++) sum += (masses[way] ?? 0) * (times[way] ?? 1)
  return sum
}

/** By part: probability that no own cause that touches nothing bad has it come off. */
function idleSound({ posterior, parts }: Pick<NeedInput, 'posterior' | 'parts'>): Float64Array {
  const sound = new Float64Array(parts.length).fill(1)
  const indexOf = new Map(parts.map((ref, index) => [ref, index]))
  for (const { cause, probability } of posterior.idle) {
    const part = cause.lifts ? indexOf.get(cause.part) : undefined
    if (part !== undefined) sound[part] = (sound[part] ?? 1) * (1 - probability)
  }
  return sound
}
