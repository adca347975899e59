/** Of the technician's record: the reports, what they say per lane and bit, and the kind of failure of each part. */
import { counted, numberWords } from '../../../base/index.ts'
import type { CellSpread, LaneTally, PartTally, Tally } from '../../../report/index.ts'
import { list, paragraph, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'

/** The reports in the case with how each was read, and the tallies before and after the work. */
export function memoryRunSection({ caseFile: { reports }, tally, retest }: RecordInput): RecordSection {
  const reportTable =
    reports.length === 0
      ? [paragraph('No test report is in the case.')]
      : [
          table(
            'Reports',
            ['Report', 'Run', 'Test passes#', 'Covers', 'Read as'],
            reports.map(({ name, path, run, testPasses, coversAll, recipe, overtaken, table: byHand }) => [
              path === undefined ? name : `${name} (${path})`,
              `${run === 'first' ? 'as the card came' : 'after the work'}${overtaken === true ? '; work went on after it, so it does not count' : ''}`,
              testPasses === undefined ? 'not noted' : numberWords(testPasses),
              coversAll ? 'the whole memory' : 'what it lists',
              byHand === undefined ? (recipe === undefined ? 'guessed recipe' : 'given recipe') : 'entered by hand',
            ]),
          ),
        ]
  return section(
    'Memory run',
    ...reportTable,
    ...tallyBlocks('as it came', tally),
    ...tallyBlocks('after the work', retest),
  )
}

function tallyBlocks(when: string, tally: Tally | undefined): RecordBlock[] {
  if (tally === undefined) return [paragraph(`No memory run of the card ${when} was read.`)]
  const { read, unreadable, unmapped, skipped } = tally.rows
  const failing = tally.parts.filter((part) => lanesOf(part).some(({ state }) => state === 'fail') || part.errors > 0)
  return [
    paragraph(
      `The card ${when}: ${counted(read, 'row')} read, ${numberWords(unreadable)} unreadable, ${numberWords(unmapped)} that fit no part, ${numberWords(skipped)} skipped.`,
    ),
    ...(failing.length === 0 ? [paragraph('No lane failed.')] : failingBlocks(when, failing)),
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
      : [table(`Failing lanes, the card ${when}`, ['Lane', 'Errors#', 'Errors by data bit'], rows)]),
    ...list(
      failing.map(({ errors, signature, cells }) =>
        [
          `${signature.sentence} ${counted(errors, 'failing row')}, ${signature.kind} at ${signature.where}`,
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
      ...((high[bit] ?? 0) > 0 ? [`${numberWords(high[bit] ?? 0)} as 1`] : []),
      ...((low[bit] ?? 0) > 0 ? [`${numberWords(low[bit] ?? 0)} as 0`] : []),
    ]
    return [`bit ${bit}: ${numberWords(errors)}${read.length === 0 ? '' : ` (${read.join(', ')})`}`]
  })
  return words.length === 0 ? 'the report does not say' : words.join('; ')
}

/** Which rows, columns and addresses only where few of them hold the errors: else they say nothing. */
const cellWords = (spread: CellSpread, few: boolean): string[] => [
  `${numberWords(spread.addresses)} different addresses among ${numberWords(spread.sampled)} of ${numberWords(spread.failingRows)} failing rows, of ${numberWords(spread.coveredWords)} words covered`,
  ...(few ? [...spread.mostRows, ...spread.mostColumns, ...spread.mostAddresses] : []).map(
    ({ name, errors }) => `${name}: ${numberWords(errors)}`,
  ),
]

function untestedBlock(tally: Tally): RecordBlock[] {
  const untested = tally.parts.flatMap(lanesOf).filter(({ state }) => state === 'untested')
  return untested.length === 0
    ? []
    : [paragraph(`${counted(untested.length, 'lane')} not tested: ${untested.map(({ id }) => id).join(', ')}.`)]
}

const lanesOf = (part: PartTally): LaneTally[] => part.channels.flatMap(({ lanes }) => [...lanes])
