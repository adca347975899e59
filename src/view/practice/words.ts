/** Practice in the words of the screen. */
import { joined, roughMoney, say } from '../../base/index.ts'
import type { OfferGroup, PracticeEvidence, PracticeResult, Rival, Split } from '../../rehearsal/index.ts'

export const groupWords: Readonly<
  Record<Exclude<OfferGroup, 'run'>, { readonly name: string; readonly verb: string }>
> = {
  measure: { name: say('Measure cold'), verb: say('Measure') },
  look: { name: say('Look'), verb: say('Look') },
  try: { name: say('Try and probe'), verb: say('Try it') },
  lift: { name: say('Lift'), verb: say('Lift') },
  'put-right': { name: say('Put right'), verb: say('Put right') },
}

export const rivalWords: Readonly<Record<Rival['id'], string>> = {
  steps: say('Liftmap, step by step'),
  'first-list': say('Liftmap’s first list, all at once'),
  named: say('Rule: what the report names'),
  'named-and-core': say('Rule: what it names, and the core where it names two or more'),
  ring: say('Rule: what it names, and the core in any case'),
  'all-knowing': say('One who knows the truth'),
}

export const splitWords: Readonly<Record<keyof Split, string>> = {
  checks: say('Measuring, looking and trying'),
  runs: say('Runs of the memory test'),
  puttingRight: say('Putting right what is no part'),
  neededLifts: say('Lifts that were needed'),
  needlessLifts: say('Lifts for nothing'),
  comeback: say('The card comes back: time and goodwill'),
  laterLifts: say('The lifts that are made then'),
  forgone: say('A repair that was given up'),
}

export const paidWords = (minutes: number, amount: number): string =>
  say('{minutes} min, costs {amount}', { minutes, amount: roughMoney(amount) })

/** One sentence about how it went. */
export function verdictWords({ you, rivals, needs }: PracticeResult): string {
  const inSteps = rivals.find(({ id }) => id === 'steps')?.cost ?? 0
  const beside = say('It cost you {cost}; Liftmap, step by step, {inSteps}.', {
    cost: roughMoney(you.cost),
    inSteps: roughMoney(inSteps),
  })
  if (you.givenUp) {
    return you.split.forgone > 0
      ? say('You gave it up, and the repair would have paid. {beside}', { beside })
      : say('You gave it up, and the repair would not have paid. {beside}', { beside })
  }
  if (you.split.comeback > 0) {
    const missed =
      you.missed.length > 0
        ? say('{missed} {length, plural, one {was} other {were}} left', {
            missed: joined(you.missed),
            length: you.missed.length,
          })
        : say('what was wrong on the board was left')
    return say('The card comes back: {missed}. {beside}', { missed, beside })
  }
  if (you.needless.length > 0)
    return say('It works, with {needless} lifted for nothing. {beside}', { needless: joined(you.needless), beside })
  return needs.length > 0
    ? say('It works, and nothing was lifted in vain. {beside}', { beside })
    : say('It works, and no part had to come off. {beside}', { beside })
}

export function listWords(refs: readonly string[]): string {
  return refs.length === 0 ? say('nothing') : refs.join(', ')
}

export function changeWords({ before, since }: Pick<PracticeEvidence, 'before' | 'since'>): string {
  const more = since.filter((ref) => !before.includes(ref))
  const fewer = before.filter((ref) => !since.includes(ref))
  if (more.length + fewer.length === 0)
    return since.length === 0
      ? say('The list stays empty.')
      : say('The list stays: {since}.', { since: since.join(', ') })
  const on = { more: joined(more), on: more.length }
  const off = { fewer: joined(fewer), off: fewer.length }
  if (fewer.length === 0) return say('{more} {on, plural, one {comes} other {come}} onto the list.', on)
  if (more.length === 0) return say('{fewer} {off, plural, one {goes} other {go}} off the list.', off)
  return say(
    '{more} {on, plural, one {comes} other {come}} onto the list, {fewer} {off, plural, one {goes} other {go}} off it.',
    { ...on, ...off },
  )
}

export const WORTH_MEANS = say(
  'Worth is what the list of parts to lift that was best before would be expected to cost with what is known since, less what the best list costs then. It is weighed at the moment at which it came: the first of two that say the same gets the credit, and what leaves the list as it was is worth nothing, a run that only proves the card among them.',
)
