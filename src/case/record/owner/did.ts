/** Of the owner's record, in plain words: what was done, the card before and after, how sure one can be. */
import { numberWords, sentenceCase } from '../../../base/index.ts'
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
    'What we did',
    ...partsWords(input),
    ...cleanedWords(input),
    ...quote('In the technician’s words', handBack.done),
    ...pictures(input),
  )
}

/** That the board was cleaned, or taken clean by hand; nothing where it was not. */
export function cleanedWords({ caseFile }: RecordInput): RecordBlock[] {
  if (cleanedOf(caseFile) === undefined) return []
  return [
    paragraph(
      wasWashed(caseFile) ? 'We cleaned the board and dried it.' : 'We took what was on the board off by hand.',
    ),
  ]
}

/** How many parts came off and went back, by the log. */
export function partsWords({ caseFile: { passes } }: RecordInput): RecordBlock[] {
  const done = passes.filter(({ outcome }) => outcome === 'done')
  const off = new Set(done.flatMap(({ action, refs }) => (action === 'lift' ? refs : [])))
  const back = new Set(done.flatMap(({ action, refs }) => (action === 'refit' ? refs : [])))
  const fresh = new Set(done.flatMap(({ action, refs, replaced }) => (action === 'refit' && replaced ? refs : [])))
  if (off.size === 0 && back.size === 0) return [paragraph('We took no part off the board.')]
  const sentences = [
    off.size > 0
      ? `We took ${partsCount(off.size)} off with heat, to clean and mend what was under ${off.size === 1 ? 'it' : 'them'}.`
      : '',
    back.size > 0 ? `We put ${partsCount(back.size)} back on.` : '',
    freshWords(fresh.size, back.size),
    off.size > back.size && back.size > 0
      ? `${sentenceCase(partsCount(off.size - back.size))} did not go back on.`
      : '',
  ]
  return [paragraph(sentences.filter((sentence) => sentence !== '').join(' '))]
}

function freshWords(fresh: number, back: number): string {
  if (fresh === 0) return ''
  if (fresh === back) return back === 1 ? 'It is a new one.' : 'They are new ones.'
  return fresh === 1 ? 'One of them is new.' : `${sentenceCase(plainCount(fresh))} of them are new.`
}

function pictures(input: RecordInput): RecordBlock[] {
  const { tally, retest } = input
  const side = input.model.core?.side ?? 'top'
  if (tally === undefined && retest === undefined) return []
  const before = failingChips(input, tally).length
  const after = failingChips(input, retest).length
  const errors = (n: number): string =>
    n === 0 ? 'no chip shows errors' : `${plainCount(n)} memory ${n === 1 ? 'chip shows' : 'chips show'} errors`
  const shown = [
    ...(tally === undefined
      ? []
      : [
          pictureOf(input, {
            side,
            when: 'before',
            show: ['load'],
            caption: `Before: ${errors(before)}. ${before === 0 ? '' : 'Chips with errors are hatched.'}`.trim(),
            alt: `A drawing of your card’s board before the work: ${errors(before)}.`,
          }),
        ]),
    ...(retest === undefined
      ? []
      : [
          pictureOf(input, {
            side,
            when: 'after',
            show: ['load'],
            caption: `After: ${errors(after)}.`,
            alt: `A drawing of your card’s board after the work: ${errors(after)}.`,
          }),
        ]),
  ]
  return pictureBlocks(shown)
}

/** What the tests after the work show, that it is no promise, and what stayed open. */
export function sureSection(input: RecordInput): RecordSection {
  return section(
    'How sure we can be',
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
  const time = hours === 1 ? 'an hour' : `${numberWords(hours)} hours`
  return [
    paragraph(
      soaks.every(({ outcome }) => outcome === 'held')
        ? `We also ran the card under load for ${time}. It held, and we saw no error.`
        : `We also ran the card under load for ${time}. It did not hold each time.`,
    ),
  ]
}

const NO_PROMISE =
  'A test shows how the card did on that day. Nobody can promise that it will last, and neither can we.'

/**
 * n passes without an error: a card that failed in a share of at least 1 − 0.05^(1/n) of its passes would have shown one
 * with a chance of 95 %, which is 19 times out of 20 (Hanley and Lippman-Hand, JAMA 1983, 249: 1743).
 */
export function sureWords(input: RecordInput): string {
  const { tested, still, fresh, notTold, passes, boundPerPass95 } = input.proof
  if (!tested) return 'We have not tested the memory after the work. So we can’t say that the card is sound.'
  if (still.length + fresh.length + notTold.length > 0)
    return 'The memory test still found errors after the work. The card is not sound.'
  const { clean } = passes
  if (passes.failing > 0) return 'Some of the memory tests after the work found errors. The card is not sound.'
  if (clean === 0 || boundPerPass95 === undefined)
    return 'After the work we ran the memory test and saw no error. How often it ran was not noted, so we can’t say how sure that is.'
  const partly = passes.runs.some(({ kind, untestedLanes }) => kind === 'clean' && untestedLanes > 0)
  const times = clean === 1 ? 'once' : clean === 2 ? 'twice' : `${clean} times`
  return `After the work we tested ${partly ? 'parts of the memory' : 'the whole memory'} ${times} and saw no error. ${measureWords(boundPerPass95)}`
}

/** Beyond this the tests were too few to be put in figures for an owner. */
const SAYS_LITTLE = 0.5

function measureWords(bound: number): string {
  if (bound > SAYS_LITTLE) return 'That says little: a card that often fails can pass so few tests.'
  const inHundred = bound < 0.01 ? 1 : Math.ceil(bound * 100)
  return `If it failed in ${inHundred} or more of 100 such tests, we would have seen an error, 19 times out of 20. It may still fail now and then.`
}

function openWords(input: RecordInput): RecordBlock[] {
  const { tested, untested } = input.proof
  if (!tested) return []
  const chips = new Set(untested.flatMap((id) => input.model.laneById.get(id)?.part ?? [])).size
  if (chips === 0) return []
  return [
    paragraph(
      `The tests after the work did not reach all of ${chips === 1 ? 'one memory chip' : `${plainCount(chips)} memory chips`}.`,
    ),
  ]
}
