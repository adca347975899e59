/** Practice in the words of the screen. */
import { joined, roughMoney } from '../../base/index.ts'
import type { OfferGroup, PracticeEvidence, PracticeResult, Rival, Split } from '../../rehearsal/index.ts'

export const groupWords: Readonly<
  Record<Exclude<OfferGroup, 'run'>, { readonly name: string; readonly verb: string }>
> = {
  measure: { name: 'Measure cold', verb: 'Measure' },
  look: { name: 'Look', verb: 'Look' },
  try: { name: 'Try and probe', verb: 'Try it' },
  lift: { name: 'Lift', verb: 'Lift' },
  'put-right': { name: 'Put right', verb: 'Put right' },
}

export const rivalWords: Readonly<Record<Rival['id'], string>> = {
  steps: 'Liftmap, step by step',
  'first-list': 'Liftmap’s first list, all at once',
  named: 'Rule: what the report names',
  'named-and-core': 'Rule: what it names, and the core where it names two or more',
  ring: 'Rule: what it names, and the core in any case',
  'all-knowing': 'One who knows the truth',
}

export const splitWords: Readonly<Record<keyof Split, string>> = {
  checks: 'Measuring, looking and trying',
  runs: 'Runs of the memory test',
  puttingRight: 'Putting right what is no part',
  neededLifts: 'Lifts that were needed',
  needlessLifts: 'Lifts for nothing',
  comeback: 'The card comes back: time and goodwill',
  laterLifts: 'The lifts that are made then',
  forgone: 'A repair that was given up',
}

export const paidWords = (minutes: number, amount: number): string => `${minutes} min, costs ${roughMoney(amount)}`

/** One sentence about how it went. */
export function verdictWords({ you, rivals, needs }: PracticeResult): string {
  const inSteps = rivals.find(({ id }) => id === 'steps')?.cost ?? 0
  const beside = `It cost you ${roughMoney(you.cost)}; Liftmap, step by step, ${roughMoney(inSteps)}.`
  if (you.givenUp) {
    return you.split.forgone > 0
      ? `You gave it up, and the repair would have paid. ${beside}`
      : `You gave it up, and the repair would not have paid. ${beside}`
  }
  if (you.split.comeback > 0) {
    const missed =
      you.missed.length > 0
        ? `${joined(you.missed)} ${you.missed.length === 1 ? 'was' : 'were'} left`
        : 'what was wrong on the board was left'
    return `The card comes back: ${missed}. ${beside}`
  }
  if (you.needless.length > 0) return `It works, with ${joined(you.needless)} lifted for nothing. ${beside}`
  return needs.length > 0
    ? `It works, and nothing was lifted in vain. ${beside}`
    : `It works, and no part had to come off. ${beside}`
}

export function listWords(refs: readonly string[]): string {
  return refs.length === 0 ? 'nothing' : refs.join(', ')
}

export function changeWords({ before, since }: Pick<PracticeEvidence, 'before' | 'since'>): string {
  const more = since.filter((ref) => !before.includes(ref))
  const fewer = before.filter((ref) => !since.includes(ref))
  if (more.length + fewer.length === 0)
    return since.length === 0 ? 'The list stays empty.' : `The list stays: ${since.join(', ')}.`
  const parts = [
    ...(more.length > 0 ? [`${joined(more)} ${more.length === 1 ? 'comes' : 'come'} onto the list`] : []),
    ...(fewer.length > 0 ? [`${joined(fewer)} ${fewer.length === 1 ? 'goes' : 'go'} off it`] : []),
  ]
  return `${parts.join(', ')}.`.replace(/ off it\.$/, more.length > 0 ? ' off it.' : ' off the list.')
}

export const WORTH_MEANS =
  'Worth is what the list of parts to lift that was best before would be expected to cost with what is known since, less what the best list costs then. It is weighed at the moment at which it came: the first of two that say the same gets the credit, and what leaves the list as it was is worth nothing, a run that only proves the card among them.'
