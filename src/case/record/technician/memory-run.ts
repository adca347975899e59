/** Of the technician's record: the reports, what they say per lane and bit, and the kind of failure of each part. */
import { numberWords, say } from '../../../base/index.ts'
import type { CellSpread, LaneTally, PartTally, Tally } from '../../../report/index.ts'
import { list, paragraph, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { signatureWords } from '../../kind-words.ts'

/** The reports in the case with how each was read, and the tallies before and after the work. */
export function memoryRunSection({ caseFile: { reports }, tally, retest }: RecordInput): RecordSection {
  const reportTable =
    reports.length === 0
      ? [paragraph(say('No test report is in the case.'))]
      : [
          table(
            say('Reports'),
            [say('Report'), say('Run'), say('Complete runs#'), say('Covers'), say('Read as')],
            reports.map(({ name, path, run, testPasses, coversAll, recipe, overtaken, table: byHand }) => [
              path === undefined ? name : `${name} (${path})`,
              `${run === 'first' ? say('as the card came') : say('after the work')}${overtaken === true ? say('; work went on after it, so it does not count') : ''}`,
              testPasses === undefined ? say('not noted') : numberWords(testPasses),
              coversAll ? say('the whole memory') : say('what it lists'),
              byHand === undefined
                ? recipe === undefined
                  ? say('guessed recipe')
                  : say('given recipe')
                : say('entered by hand'),
            ]),
          ),
        ]
  return section(
    say('Memory run'),
    ...reportTable,
    ...tallyBlocks(say('as it came'), tally),
    ...tallyBlocks(say('after the work'), retest),
  )
}

function tallyBlocks(when: string, tally: Tally | undefined): RecordBlock[] {
  if (tally === undefined) return [paragraph(say('No memory run of the card {when} was read.', { when }))]
  const { read, unreadable, unmapped, skipped } = tally.rows
  const failing = tally.parts.filter((part) => lanesOf(part).some(({ state }) => state === 'fail') || part.errors > 0)
  return [
    paragraph(
      say(
        'The card {when}: {read, plural, one {# row} other {# rows}} read, {unreadable} unreadable, {unmapped} that fit no part, {skipped} skipped.',
        {
          when,
          read,
          unreadable: numberWords(unreadable),
          unmapped: numberWords(unmapped),
          skipped: numberWords(skipped),
        },
      ),
    ),
    ...(failing.length === 0 ? [paragraph(say('No lane failed.'))] : failingBlocks(when, failing)),
    ...untestedBlock(tally),
  ]
}

function failingBlocks(when: string, failing: readonly PartTally[]): RecordBlock[] {
  const rows = failing.flatMap((part) =>
    lanesOf(part)
      .filter(({ state }) => state === 'fail')
      .map((lane) => [lane.id, numberWords(lane.errors), bitWords(lane)]),
  )
  return [
    ...(rows.length === 0
      ? []
      : [
          table(
            say('Failing lanes, the card {when}', { when }),
            [say('Lane'), say('Errors#'), say('Errors by data bit')],
            rows,
          ),
        ]),
    ...list(
      failing.map(({ errors, signature, cells }) =>
        [
          say('{sentence} {errors, plural, one {# failing row} other {# failing rows}}, {kind} at {where}', {
            sentence: signature.sentence,
            errors,
            kind: signatureWords[signature.kind],
            where: signature.where,
          }),
          ...signature.numbers.map(({ name, value }) => `${name} ${numberWords(value)}`),
          ...(cells === undefined ? [] : cellWords(cells, signature.kind === 'cells')),
        ].join('; '),
      ),
    ),
  ]
}

/** `bit 3: 812 (812 as 1)`: how many, and what was read where something else stood; a report that does not go down to bits says so. */
function bitWords({ bits, high, low }: LaneTally): string {
  const words = bits.flatMap((errors, bit) => {
    if (errors === 0) return []
    const read = [
      ...((high[bit] ?? 0) > 0 ? [say('{numberWords} as 1', { numberWords: numberWords(high[bit] ?? 0) })] : []),
      ...((low[bit] ?? 0) > 0 ? [say('{numberWords} as 0', { numberWords: numberWords(low[bit] ?? 0) })] : []),
    ]
    return [`${say('bit {bit}', { bit })}: ${numberWords(errors)}${read.length === 0 ? '' : ` (${read.join(', ')})`}`]
  })
  return words.length === 0 ? say('the report does not say') : words.join('; ')
}

/** Which rows, columns and addresses only where few of them hold the errors: else they say nothing. */
const cellWords = (spread: CellSpread, few: boolean): string[] => [
  say(
    '{addresses} different addresses among {sampled} of {failingRows} failing rows, of {coveredWords} words covered',
    {
      addresses: numberWords(spread.addresses),
      sampled: numberWords(spread.sampled),
      failingRows: numberWords(spread.failingRows),
      coveredWords: numberWords(spread.coveredWords),
    },
  ),
  ...(few ? [...spread.mostRows, ...spread.mostColumns, ...spread.mostAddresses] : []).map(
    ({ name, errors }) => `${name}: ${numberWords(errors)}`,
  ),
]

function untestedBlock(tally: Tally): RecordBlock[] {
  const untested = tally.parts.flatMap(lanesOf).filter(({ state }) => state === 'untested')
  return untested.length === 0
    ? []
    : [
        paragraph(
          say('{length, plural, one {# lane} other {# lanes}} not tested: {untested}.', {
            length: untested.length,
            untested: untested.map(({ id }) => id).join(', '),
          }),
        ),
      ]
}

const lanesOf = (part: PartTally): LaneTally[] => part.channels.flatMap(({ lanes }) => [...lanes])
