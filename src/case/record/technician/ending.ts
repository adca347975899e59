/** Of the technician's record: hours and money, hand-back, what stays untested, what the program took for granted. */
import { dayWords, minutesWords, money, numberWords, say } from '../../../base/index.ts'
import { cautionsAt, cautionsDefer } from '../../cautions.ts'
import { type Station, stations } from '../../stations.ts'
import { cautions, facts, list, paragraph, quote, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { type Bill, billOf } from '../money.ts'
import { openEnds } from '../open-ends.ts'
import { leavesOf } from '../words.ts'
import { followUpBlocks, invoiceBlocks, quoteBlocks } from './quoted.ts'
import { outcomeWords } from '../../kind-words.ts'
import { knownWord } from '../known-words.ts'

/** Parts, hours and what is charged, in the shop's currency. */
export function moneySection(input: RecordInput): RecordSection {
  const bill = billOf(input)
  const { caseFile } = input
  return section(
    say('Hours, parts and price'),
    ...quoteBlocks(caseFile),
    partsTable(bill),
    totals(bill),
    ...invoiceBlocks(caseFile),
  )
}

/** Parts with count, price of one and price; a sentence instead of a table where none were used. */
export function partsTable({ parts, partsSum, currency }: Bill): RecordBlock {
  if (parts.length === 0) return paragraph(say('No parts were used.'))
  return table(
    say('Parts used'),
    [say('Part'), say('Count#'), say('Price of one#'), say('Price#')],
    parts.map(({ what, count, price, sum }) => [
      what,
      numberWords(count),
      money(price, currency),
      money(sum, currency),
    ]),
    [say('Together'), '', '', money(partsSum, currency)],
  )
}

function totals({ currency, minutes, hourlyRate, labour, partsSum, sum, charged, difference }: Bill): RecordBlock {
  return facts(say('Sum'), [
    [say('Hours'), minutes === undefined ? say('not noted') : minutesWords(minutes)],
    [
      say('Labour'),
      labour === undefined
        ? say('not noted')
        : say('{labour}, at {hourlyRate} an hour', {
            labour: money(labour, currency),
            hourlyRate: money(hourlyRate, currency),
          }),
    ],
    [say('Parts'), money(partsSum, currency)],
    [say('Together'), money(sum, currency)],
    [
      say('Charged'),
      charged === undefined ? say('not noted') : `${money(charged, currency)}${differenceWords(difference, currency)}`,
    ],
  ])
}

function differenceWords(difference: number | undefined, currency: string): string {
  if (difference === undefined) return ''
  if (difference === 0) return say(', which is the sum')
  const amount = money(Math.abs(difference), currency)
  return difference > 0
    ? say(', {amount} more than the sum', { amount })
    : say(', {amount} less than the sum', { amount })
}

/** Outcome, day and advice; empty values where it was not handed back. */
export function handBackSection(input: RecordInput): RecordSection {
  const { on, outcome, advice } = input.caseFile.handBack
  return section(
    say('Handed back'),
    facts(say('Handed back'), [
      [say('Outcome'), outcome === undefined ? '' : outcomeWords[outcome]],
      [say('Day'), on === undefined ? '' : dayWords(on)],
    ]),
    ...quote(say('Advice to the owner'), advice),
    ...followUpBlocks(input.caseFile),
  )
}

/** What is open as it goes back, and that nothing is, where nothing is. */
export function unknownSection(input: RecordInput): RecordSection {
  const open = openEnds(input)
  return section(
    say('Untested and unknown'),
    ...(open.length === 0 ? [paragraph(say('Nothing is noted as open.'))] : list(open)),
  )
}

/** Every caution that the case calls for, each once, where it is met first; those of a plan's steps after them. */
export function cautionSection({ caseFile, rework }: RecordInput): RecordSection {
  const said = new Set<string>([cautionsDefer])
  const fresh = (sentences: readonly string[]): string[] => {
    const unsaid = [...new Set(sentences)].filter((sentence) => !said.has(sentence))
    for (const sentence of unsaid) said.add(sentence)
    return unsaid
  }
  return section(
    say('Cautions'),
    ...stations.flatMap((station) => cautions(fresh(cautionsAt(station, caseFile)), metAt[station])),
    ...cautions(
      fresh(rework?.answer.best.steps.flatMap((step) => step.cautions) ?? []),
      say('At the steps of the plan'),
    ),
    paragraph(cautionsDefer),
  )
}

const metAt: Readonly<Record<Station, string>> = {
  arrival: say('On arrival'),
  'cold-measuring': say('Measuring cold'),
  'powered-measuring': say('Measuring under power'),
  'memory-run': say('Memory run'),
  inspection: say('Inspecting and cleaning'),
  spill: say('What was spilled'),
  suspects: say('Before a part is lifted'),
  plan: say('Lifting and refitting'),
  proof: say('Testing after the work'),
  'hand-back': say('Handing back'),
}

/**
 * Versions of program and case file, the shop's own figures, and every assumption that differs from the shipped ones.
 */
export function grantedSection({ caseFile, version, assessment }: RecordInput): RecordSection {
  const { assumptions, ownRecord, substances, goodReadings } = caseFile
  return section(
    say('Assumptions'),
    facts(say('Program'), [
      [say('Program'), version === undefined ? 'Liftmap' : say('Liftmap {version}', { version })],
      [say('Case file'), say('version {version}', { version: caseFile.version })],
    ]),
    ...(assumptions === undefined && ownRecord === undefined
      ? [paragraph(say('Priors and costs are the shipped ones.'))]
      : []),
    ...(ownRecord === undefined ? [] : [facts(ownRecordTitle(ownRecord), leavesOf(ownRecord.figures))]),
    ...(assumptions === undefined
      ? []
      : [facts(say('Assumptions that differ from the shipped ones'), leavesOf(assumptions))]),
    ...substances.map((substance) =>
      facts(say('Added substance: {name}', { name: substance.name }), leavesOf(substance)),
    ),
    ...(goodReadings.length === 0
      ? []
      : [
          table(
            say('Readings of the shop’s good cards of this board'),
            [say('Line'), say('Quantity'), say('Values')],
            goodReadings.map(({ line, quantity, values }) => [
              say('{kind, select, rail {rail} supply {supply} other {stage}} {line}', {
                kind: line.kind,
                line: line.name,
              }),
              knownWord(quantity),
              say('{values} ({length, plural, one {# card} other {# cards}})', {
                values: values.map(numberWords).join(', '),
                length: values.length,
              }),
            ]),
          ),
        ]),
    ...list(
      (assessment?.faults ?? []).map(({ path, found, expected }) =>
        say('Not worked out, {path}: found {found}, expected {expected}.', { path, found, expected }),
      ),
    ),
  )
}

const ownRecordTitle = ({ cards, boardAlone }: NonNullable<RecordInput['caseFile']['ownRecord']>): string =>
  say('Figures of the shop’s own record, from {cards, plural, one {# closed card} other {# closed cards}} of {value}', {
    cards,
    value: boardAlone ? say('this board') : say('all boards'),
  })
