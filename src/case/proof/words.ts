/** The proof in words: what the passes show, what still stands open, what no pass can show. */
import { percentAtMost, someOf, counted } from '../../base/index.ts'
import type { Proof } from '../proof.ts'
import { passesFor } from './bounds.ts'

const passesWords = (n: number): string => counted(n, 'complete pass', 'complete passes')

/** One sentence about the bound, or about why there is none. */
export function boundSentence({ passes, boundPerPass95: exact, ruleOfThree95: rule }: Proof): string {
  const { clean, failing } = passes
  const unsure = passes.runs.filter(({ kind }) => kind === 'unsure').map(({ name }) => name)
  if (unsure.length > 0) {
    return `No bound: ${unsure.join(', ')} has rows that could not be read or placed, and they may be errors.`
  }
  if (exact === undefined) {
    return passes.unnoted.length > 0
      ? 'No bound yet: note how many complete passes ran without an error.'
      : 'No bound: no complete pass is noted that ran without an error.'
  }
  const ran = clean + failing
  if (clean === 0) {
    return `No pass without an error is noted, and ${passesWords(failing)} with errors: nothing bounds how often it fails.`
  }
  if (failing > 0) {
    return `${failing.toLocaleString('en')} of ${passesWords(ran)} had errors. If passes were independent tries, one more fails with a chance of at most ${percentAtMost(exact)}, at 95 % confidence.`
  }
  const whole = passes.runs.every((run) => run.kind !== 'clean' || run.untestedLanes === 0)
  return `${passesWords(clean)} ran without an error${whole ? '' : ', some of them over a part of the memory only'}. If passes were independent tries, one more fails with a chance of at most ${percentAtMost(exact)}, at 95 % confidence${rule === undefined ? '' : ` (rule of three: ${percentAtMost(rule)})`}.`
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
    ...sentence(
      named('unsure'),
      (names) => `${names}: rows could not be read or placed and may be errors; its passes are not counted.`,
    ),
    ...sentence(
      named('says-nothing'),
      (names) =>
        `${names}: no error in it, but it does not say what was tested; its passes are not counted until you say that it went over the whole memory.`,
    ),
    ...sentence(named('not-read'), (names) => `${names}: not read; its passes are not counted.`),
    ...sentence(
      passes.unnoted.join(', '),
      (names) => `${names}: without an error, but its number of passes is not noted; it counts as none.`,
    ),
    ...(partial.length > 0
      ? ['Some of the passes went over a part of the memory only: for the lanes they left out there are fewer.']
      : []),
    ...(passes.failing > 0
      ? ['Every pass of a run with errors is taken as one that failed, since the run does not say which did.']
      : []),
    ...alwaysOpen,
  ]
}

const sentence = (names: string, say: (names: string) => string): string[] => (names === '' ? [] : [say(names)])

function openLanes({ untested, notTold, lanes }: Proof): string[] {
  const failed = lanes.filter((lane) => lane.verdict === 'untested' && lane.before === 'fail').map(({ id }) => id)
  return [
    ...(failed.length > 0 ? [`Failed before and not tested again: ${someOf(failed, MOST_NAMED)}.`] : []),
    ...(untested.length > failed.length
      ? [
          `${untested.length - failed.length} ${failed.length > 0 ? 'more ' : ''}of ${lanes.length} lanes are not covered by any run after the work.`,
        ]
      : []),
    ...(notTold.length > 0
      ? [`The retest has errors beside ${someOf(notTold, MOST_NAMED)} and does not say in which lane.`]
      : []),
  ]
}

const MOST_NAMED = 12

const alwaysOpen: readonly string[] = [
  'Passes at one temperature are not independent tries: a joint that opens only hot, or only cold, can pass all of them. Vary the temperature, and let it cool down in between.',
  'The proof holds for this test, these clocks, voltages and load only.',
  'A memory test does not touch the display outputs, the power stages under full load or the slot.',
  'A new fault, a joint that ages or residue that was left can fail later.',
]

/** How many passes without an error would bring the bound to each of these chances. */
export const passesWanted = [0.1, 0.05, 0.01].map((chance) => ({ chance, passes: passesFor(chance) }))
