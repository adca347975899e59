/** Which parts have to come off: the joint probability that none of some does, from the ways that were kept. */
import type { Frame } from './frame.ts'
import { quietSound, shareWithout } from './bundle.ts'
import type { GroupValue } from './evaluate.ts'
import type { Kept, Posterior } from './posterior.ts'
import type { GroupValues } from './total.ts'

/** Probability that none of these parts (indices) has to come off. */
export type NoneNeeds = (parts: readonly number[]) => number

export interface NeedInput {
  readonly frame: Frame
  readonly posterior: Posterior
  readonly values: GroupValues
  /** By index of a part that can come off: its ref. */
  readonly parts: readonly string[]
  readonly core: string | undefined
}

/** Whether a part is the package of a group, or the core, for one question. */
interface Spared {
  readonly asked: ReadonlySet<number>
  readonly core: boolean
  /** By group: whether its package is among the parts asked for. */
  readonly packages: Uint8Array
  /** By variable: probability that it has none of them come off while it touches nothing bad. */
  readonly quiet: Float64Array
  /** Of all variables together. */
  readonly allQuiet: number
}

export function sparedBy(
  { frame, parts, core, posterior }: Omit<NeedInput, 'values'>,
  asked: readonly number[],
): Spared {
  const refs = new Set(asked.map((part) => parts[part]))
  const wanted = new Set(asked)
  const quiet = Float64Array.from(posterior.variables, (variable) => quietSound(variable, wanted))
  return {
    quiet,
    allQuiet: quiet.reduce((product, value) => product * value, 1),
    asked: wanted,
    core: core !== undefined && refs.has(core),
    packages: Uint8Array.from(frame.groups, ({ part }) => (part !== undefined && refs.has(part) ? 1 : 0)),
  }
}

/** Share of a group's value in which what is asked for is sound. */
export function soundShare(value: GroupValue, packageAsked: boolean, coreAsked: boolean): number {
  if (value.all <= 0) return 0
  if (packageAsked) return (coreAsked ? value.bothSound : value.packageSound) / value.all
  return coreAsked ? value.coreSound / value.all : 1
}

/** Probability of a kept way in which none of what is asked for has to come off. */
export function keptSound({ rare, likely, patterns, probability }: Kept, values: GroupValues, spared: Spared): number {
  const { asked, quiet, allQuiet } = spared
  let share = probability * allQuiet * shareWithout(rare, asked, quiet) * shareWithout(likely, asked, quiet)
  for (let group = 0; group < patterns.length && share > 0; group++) {
    const packageAsked = spared.packages[group] === 1
    if (!packageAsked && !spared.core) continue
    share *= soundShare(values.of(group, patterns[group] ?? 0), packageAsked, spared.core)
  }
  return share
}

export function noneNeeds(input: NeedInput): NoneNeeds {
  const { posterior, values, parts } = input
  const idle = idleSound(input)
  const remembered = new Map<string, number>()
  return (asked) => {
    const key = asked.join()
    const known = remembered.get(key)
    if (known !== undefined) return known
    const spared = sparedBy(input, asked)
    let sum = 0
    for (const kept of posterior.kept) sum += keptSound(kept, values, spared)
    for (const part of asked) sum *= idle[part] ?? 1
    if (parts.length > 0) remembered.set(key, sum)
    return sum
  }
}

/** By part: probability that no own cause that touches nothing bad has it come off. */
export function idleSound({ posterior, parts }: Pick<NeedInput, 'posterior' | 'parts'>): Float64Array {
  const sound = new Float64Array(parts.length).fill(1)
  const indexOf = new Map(parts.map((ref, index) => [ref, index]))
  for (const { cause, probability } of posterior.idle) {
    const part = cause.lifts ? indexOf.get(cause.part) : undefined
    if (part !== undefined) sound[part] = (sound[part] ?? 1) * (1 - probability)
  }
  return sound
}
