/** Of the owner's record, in plain words: what was done, the card before and after, how sure one can be. */
import { numberWords, sentenceCase, say } from '../../../base/index.ts'
import { cleanedOf, wasWashed } from '../../cleaning-done.ts'
import { paragraph, quote, section } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { pictureBlocks, pictureOf } from '../pictures.ts'
import { failingChips, partsCount, plainCount } from './found.ts'

/** What was done in plain words, the technician's own, and pictures before and after. */
export function didSection(input: RecordInput): RecordSection {
  const { handBack } = input.caseFile
  return section(
    say('What we did'),
    ...partsWords(input),
    ...cleanedWords(input),
    ...quote(say('In the technician’s words'), handBack.done),
    ...pictures(input),
  )
}

/** That the board was cleaned, or taken clean by hand; nothing where it was not. */
export function cleanedWords({ caseFile }: RecordInput): RecordBlock[] {
  if (cleanedOf(caseFile) === undefined) return []
  return [
    paragraph(
      wasWashed(caseFile)
        ? say('We cleaned the board and dried it.')
        : say('We took what was on the board off by hand.'),
    ),
  ]
}

/** How many parts came off and went back, by the log. */
export function partsWords({ caseFile: { passes } }: RecordInput): RecordBlock[] {
  const done = passes.filter(({ outcome }) => outcome === 'done')
  const off = new Set(done.flatMap(({ action, refs }) => (action === 'lift' ? refs : [])))
  const back = new Set(done.flatMap(({ action, refs }) => (action === 'refit' ? refs : [])))
  const fresh = new Set(done.flatMap(({ action, refs, replaced }) => (action === 'refit' && replaced ? refs : [])))
  if (off.size === 0 && back.size === 0) return [paragraph(say('We took no part off the board.'))]
  const sentences = [
    off.size > 0
      ? say('We took {parts} off with heat, to clean and mend what was under {count, plural, one {it} other {them}}.', {
          parts: partsCount(off.size),
          count: off.size,
        })
      : '',
    back.size > 0 ? say('We put {parts} back on.', { parts: partsCount(back.size) }) : '',
    freshWords(fresh.size, back.size),
    off.size > back.size && back.size > 0
      ? say('{partsCount} did not go back on.', { partsCount: sentenceCase(partsCount(off.size - back.size)) })
      : '',
  ]
  return [paragraph(sentences.filter((sentence) => sentence !== '').join(' '))]
}

function freshWords(fresh: number, back: number): string {
  if (fresh === 0) return ''
  if (fresh === back) return back === 1 ? say('It is a new one.') : say('They are new ones.')
  return fresh === 1
    ? say('One of them is new.')
    : say('{fresh} of them are new.', { fresh: sentenceCase(plainCount(fresh)) })
}

function pictures(input: RecordInput): RecordBlock[] {
  const { tally, retest } = input
  const side = input.model.core?.side ?? 'top'
  if (tally === undefined && retest === undefined) return []
  const before = failingChips(input, tally).length
  const after = failingChips(input, retest).length
  const errors = (n: number): string =>
    n === 0
      ? say('no chip shows errors')
      : say('{chips} memory {count, plural, one {chip shows} other {chips show}} errors', {
          chips: plainCount(n),
          count: n,
        })
  const shown = [
    ...(tally === undefined
      ? []
      : [
          pictureOf(input, {
            side,
            when: 'before',
            show: ['load'],
            caption:
              `${say('Before: {before}.', { before: errors(before) })} ${before === 0 ? '' : say('Chips with errors are hatched.')}`.trim(),
            alt: say('A drawing of your card’s board before the work: {before}.', { before: errors(before) }),
          }),
        ]),
    ...(retest === undefined
      ? []
      : [
          pictureOf(input, {
            side,
            when: 'after',
            show: ['load'],
            caption: say('After: {after}.', { after: errors(after) }),
            alt: say('A drawing of your card’s board after the work: {after}.', { after: errors(after) }),
          }),
        ]),
  ]
  return pictureBlocks(shown)
}

/** What the tests after the work show, that it is no promise, and what stayed open. */
export function sureSection(input: RecordInput): RecordSection {
  return section(
    say('How sure we can be'),
    paragraph(sureWords(input)),
    ...soakWords(input),
    paragraph(NO_PROMISE),
    ...openWords(input),
  )
}

/** How long the card ran under load after the work, and whether it held. */
function soakWords({ caseFile: { benchMachine } }: RecordInput): RecordBlock[] {
  const soaks = benchMachine?.soaks ?? []
  if (soaks.length === 0) return []
  const hours = soaks.reduce((sum, soak) => sum + soak.hours, 0)
  const time = hours === 1 ? say('an hour') : say('{hours} hours', { hours: numberWords(hours) })
  return [
    paragraph(
      soaks.every(({ outcome }) => outcome === 'held')
        ? say('We also ran the card under load for {time}. It held, and we saw no error.', { time })
        : say('We also ran the card under load for {time}. It did not hold each time.', { time }),
    ),
  ]
}

const NO_PROMISE = say(
  'A test shows how the card did on that day. Nobody can promise that it will last, and neither can we.',
)

/**
 * n passes without an error: a card that failed in a share of at least 1 − 0.05^(1/n) of its passes would have shown one
 * with a chance of 95 %, which is 19 times out of 20 (Hanley and Lippman-Hand, JAMA 1983, 249: 1743).
 */
export function sureWords(input: RecordInput): string {
  const { tested, still, fresh, notTold, passes, boundPerPass95 } = input.proof
  if (!tested) return say('We have not tested the memory after the work. So we can’t say that the card is sound.')
  if (still.length + fresh.length + notTold.length > 0)
    return say('The memory test still found errors after the work. The card is not sound.')
  const { clean } = passes
  if (passes.failing > 0) return say('Some of the memory tests after the work found errors. The card is not sound.')
  if (clean === 0 || boundPerPass95 === undefined)
    return say(
      'After the work we ran the memory test and saw no error. How often it ran was not noted, so we can’t say how sure that is.',
    )
  const partly = passes.runs.some(({ kind, untestedLanes }) => kind === 'clean' && untestedLanes > 0)
  const times = clean === 1 ? say('once') : clean === 2 ? say('twice') : say('{clean} times', { clean })
  const sure = measureWords(boundPerPass95)
  return partly
    ? say('After the work we tested parts of the memory {times} and saw no error. {sure}', { times, sure })
    : say('After the work we tested the whole memory {times} and saw no error. {sure}', { times, sure })
}

/** Beyond this the tests were too few to be put in figures for an owner. */
const SAYS_LITTLE = 0.5

function measureWords(bound: number): string {
  if (bound > SAYS_LITTLE) return say('That says little: a card that often fails can pass so few tests.')
  const inHundred = bound < 0.01 ? 1 : Math.ceil(bound * 100)
  return say(
    'If it failed in {inHundred} or more of 100 such tests, we would have seen an error, 19 times out of 20. It may still fail now and then.',
    { inHundred },
  )
}

function openWords(input: RecordInput): RecordBlock[] {
  const { tested, untested } = input.proof
  if (!tested) return []
  const chips = new Set(untested.flatMap((id) => input.model.laneById.get(id)?.part ?? [])).size
  if (chips === 0) return []
  return [
    paragraph(
      chips === 1
        ? say('The tests after the work did not reach all of one memory chip.')
        : say('The tests after the work did not reach all of {chips} memory chips.', { chips: plainCount(chips) }),
    ),
  ]
}
