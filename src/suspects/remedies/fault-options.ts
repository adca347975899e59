/** What a package has under a pattern of the shared causes: faults of its own, something beneath it or the core, nothing. */
import type { OwnCause } from '../network/cause.ts'
import { NEVER } from '../network/observations.ts'
import type { GroupValue } from '../sum/evaluate.ts'
import { type FaultBook, type Option, type OptionsOf, placeOf, RIGHT, touchOf, type WorldsInput } from './fault-book.ts'

/** Sets of own faults that come to less than this share of a package are passed over. */
const TRACE = 1e-3

/**
 * The options of each group under each pattern, made when first asked for and kept. Shares of one group and pattern
 * sum to one but for a trace.
 */
export function rememberedOptions(input: WorldsInput, book: FaultBook): OptionsOf {
  const kept = input.posterior.groups.map(() => new Map<number, readonly Option[]>())
  return (group, pattern) => {
    const before = kept[group]?.get(pattern)
    if (before !== undefined) return before
    const made = optionsUnder(input, book, group, pattern)
    kept[group]?.set(pattern, made)
    return made
  }
}

/**
 * What a package has under a pattern: nothing, faults of its own, something beneath it or beneath the core's end of its
 * lanes. Chances that it and the core need work are those of the sum (see `GroupValue`); where an own fault would have it
 * come off already, nothing beneath it is asked for.
 */
function optionsUnder(input: WorldsInput, book: FaultBook, group: number, pattern: number): readonly Option[] {
  const { posterior, values, core } = input
  const sum = posterior.groups[group]
  const value = values.of(group, pattern)
  if (sum === undefined || value.all <= 0) return [{ faults: [], share: 1 }]
  const { part } = sum.group
  const touches = part === undefined ? 0 : touchOf(book.failing.indexOf(part))
  const own = ownSets(input, book, group, pattern)
  const lifting = own.filter(({ lifts }) => lifts).reduce((total, { share }) => total + share, 0)
  const under = (ref: string | undefined): number[] => (ref === undefined ? [] : [book.number('beneath', ref, touches)])
  return joint(value).flatMap(({ share, needed, coreNeeded }): Option[] => {
    if (share <= 0) return []
    const atCore = coreNeeded ? under(core) : []
    const among = own.filter(({ lifts }) => lifts === needed)
    if (!needed) return spread(among, share, atCore)
    const byOwn = share * Math.min(1, lifting / Math.max(1e-12, 1 - value.packageSound / value.all))
    const rest = { faults: [...under(part), ...atCore], share: share - byOwn }
    return [...spread(among, byOwn, atCore), ...(rest.share > 0 ? [rest] : [])]
  })
}

/** Whether the package, and the core for its sake, need work: four chances that sum to one. */
function joint(value: GroupValue): { share: number; needed: boolean; coreNeeded: boolean }[] {
  const { all } = value
  const neither = value.bothSound / all
  const coreOnly = Math.max(0, value.packageSound / all - neither)
  const packageOnly = Math.max(0, value.coreSound / all - neither)
  const both = Math.max(0, 1 - neither - coreOnly - packageOnly)
  return [
    { share: neither, needed: false, coreNeeded: false },
    { share: coreOnly, needed: false, coreNeeded: true },
    { share: packageOnly, needed: true, coreNeeded: false },
    { share: both, needed: true, coreNeeded: true },
  ]
}

function spread(among: readonly Option[], share: number, also: readonly number[]): Option[] {
  const whole = among.reduce((total, each) => total + each.share, 0)
  if (whole <= 0) return [{ faults: also, share }]
  return among.map((each) => ({ faults: [...each.faults, ...also], share: (share * each.share) / whole }))
}

function ownSets(
  input: WorldsInput,
  book: FaultBook,
  group: number,
  pattern: number,
): (Option & { readonly lifts: boolean })[] {
  const sum = input.posterior.groups[group]
  const causes = sum?.own.causes ?? []
  const part = sum?.group.part
  const touches = part === undefined ? 0 : touchOf(book.failing.indexOf(part))
  const stories = input.values.stories(group, pattern)
  const whole = stories.reduce((total, { mass }) => total + mass, 0)
  const told = stories.filter(({ mass }) => mass >= TRACE * whole)
  const sets = told.map(({ members, mass }) => {
    const there = members.flatMap((index) => causes[index]?.cause ?? [])
    const faults = new Set(there.map((cause) => ownFault(book, cause, touches)))
    return { faults: [...faults], lifts: there.some(({ lifts }) => lifts), share: mass / whole }
  })
  return sets.length === 0 ? [{ faults: [], lifts: false, share: 1 }] : sets
}

function ownFault(book: FaultBook, { kind, at, part, lifts, rightFrom }: OwnCause, touches: number): number {
  if (rightFrom !== NEVER) return RIGHT
  if (!lifts) return book.number('beside', placeOf(at), touches)
  return book.number(kind === 'die' ? 'die' : 'joints', part, touches)
}
