/** Of the technician's record: every line of the measuring sheet before and after the work, power given, shorts hunted. */
import { joined, numberWords } from '../../../base/index.ts'
import {
  bringUpOf,
  lineKey,
  type LineName,
  lineWords,
  type LineVerdict,
  lineVerdicts,
  type Measurement,
  type MeasuringLine,
  type Quantity,
  sayMeasured,
} from '../../../measure/index.ts'
import { powerOf } from '../../power.ts'
import { facts, list, paragraph, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { instantWords } from '../words.ts'

/** Ohms, diode mode where it was used, and volts before and after the work, then safety, history, power and shorts. */
export function measuredSection(input: RecordInput): RecordSection {
  const { caseFile } = input
  return section(
    'Measured',
    ...linesTable('Cold resistance to ground', 'ohms', input),
    ...(caseFile.measurements.some(({ quantity }) => quantity === 'diode')
      ? linesTable('Diode mode, red on ground', 'diode', input)
      : []),
    ...linesTable('Voltage under power', 'volts', input),
    ...safetyBlocks(input),
    ...history(caseFile.measurements),
    ...powerBlocks(input),
    ...shortBlocks(input),
  )
}

/** Every rail, and every supply and point of a stage that was measured; supplies and stages without any are named together. */
function linesTable(caption: string, quantity: Quantity, { caseFile, model }: RecordInput): RecordBlock[] {
  const after = new Map(lineVerdicts(model, caseFile, quantity, 'after').map((each) => [lineKey(each.line.line), each]))
  const lines = lineVerdicts(model, caseFile, quantity, 'before').map((before) => ({
    line: before.line,
    before,
    after: after.get(lineKey(before.line.line)),
  }))
  const bare = lines.filter(
    (each) =>
      each.line.line.kind !== 'rail' && each.before.measurement === undefined && each.after?.measurement === undefined,
  )
  const read = new Set(lines.filter((each) => !bare.includes(each)).map(({ line }) => line.line.name))
  const stages = bare.filter(({ line }) => line.line.kind === 'stage')
  const unread = [...new Set(stages.map(({ line }) => line.line.name))].filter((name) => !read.has(name))
  const supplies = quantity === 'ohms' ? bare.filter(({ line }) => line.line.kind === 'supply') : []
  const rows = lines
    .filter((each) => !bare.includes(each))
    .map((each) => [rowName(each.line), referenceWords(each.line), judgedWords(each.before), judgedWords(each.after)])
  return [
    ...(rows.length === 0 ? [] : [table(caption, ['Line', 'Reference', 'Before', 'After'], rows)]),
    ...unmeasured(caption, 'stage', unread),
    ...unmeasured(
      caption,
      'supply',
      supplies.map(({ line }) => line.line.name),
    ),
  ]
}

function unmeasured(caption: string, kind: 'stage' | 'supply', names: readonly string[]): RecordBlock[] {
  if (names.length === 0) return []
  const many = { stage: 'stages', supply: 'supplies' } as const
  return [paragraph(`${caption}, not measured: ${names.length === 1 ? kind : many[kind]} ${joined(names)}.`)]
}

/** A supply is named with the rail that it goes to. */
const rowName = ({ line, rail }: MeasuringLine): string =>
  line.kind === 'supply' ? `${namedLine(line)}, to ${rail ?? 'no rail'}` : namedLine(line)

/** `rail VMEM`, `stage S4, PWM pin`. */
const namedLine = (line: LineName): string => `${line.kind} ${lineWords(line)}`

const referenceWords = ({ reference: { span, source } }: MeasuringLine): string =>
  span === '' ? source || 'none' : `${span} (${source})`

function judgedWords(each: LineVerdict | undefined): string {
  if (each?.measurement === undefined) return 'not measured'
  const read = sayMeasured(each.measurement)
  return read === each.verdict.word ? read : `${read}, ${each.verdict.word}`
}

/** Every entry as it was typed, in its order. */
function history(measurements: readonly Measurement[]): RecordBlock[] {
  if (measurements.length === 0) return [paragraph('Nothing was measured.')]
  const rows = measurements.map((each) => [
    namedLine(each.line),
    `${each.phase} the work`,
    sayMeasured(each),
    each.typed,
    each.meter ?? 'by hand',
    each.at === undefined ? 'not noted' : instantWords(each.at),
  ])
  return [table('Every reading as it was entered', ['Line', 'When', 'Reading', 'Typed', 'Meter', 'At'], rows)]
}

/** What the readings and what was seen say about power, before the work and after it. */
function safetyBlocks({ caseFile, model }: RecordInput): RecordBlock[] {
  const { measurements } = caseFile
  const phases = (['before', 'after'] as const).filter(
    (phase) => phase === 'before' || measurements.some((each) => each.phase === phase),
  )
  return phases.flatMap((phase) => {
    const { words, reasons } = powerOf(model, caseFile, phase)
    return [
      paragraph(
        `${phase === 'before' ? 'Before the work' : 'After the work'}: ${words.slice(0, 1).toLowerCase()}${words.slice(1)}.`,
      ),
      ...list(reasons.map(({ sentence }) => sentence)),
    ]
  })
}

const verdicts = { safe: 'safe to power', 'not-safe': 'not safe to power', 'not-known': 'not known' } as const

const atLimits = { never: 'never', 'for a moment': 'for a moment', stays: 'stayed there', unknown: 'not seen' } as const

function powerBlocks({ caseFile, model }: RecordInput): RecordBlock[] {
  const { powerUps, powered } = caseFile
  const orders = (['before', 'after'] as const).flatMap((phase) => {
    const found = bringUpOf(model, lineVerdicts(model, caseFile, 'volts', phase))
    return found === undefined ? [] : [`Rails under power ${phase} the work: ${found.sentence}`]
  })
  const given =
    powerUps.length === 0
      ? [paragraph('No power-up is on the record.')]
      : [
          table(
            'Power given',
            ['At', 'Verdict then', 'Its reasons', 'Why against it'],
            powerUps.map(({ at, verdict, reasons, against }) => [
              at === undefined ? 'time not noted' : instantWords(at),
              verdicts[verdict],
              reasons.join(' '),
              against ?? 'with the verdict',
            ]),
          ),
        ]
  const answers = { yes: 'yes', no: 'no', unknown: 'not tried', disturbed: 'disturbed' } as const
  return [
    ...given,
    ...list(orders),
    facts('Under power', [
      ['Detected by the PC', answers[powered.enumerates]],
      ['Picture', answers[powered.picture]],
      ['Booted from another display output', answers[powered.otherOutput]],
      ['Limit of the supply', powered.limitA === undefined ? 'not noted' : `${numberWords(powered.limitA)} A`],
      ['It ran into its limit', atLimits[powered.atLimit]],
      [
        'Current on the limited supply',
        powered.inputCurrentA === undefined ? 'not measured' : `${numberWords(powered.inputCurrentA)} A`,
      ],
      ['Note', powered.note],
    ]),
  ]
}

function shortBlocks({ caseFile: { shorts } }: RecordInput): RecordBlock[] {
  return shorts.flatMap(({ rail, side, currentA, sourceAt, readings, noiseMillivolt, sheetMilliohm }) => [
    ...list([
      `Short hunted on ${rail}, ${side} side: ${numberWords(currentA)} A in at x ${numberWords(sourceAt.x)}, y ${numberWords(sourceAt.y)} mm; readings good to ${numberWords(noiseMillivolt)} mV; copper ${sheetMilliohm === undefined ? 'as its weight says' : `${numberWords(sheetMilliohm)} mΩ per square`}.`,
    ]),
    table(
      `Millivolt readings on ${rail}`,
      ['Place, x and y in mm', 'Reading#'],
      readings.map(({ at, millivolt }) => [
        `${numberWords(at.x)}, ${numberWords(at.y)}`,
        `${numberWords(millivolt)} mV`,
      ]),
    ),
  ])
}
