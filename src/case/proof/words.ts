/** The proof in words: what the passes show, what still stands open, what no pass can show. */
import { numberWords, percentAtMost, say, someOf } from '../../base/index.ts'
import type { Proof } from '../proof.ts'
import { passesFor } from './bounds.ts'

const passesWords = (n: number): string => say('{n, plural, one {# complete run} other {# complete runs}}', { n })

/** One sentence about the bound, or about why there is none. */
export function boundSentence({ passes, boundPerPass95: exact, ruleOfThree95: rule }: Proof): string {
  const { clean, failing } = passes
  const unsure = passes.runs.filter(({ kind }) => kind === 'unsure').map(({ name }) => name)
  if (unsure.length > 0) {
    return say('No bound: {unsure} has rows that could not be read or placed, and they may be errors.', {
      unsure: unsure.join(', '),
    })
  }
  if (exact === undefined) {
    return passes.unnoted.length > 0
      ? say('No bound yet: note how many complete runs had no error.')
      : say('No bound: no complete run without an error is noted.')
  }
  const ran = clean + failing
  if (clean === 0) {
    return say('No run without an error is noted, and {failing} with errors: nothing bounds how often it fails.', {
      failing: passesWords(failing),
    })
  }
  if (failing > 0) {
    return say(
      '{failing} of {ran} had errors. If runs were independent tries, one more fails with a chance of at most {exact}, at 95 % confidence.',
      { failing: numberWords(failing), ran: passesWords(ran), exact: percentAtMost(exact) },
    )
  }
  const whole = passes.runs.every((run) => run.kind !== 'clean' || run.untestedLanes === 0)
  return say(
    '{clean} without an error{partly}. If runs were independent tries, one more fails with a chance of at most {exact}, at 95 % confidence{rule}.',
    {
      clean: passesWords(clean),
      partly: whole ? '' : say(', some of them over a part of the memory only'),
      exact: percentAtMost(exact),
      rule: rule === undefined ? '' : say(' (rule of three: {rule})', { rule: percentAtMost(rule) }),
    },
  )
}

/** What the runs leave open, each in a sentence; what follows from the entries comes before what holds always. */
export function notProven(proof: Proof): string[] {
  const { passes } = proof
  const named = (kind: Proof['passes']['runs'][number]['kind']): string =>
    passes.runs
      .filter((run) => run.kind === kind)
      .map(({ name }) => name)
      .join(', ')
  const partial = passes.runs.filter((run) => run.kind === 'clean' && run.untestedLanes > 0)
  return [
    ...openLanes(proof),
    ...sentence(named('unsure'), (names) =>
      say('{names}: rows could not be read or placed and may be errors; its runs are not counted.', { names }),
    ),
    ...sentence(named('says-nothing'), (names) =>
      say(
        '{names}: no error in it, but it does not say what was tested; its runs are not counted until you say that it went over the whole memory.',
        { names },
      ),
    ),
    ...sentence(named('not-read'), (names) => say('{names}: not read; its runs are not counted.', { names })),
    ...sentence(passes.unnoted.join(', '), (names) =>
      say('{names}: without an error, but its number of runs is not noted; it counts as none.', { names }),
    ),
    ...(partial.length > 0
      ? [say('Some of the runs went over a part of the memory only: for the lanes they left out there are fewer.')]
      : []),
    ...(passes.failing > 0
      ? [say('Every run of a report with errors is taken as one that failed, since the report does not say which did.')]
      : []),
    ...alwaysOpen,
  ]
}

const sentence = (names: string, saying: (names: string) => string): string[] => (names === '' ? [] : [saying(names)])

function openLanes({ untested, notTold, lanes }: Proof): string[] {
  const failed = lanes.filter((lane) => lane.verdict === 'untested' && lane.before === 'fail').map(({ id }) => id)
  return [
    ...(failed.length > 0
      ? [say('Failed before and not tested again: {failed}.', { failed: someOf(failed, MOST_NAMED) })]
      : []),
    ...(untested.length > failed.length
      ? [
          failed.length > 0
            ? say('{untested} more of {lanes} lanes are not covered by any run after the work.', {
                untested: untested.length - failed.length,
                lanes: lanes.length,
              })
            : say('{untested} of {lanes} lanes are not covered by any run after the work.', {
                untested: untested.length,
                lanes: lanes.length,
              }),
        ]
      : []),
    ...(notTold.length > 0
      ? [
          say('The retest has errors beside {notTold} and does not say in which lane.', {
            notTold: someOf(notTold, MOST_NAMED),
          }),
        ]
      : []),
  ]
}

const MOST_NAMED = 12

const alwaysOpen: readonly string[] = [
  say(
    'Runs at one temperature are not independent tries: a joint that opens only hot, or only cold, can pass all of them. Vary the temperature, and let it cool down in between.',
  ),
  say('The proof holds for this test, these clocks, voltages and load only.'),
  say('A memory test does not touch the display outputs, the power stages under full load or the slot.'),
  say('A new fault, a joint that ages or residue that was left can fail later.'),
]

/** How many passes without an error would bring the bound to each of these chances. */
export const passesWanted = [0.1, 0.05, 0.01].map((chance) => ({ chance, passes: passesFor(chance) }))
