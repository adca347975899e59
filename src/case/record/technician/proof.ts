/** Of the technician's record: lanes before and after, pictures of both, what error-free passes prove and what is untested. */
import { numberWords, say } from '../../../base/index.ts'
import { section, facts, paragraph, quote, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { pictureBlocks, pictureOf, sidesShown } from '../pictures.ts'
import { boundSentence, type LaneProof, type LaneVerdict } from '../../proof.ts'
import { knownWord } from '../known-words.ts'

/**
 * The lanes that failed before or after, and pictures of both. Lanes that passed or were never tested are left to the
 * other sections.
 */
export function beforeAfterSection(input: RecordInput): RecordSection {
  const { lanes } = input.proof
  const told = lanes.filter(({ before, after }) => before === 'fail' || after === 'fail')
  const blocks =
    input.tally === undefined && input.retest === undefined
      ? [paragraph(say('Nothing was tested, before or after.'))]
      : told.length === 0
        ? [paragraph(say('No lane failed before, none after.'))]
        : [
            table(
              say('Lanes that failed before or after the work; no other did'),
              [say('Lane'), say('Before'), say('After'), say('So it is')],
              told.map((lane) => [
                lane.id,
                stateWords(lane.before, lane.errorsBefore),
                stateWords(lane.after, lane.errorsAfter),
                `${verdicts[lane.verdict]}${lane.trend === undefined ? '' : trends[lane.trend]}`,
              ]),
            ),
          ]
  return section(say('Before and after'), ...blocks, ...pictures(input))
}

const stateWords = (state: LaneProof['before'], errors: number): string => {
  if (state === 'untested') return say('not tested')
  return state === 'fail' ? say('fails, {errors, plural, one {# error} other {# errors}}', { errors }) : say('no error')
}

const verdicts: Readonly<Record<LaneVerdict, string>> = {
  gone: say('gone'),
  fresh: say('new'),
  still: say('still there'),
  clean: say('clean'),
  untested: say('not known'),
  'not-told': say('lane unknown'),
}
const trends = { fewer: say(', fewer errors'), more: say(', more errors'), same: say(', as many errors') } as const

function pictures(input: RecordInput): RecordBlock[] {
  const shown = sidesShown(input).flatMap((side) => [
    pictureOf(input, {
      side,
      when: 'before',
      show: ['load', 'reach', 'marks', 'lift'],
      caption: say(
        'Before, {side, select, top {top} other {bottom}} side: failing lanes hatched, reach of the spill, marks, parts to lift in their order.',
        { side },
      ),
      alt: say(
        'The board’s {side, select, top {top} other {bottom}} side before the work; the tables tell what it shows.',
        { side },
      ),
    }),
    ...(input.retest === undefined
      ? []
      : [
          pictureOf(input, {
            side,
            when: 'after',
            show: ['load'],
            caption: say('After, {side, select, top {top} other {bottom}} side: lanes that fail, hatched.', { side }),
            alt: say(
              'The board’s {side, select, top {top} other {bottom}} side after the work; the tables tell what it shows.',
              { side },
            ),
          }),
        ]),
  ])
  return pictureBlocks(shown)
}

/** Lanes by verdict, what the passes bound at 95 %, and each run with what it counts for. */
export function proofSection(input: RecordInput): RecordSection {
  const proof = input.proof
  const { gone, fresh, still, untested, notTold, passes } = proof
  const named = (lanes: readonly string[]): string => (lanes.length === 0 ? say('none') : lanes.join(', '))
  const runs = passes.runs.map(({ name, passes: ran, kind, untestedLanes }) => [
    name,
    ran === undefined ? say('not noted') : numberWords(ran),
    knownWord(kind.replaceAll('-', ' ')),
    numberWords(untestedLanes),
  ])
  const lanes: readonly (readonly [string, string])[] = proof.tested
    ? [
        [say('Gone'), named(gone)],
        [say('New'), named(fresh)],
        [say('Still there'), named(still)],
        [say('Not tested after the work'), untested.length === proof.lanes.length ? say('all lanes') : named(untested)],
        [say('Errors, lane unknown'), named(notTold)],
      ]
    : [[say('Retest'), say('none was read')]]
  return section(
    say('Proof'),
    facts(say('Lanes after the work'), lanes),
    paragraph(boundSentence(proof)),
    ...(runs.length === 0
      ? []
      : [
          table(
            say('Runs after the work'),
            [say('Run'), say('Complete runs#'), say('Counts as'), say('Lanes left out#')],
            runs,
          ),
        ]),
    ...quote(say('How it was tested'), input.caseFile.proofNote),
  )
}
