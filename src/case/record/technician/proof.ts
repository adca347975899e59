/** Of the technician's record: lanes before and after, pictures of both, what error-free passes prove and what is untested. */
import { counted, numberWords } from '../../../base/index.ts'
import { section, facts, paragraph, quote, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { pictureBlocks, pictureOf, sidesShown } from '../pictures.ts'
import { boundSentence, type LaneProof, type LaneVerdict } from '../../proof.ts'

/**
 * The lanes that failed before or after, and pictures of both. Lanes that passed or were never tested are left to the
 * other sections.
 */
export function beforeAfterSection(input: RecordInput): RecordSection {
  const { lanes } = input.proof
  const told = lanes.filter(({ before, after }) => before === 'fail' || after === 'fail')
  const blocks =
    input.tally === undefined && input.retest === undefined
      ? [paragraph('Nothing was tested, before or after.')]
      : told.length === 0
        ? [paragraph('No lane failed before, none after.')]
        : [
            table(
              'Lanes that failed before or after the work; no other did',
              ['Lane', 'Before', 'After', 'So it is'],
              told.map((lane) => [
                lane.id,
                stateWords(lane.before, lane.errorsBefore),
                stateWords(lane.after, lane.errorsAfter),
                `${verdicts[lane.verdict]}${lane.trend === undefined ? '' : trends[lane.trend]}`,
              ]),
            ),
          ]
  return section('Before and after', ...blocks, ...pictures(input))
}

const stateWords = (state: LaneProof['before'], errors: number): string => {
  if (state === 'untested') return 'not tested'
  return state === 'fail' ? `fails, ${counted(errors, 'error')}` : 'no error'
}

const verdicts: Readonly<Record<LaneVerdict, string>> = {
  gone: 'gone',
  fresh: 'new',
  still: 'still there',
  clean: 'clean',
  untested: 'not known',
  'not-told': 'lane unknown',
}
const trends = { fewer: ', fewer errors', more: ', more errors', same: ', as many errors' } as const

function pictures(input: RecordInput): RecordBlock[] {
  const shown = sidesShown(input).flatMap((side) => [
    pictureOf(input, {
      side,
      when: 'before',
      show: ['load', 'reach', 'marks', 'lift'],
      caption: `Before, ${side} side: failing lanes hatched, reach of the spill, marks, parts to lift in their order.`,
      alt: `The board’s ${side} side before the work; the tables tell what it shows.`,
    }),
    ...(input.retest === undefined
      ? []
      : [
          pictureOf(input, {
            side,
            when: 'after',
            show: ['load'],
            caption: `After, ${side} side: lanes that fail, hatched.`,
            alt: `The board’s ${side} side after the work; the tables tell what it shows.`,
          }),
        ]),
  ])
  return pictureBlocks(shown)
}

/** Lanes by verdict, what the passes bound at 95 %, and each run with what it counts for. */
export function proofSection(input: RecordInput): RecordSection {
  const proof = input.proof
  const { gone, fresh, still, untested, notTold, passes } = proof
  const named = (lanes: readonly string[]): string => (lanes.length === 0 ? 'none' : lanes.join(', '))
  const runs = passes.runs.map(({ name, passes: ran, kind, untestedLanes }) => [
    name,
    ran === undefined ? 'not noted' : numberWords(ran),
    kind.replaceAll('-', ' '),
    numberWords(untestedLanes),
  ])
  const lanes: readonly (readonly [string, string])[] = proof.tested
    ? [
        ['Gone', named(gone)],
        ['New', named(fresh)],
        ['Still there', named(still)],
        ['Not tested after the work', untested.length === proof.lanes.length ? 'all lanes' : named(untested)],
        ['Errors, lane unknown', named(notTold)],
      ]
    : [['Retest', 'none was read']]
  return section(
    'Proof',
    facts('Lanes after the work', lanes),
    paragraph(boundSentence(proof)),
    ...(runs.length === 0
      ? []
      : [table('Runs after the work', ['Run', 'Passes#', 'Counts as', 'Lanes left out#'], runs)]),
    ...quote('How it was tested', input.caseFile.proofNote),
  )
}
