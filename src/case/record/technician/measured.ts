/** Of the technician's record: every line of the measuring sheet before and after the work, power given, shorts hunted. */
import type { BoardModel, Rail } from '../../../board/index.ts'
import type { LineName, Measurement, Quantity, Reading } from '../../../measure/index.ts'
import { facts, list, paragraph, section, table } from '../blocks.ts'
import type { RecordBlock, RecordSection } from '../document.ts'
import type { RecordInput } from '../input.ts'
import { instantWords, joined, number } from '../words.ts'

export function measuredSection(input: RecordInput): RecordSection {
  const { caseFile, model } = input
  return section(
    'Measured',
    ...linesTable('Cold resistance to ground', 'ohms', caseFile.measurements, model),
    ...linesTable('Voltage under power', 'volts', caseFile.measurements, model),
    ...history(caseFile.measurements),
    ...powerBlocks(input),
    ...shortBlocks(input),
  )
}

/** Every rail, and every stage that was measured; the stages that were not are named together. */
function linesTable(
  caption: string,
  quantity: Quantity,
  measurements: readonly Measurement[],
  model: BoardModel,
): RecordBlock[] {
  const last = (line: LineName, phase: Measurement['phase']): Measurement | undefined =>
    measurements.findLast(
      (each) =>
        each.phase === phase &&
        each.quantity === quantity &&
        each.line.kind === line.kind &&
        each.line.name === line.name,
    )
  const words = (measurement: Measurement | undefined): string =>
    measurement === undefined ? 'not measured' : readingWords(measurement.reading, quantity)
  const lines = linesOf(model, measurements).map((line) => ({
    line,
    before: last(line, 'before'),
    after: last(line, 'after'),
  }))
  const bare = lines.filter(
    ({ line, before, after }) => line.kind === 'stage' && before === undefined && after === undefined,
  )
  const rows = lines
    .filter((each) => !bare.includes(each))
    .map(({ line, before, after }) => {
      const rail = line.kind === 'rail' ? model.rails.find(({ name }) => name === line.name) : undefined
      return [`${line.kind} ${line.name}`, referenceWords(rail, quantity), words(before), words(after)]
    })
  return [
    ...(rows.length === 0 ? [] : [table(caption, ['Line', 'Reference', 'Before', 'After'], rows)]),
    ...(bare.length === 0
      ? []
      : [
          paragraph(
            `${caption}, not measured: ${bare.length === 1 ? 'stage' : 'stages'} ${joined(bare.map(({ line }) => line.name))}.`,
          ),
        ]),
  ]
}

function linesOf(model: BoardModel, measurements: readonly Measurement[]): LineName[] {
  const stages = new Set(model.parts.filter(({ kind }) => kind === 'power-stage').map(({ ref }) => ref))
  const lines: LineName[] = [
    ...model.rails.map(({ name }): LineName => ({ kind: 'rail', name })),
    ...[...stages].map((name): LineName => ({ kind: 'stage', name })),
  ]
  const known = new Set(lines.map(({ kind, name }) => `${kind} ${name}`))
  for (const { line } of measurements) {
    const key = `${line.kind} ${line.name}`
    if (!known.has(key)) lines.push(line)
    known.add(key)
  }
  return lines
}

function referenceWords(rail: Rail | undefined, quantity: Quantity): string {
  if (quantity === 'ohms') {
    const range = rail?.ohmsToGround
    return range === undefined ? 'none' : `${ohms(range.lowOhm)} to ${ohms(range.highOhm)} (${range.from})`
  }
  if (rail?.nominalV === undefined) return 'none'
  return rail.tolerancePct === undefined
    ? `${number(rail.nominalV)} V`
    : `${number(rail.nominalV)} V ± ${number(rail.tolerancePct)} %`
}

export function readingWords(reading: Reading, quantity: Quantity): string {
  if (reading.kind === 'open') return 'open: beyond the meter'
  if (reading.kind === 'short') return 'short'
  return quantity === 'ohms' ? ohms(reading.value) : `${number(reading.value)} V`
}

/** `0.38` becomes `380 mΩ`, `2200` becomes `2.2 kΩ`. */
export function ohms(value: number): string {
  const steps: readonly (readonly [number, string])[] = [
    [1e6, 'MΩ'],
    [1e3, 'kΩ'],
    [1, 'Ω'],
    [1e-3, 'mΩ'],
  ]
  const step = steps.find(([size]) => Math.abs(value) >= size) ?? ([1e-3, 'mΩ'] as const)
  return value === 0 ? '0 Ω' : `${number(Number((value / step[0]).toPrecision(4)))} ${step[1]}`
}

/** Every entry as it was typed, in its order. */
function history(measurements: readonly Measurement[]): RecordBlock[] {
  if (measurements.length === 0) return [paragraph('Nothing was measured.')]
  const rows = measurements.map(({ line, quantity, phase, reading, typed, meter, at }) => [
    `${line.kind} ${line.name}`,
    `${phase} the work`,
    readingWords(reading, quantity),
    typed,
    meter ?? 'by hand',
    at === undefined ? 'not noted' : instantWords(at),
  ])
  return [table('Every reading as it was entered', ['Line', 'When', 'Reading', 'Typed', 'Meter', 'At'], rows)]
}

const verdicts = { safe: 'safe to power', 'not-safe': 'not safe to power', 'not-known': 'not known' } as const

function powerBlocks({ caseFile: { powerUps, powered } }: RecordInput): RecordBlock[] {
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
    facts('Under power', [
      ['The host sees the card', answers[powered.enumerates]],
      ['Picture', answers[powered.picture]],
      ['Booted from another display output', answers[powered.otherOutput]],
      [
        'Current on the limited supply',
        powered.inputCurrentA === undefined ? 'not measured' : `${number(powered.inputCurrentA)} A`,
      ],
      ['Note', powered.note],
    ]),
  ]
}

function shortBlocks({ caseFile: { shorts } }: RecordInput): RecordBlock[] {
  return shorts.flatMap(({ rail, side, currentA, sourceAt, readings, noiseMillivolt, sheetMilliohm }) => [
    ...list([
      `Short hunted on ${rail}, ${side} side: ${number(currentA)} A in at x ${number(sourceAt.x)}, y ${number(sourceAt.y)} mm; readings good to ${number(noiseMillivolt)} mV; copper ${sheetMilliohm === undefined ? 'as its weight says' : `${number(sheetMilliohm)} mΩ per square`}.`,
    ]),
    table(
      `Millivolt readings on ${rail}`,
      ['Place, x and y in mm', 'Reading#'],
      readings.map(({ at, millivolt }) => [`${number(at.x)}, ${number(at.y)}`, `${number(millivolt)} mV`]),
    ),
  ])
}
