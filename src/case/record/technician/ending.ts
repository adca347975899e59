/** Of the technician's record: hours and money, hand-back, what stays untested, what the program took for granted. */
import { counted, minutesWords, money, numberWords } from '../../../base/index.ts'
import { cautionsAt, cautionsDefer } from '../../cautions.ts'
import { type Station, stations } from '../../stations.ts'
import { cautions, facts, list, paragraph, quote, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { type Bill, billOf } from '../money.ts'
import { openEnds } from '../open-ends.ts'
import { dayWords, leavesOf } from '../words.ts'
import { followUpBlocks, invoiceBlocks, quoteBlocks } from './quoted.ts'

/** Parts, hours and what is charged, in the shop's currency. */
export function moneySection(input: RecordInput): RecordSection {
  const bill = billOf(input)
  const { caseFile } = input
  return section(
    'Hours, parts and price',
    ...quoteBlocks(caseFile),
    partsTable(bill),
    totals(bill),
    ...invoiceBlocks(caseFile),
  )
}

/** Parts with count, price of one and price; a sentence instead of a table where none were used. */
export function partsTable({ parts, partsSum, currency }: Bill): RecordBlock {
  if (parts.length === 0) return paragraph('No parts were used.')
  return table(
    'Parts used',
    ['Part', 'Count#', 'Price of one#', 'Price#'],
    parts.map(({ what, count, price, sum }) => [
      what,
      numberWords(count),
      money(price, currency),
      money(sum, currency),
    ]),
    ['Together', '', '', money(partsSum, currency)],
  )
}

function totals({ currency, minutes, hourlyRate, labour, partsSum, sum, charged, difference }: Bill): RecordBlock {
  return facts('Sum', [
    ['Hours', minutes === undefined ? 'not noted' : minutesWords(minutes)],
    [
      'Labour',
      labour === undefined ? 'not noted' : `${money(labour, currency)}, at ${money(hourlyRate, currency)} an hour`,
    ],
    ['Parts', money(partsSum, currency)],
    ['Together', money(sum, currency)],
    [
      'Charged',
      charged === undefined ? 'not noted' : `${money(charged, currency)}${differenceWords(difference, currency)}`,
    ],
  ])
}

function differenceWords(difference: number | undefined, currency: string): string {
  if (difference === undefined) return ''
  if (difference === 0) return ', which is the sum'
  return `, ${money(Math.abs(difference), currency)} ${difference > 0 ? 'more' : 'less'} than the sum`
}

/** Outcome, day and advice; empty values where it was not handed back. */
export function handBackSection(input: RecordInput): RecordSection {
  const { on, outcome, advice } = input.caseFile.handBack
  return section(
    'Handed back',
    facts('Handed back', [
      ['Outcome', outcome ?? ''],
      ['Day', on === undefined ? '' : dayWords(on)],
    ]),
    ...quote('Advice to the owner', advice),
    ...followUpBlocks(input.caseFile),
  )
}

/** What is open as it goes back, and that nothing is, where nothing is. */
export function unknownSection(input: RecordInput): RecordSection {
  const open = openEnds(input)
  return section('Untested and unknown', ...(open.length === 0 ? [paragraph('Nothing is noted as open.')] : list(open)))
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
    'Cautions',
    ...stations.flatMap((station) => cautions(fresh(cautionsAt(station, caseFile)), metAt[station])),
    ...cautions(fresh(rework?.answer.best.steps.flatMap((step) => step.cautions) ?? []), 'At the steps of the plan'),
    paragraph(cautionsDefer),
  )
}

const metAt: Readonly<Record<Station, string>> = {
  arrival: 'On arrival',
  'cold-measuring': 'Measuring cold',
  'powered-measuring': 'Measuring under power',
  'memory-run': 'Memory run',
  inspection: 'Inspecting and cleaning',
  spill: 'What was spilled',
  suspects: 'Before a part is lifted',
  plan: 'Lifting and refitting',
  proof: 'Testing after the work',
  'hand-back': 'Handing back',
}

/**
 * Versions of program and case file, the shop's own figures, and every assumption that differs from the shipped ones.
 */
export function grantedSection({ caseFile, version, assessment }: RecordInput): RecordSection {
  const { assumptions, ownRecord, substances, goodReadings } = caseFile
  return section(
    'Assumptions',
    facts('Program', [
      ['Program', version === undefined ? 'Liftmap' : `Liftmap ${version}`],
      ['Case file', `version ${caseFile.version}`],
    ]),
    ...(assumptions === undefined && ownRecord === undefined
      ? [paragraph('Priors and costs are the shipped ones.')]
      : []),
    ...(ownRecord === undefined ? [] : [facts(ownRecordTitle(ownRecord), leavesOf(ownRecord.figures))]),
    ...(assumptions === undefined
      ? []
      : [facts('Assumptions that differ from the shipped ones', leavesOf(assumptions))]),
    ...substances.map((substance) => facts(`Added substance: ${substance.name}`, leavesOf(substance))),
    ...(goodReadings.length === 0
      ? []
      : [
          table(
            'Readings of the shop’s good cards of this board',
            ['Line', 'Quantity', 'Values'],
            goodReadings.map(({ line, quantity, values }) => [
              `${line.kind} ${line.name}`,
              quantity,
              `${values.map(numberWords).join(', ')} (${counted(values.length, 'card')})`,
            ]),
          ),
        ]),
    ...list(
      (assessment?.faults ?? []).map(
        ({ path, found, expected }) => `Not worked out, ${path}: found ${found}, expected ${expected}.`,
      ),
    ),
  )
}

const ownRecordTitle = ({ cards, boardAlone }: NonNullable<RecordInput['caseFile']['ownRecord']>): string =>
  `Figures of the shop’s own record, from ${counted(cards, 'closed card')} of ${boardAlone ? 'this board' : 'all boards'}`
