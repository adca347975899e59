/** The ways of the shared causes (see `sum`) as faults: what each state of them is that somebody at the bench could put right. */
import type { CauseAt } from '../result.ts'
import type { Bundle } from '../sum/bundle.ts'
import type { Posterior } from '../sum/posterior.ts'
import { type FaultBook, type Option, placeOf, RIGHT, touchOf, type WorldsInput } from './fault-book.ts'

export interface FaultyWay {
  readonly faults: readonly number[]
  readonly patterns: Int32Array
  readonly weight: number
}

/** Ways of the shared causes with the faults that these are; alike ones are put together. */
export function waysWithFaults(input: WorldsInput, book: FaultBook): FaultyWay[] {
  const ways = new Map<string, { faults: readonly number[]; patterns: Int32Array; weight: number }>()
  const setsOf = rememberedSets(input, book)
  for (const { probability, rare, likely, patterns } of input.posterior.kept) {
    for (const a of setsOf(rare)) {
      for (const b of setsOf(likely)) {
        const weight = probability * a.share * b.share
        if (weight <= 0) continue
        const faults = [...a.faults, ...b.faults]
        const key = `${faults.join()} ${patterns.join()}`
        const known = ways.get(key)
        if (known === undefined) ways.set(key, { faults, patterns, weight })
        else known.weight += weight
      }
    }
  }
  return [...ways.values()]
}

function rememberedSets(input: WorldsInput, book: FaultBook): (bundle: Bundle) => readonly Option[] {
  const known = new Map<Bundle, readonly Option[]>()
  return (bundle) => {
    const before = known.get(bundle)
    if (before !== undefined) return before
    const sets = new Map<string, { faults: readonly number[]; share: number }>()
    for (const { chosen, weight } of bundle.ways) {
      const faults = [...new Set(chosen.flatMap(({ variable, state }) => sharedFault(input, book, variable, state)))]
      const key = faults.toSorted((a, b) => a - b).join()
      const set = sets.get(key) ?? { faults, share: 0 }
      sets.set(key, set)
      set.share += weight / bundle.weight
    }
    const made = [...sets.values()]
    known.set(bundle, made)
    return made
  }
}

/** What a state of a shared variable is as a fault; a spill's are found package by package. */
function sharedFault(
  { posterior, parts, openAt }: WorldsInput,
  book: FaultBook,
  variable: number,
  state: number,
): readonly number[] {
  const reduced = posterior.variables[variable]
  const at = reduced?.states[state]
  if (reduced === undefined || at === undefined) return []
  if (reduced.kind === 'spill' || reduced.kind === 'unreported-spill')
    return openAt.size === 0 ? [RIGHT] : [openFault(book, openAt)]
  const label = labelOf(reduced.labels, (index) => reduced.labelShare(state, index))
  const touches = touchedBy(posterior, at.patterns, book)
  const part = parts[at.lifts]
  if (part !== undefined) return [book.number(label?.kind === 'core-patch' ? 'joints' : 'die', part, touches)]
  return label === undefined || !reduced.isOpen ? [RIGHT] : [book.number('beside', placeOf(label), touches)]
}

/** What was spilled and lies under no part that has to come off for it: it counts where a world has no other fault. */
export const openFault = (book: FaultBook, openAt: ReadonlySet<string>): number =>
  book.number(
    'open',
    '',
    book.failing.reduce((bits, ref, index) => (openAt.has(ref) ? bits | touchOf(index) : bits), 0),
  )

function labelOf(labels: readonly CauseAt[], share: (label: number) => number): CauseAt | undefined {
  let best: CauseAt | undefined
  let most = 0
  for (const [index, label] of labels.entries()) {
    if (share(index) <= most) continue
    best = label
    most = share(index)
  }
  return best
}

/** Failing packages whose lanes it touches, as bits of the book's. */
function touchedBy({ groups }: Posterior, patterns: Int32Array, { failing }: FaultBook): number {
  let touches = 0
  for (const [group, { group: of }] of groups.entries()) {
    if ((patterns[group] ?? 0) !== 0 && of.part !== undefined) touches |= touchOf(failing.indexOf(of.part))
  }
  return touches
}
