/** Of the technician's record: every line of the measuring sheet before and after the work, power given, shorts hunted. */
import { joined, numberWords, say, clauseCase } from '../../../base/index.ts'
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
    say('Measured'),
    ...linesTable(say('Cold resistance to ground'), 'ohms', input),
    ...(caseFile.measurements.some(({ quantity }) => quantity === 'diode')
      ? linesTable(say('Diode mode, red on ground'), 'diode', input)
      : []),
    ...linesTable(say('Voltage under power'), 'volts', input),
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
    ...(rows.length === 0 ? [] : [table(caption, [say('Line'), say('Reference'), say('Before'), say('After')], rows)]),
    ...unmeasured(caption, 'stage', unread),
    ...unmeasured(
      caption,
      'supply',
      supplies.map(({ line }) => lineWords(line.line)),
    ),
  ]
}

function unmeasured(caption: string, kind: 'stage' | 'supply', names: readonly string[]): RecordBlock[] {
  if (names.length === 0) return []
  return [
    paragraph(
      say(
        '{caption}, not measured: {kind, select, stage {{count, plural, one {stage} other {stages}}} other {{count, plural, one {supply} other {supplies}}}} {names}.',
        { caption, kind, count: names.length, names: joined(names) },
      ),
    ),
  ]
}

/** A supply is named with the rail that it goes to. */
const rowName = ({ line, rail }: MeasuringLine): string =>
  line.kind === 'supply'
    ? say('{line}, to {rail}', { line: namedLine(line), rail: rail ?? say('no rail') })
    : namedLine(line)

/** `rail VMEM`, `stage S4, PWM pin`. */
const namedLine = (line: LineName): string =>
  say('{kind, select, rail {rail} supply {supply} other {stage}} {line}', { kind: line.kind, line: lineWords(line) })

const referenceWords = ({ reference: { span, source } }: MeasuringLine): string =>
  span === '' ? source || say('none') : `${span} (${source})`

function judgedWords(each: LineVerdict | undefined): string {
  if (each?.measurement === undefined) return say('not measured')
  const read = sayMeasured(each.measurement)
  return read === each.verdict.word ? read : `${read}, ${each.verdict.word}`
}

/** Every entry as it was typed, in its order. */
function history(measurements: readonly Measurement[]): RecordBlock[] {
  if (measurements.length === 0) return [paragraph(say('Nothing was measured.'))]
  const rows = measurements.map((each) => [
    namedLine(each.line),
    say('{phase, select, before {before} other {after}} the work', { phase: each.phase }),
    sayMeasured(each),
    each.typed,
    each.meter ?? say('by hand'),
    each.at === undefined ? say('not noted') : instantWords(each.at),
  ])
  return [
    table(
      say('Every reading as it was entered'),
      [say('Line'), say('When'), say('Reading'), say('Typed'), say('Meter'), say('At')],
      rows,
    ),
  ]
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
      paragraph(`${phase === 'before' ? say('Before the work') : say('After the work')}: ${clauseCase(words)}.`),
      ...list(reasons.map(({ sentence }) => sentence)),
    ]
  })
}

const verdicts = {
  safe: say('safe to power'),
  'not-safe': say('not safe to power'),
  'not-known': say('not known'),
} as const

const atLimits = {
  never: say('never'),
  'for a moment': say('for a moment'),
  stays: say('stayed there'),
  unknown: say('not seen'),
} as const

function powerBlocks({ caseFile, model }: RecordInput): RecordBlock[] {
  const { powerUps, powered } = caseFile
  const orders = (['before', 'after'] as const).flatMap((phase) => {
    const found = bringUpOf(model, lineVerdicts(model, caseFile, 'volts', phase))
    return found === undefined
      ? []
      : [
          say('Rails under power {phase, select, before {before} other {after}} the work: {sentence}', {
            phase,
            sentence: found.sentence,
          }),
        ]
  })
  const given =
    powerUps.length === 0
      ? [paragraph(say('No power-up is on the record.'))]
      : [
          table(
            say('Power given'),
            [say('At'), say('Verdict then'), say('Its reasons'), say('Why against it')],
            powerUps.map(({ at, verdict, reasons, against }) => [
              at === undefined ? say('time not noted') : instantWords(at),
              verdicts[verdict],
              reasons.join(' '),
              against ?? say('with the verdict'),
            ]),
          ),
        ]
  const answers = { yes: say('yes'), no: say('no'), unknown: say('not tried'), disturbed: say('disturbed') } as const
  return [
    ...given,
    ...list(orders),
    facts(say('Under power'), [
      [say('Detected by the PC'), answers[powered.enumerates]],
      [say('Picture'), answers[powered.picture]],
      [say('PC boots with another graphics output'), answers[powered.otherOutput]],
      [
        say('Limit of the supply'),
        powered.limitA === undefined ? say('not noted') : `${numberWords(powered.limitA)} A`,
      ],
      [say('It ran into its limit'), atLimits[powered.atLimit]],
      [
        say('Current on the limited supply'),
        powered.inputCurrentA === undefined ? say('not measured') : `${numberWords(powered.inputCurrentA)} A`,
      ],
      [say('Note'), powered.note],
    ]),
  ]
}

function shortBlocks({ caseFile: { shorts } }: RecordInput): RecordBlock[] {
  return shorts.flatMap(({ rail, side, currentA, sourceAt, readings, noiseMillivolt, sheetMilliohm }) => [
    ...list([
      say(
        'Short hunted on {rail}, {side, select, top {top} other {bottom}} side: {currentA} A in at x {x}, y {y} mm; readings good to {noiseMillivolt} mV; copper {copper}.',
        {
          rail,
          side,
          currentA: numberWords(currentA),
          x: numberWords(sourceAt.x),
          y: numberWords(sourceAt.y),
          noiseMillivolt: numberWords(noiseMillivolt),
          copper:
            sheetMilliohm === undefined
              ? say('as its weight says')
              : say('{sheetMilliohm} mΩ per square', { sheetMilliohm: numberWords(sheetMilliohm) }),
        },
      ),
    ]),
    table(
      say('Millivolt readings on {rail}', { rail }),
      [say('Place, x and y in mm'), say('Reading#')],
      readings.map(({ at, millivolt }) => [
        `${numberWords(at.x)}, ${numberWords(at.y)}`,
        `${numberWords(millivolt)} mV`,
      ]),
    ),
  ])
}
