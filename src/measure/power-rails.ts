/** What cold readings of rails say about power, and which rails are missing. */
import { isFarAbove } from './judge-ohms.ts'
import { lineWithKind } from './line-key.ts'
import { isOfLeads } from './line-states.ts'
import { measuredReason, type PowerReason } from './power-reason.ts'
import { isOfCore, rule } from './practice.ts'
import { sayOhms } from './say.ts'
import type { Leads, Phase } from './schema.ts'
import type { LineVerdict } from './verdict.ts'
import type { VerdictKind } from './verdict-words.ts'

interface When {
  readonly phase: Phase
  readonly leads?: Leads | undefined
}

/** @param verdicts of cold readings, of all lines */
export function railReasons(verdicts: readonly LineVerdict[], { phase, leads }: When): PowerReason[] {
  const rails = verdicts.filter(({ line }) => line.line.kind === 'rail')
  return [
    ...rails.flatMap((each) => reasonOfRail(each)),
    ...rails.flatMap((each) => leadsReason(each, leads)),
    ...doubtfulGoodCards(rails),
    ...missingReasons(rails, phase),
    ...habitNote(rails),
  ]
}

const WEIGHTS: Readonly<Partial<Record<VerdictKind, PowerReason['weight']>>> = {
  short: 'against',
  low: 'against',
  below: 'unknown',
  open: 'unknown',
  unusual: 'unknown',
  above: 'note',
  'no-range': 'unknown',
}

function reasonOfRail(each: LineVerdict): PowerReason[] {
  const { line, verdict } = each
  const weight = weightOf(each)
  if (weight === undefined) return []
  return [measuredReason(weight, `${lineWithKind(line.line)}, ${verdict.word}: ${verdict.sentence}`, [line.line])]
}

/** A hint passes nothing on a core rail, whose short reads much as it does when it is well. */
function weightOf({ line, measurement, verdict: { kind } }: LineVerdict): PowerReason['weight'] | undefined {
  if (measurement === undefined) return undefined
  if (kind === 'above' && isFarAbove(line, measurement.reading)) return 'unknown'
  if (kind === 'usual' && isOfCore(line.use)) return 'unknown'
  if (line.reference.isHabit && kind === 'low') return 'unknown'
  if (line.reference.isHabit && kind === 'below') return 'note'
  return WEIGHTS[kind]
}

/** Leads alone may read as much as a rail that is well, so that a dead short reads as if it were well. */
function leadsReason(each: LineVerdict, leads: Leads | undefined): PowerReason[] {
  const { line, measurement } = each
  if (!isOfLeads(each, leads) || measurement?.reading.kind !== 'value') return []
  const read = `${lineWithKind(line.line)}, ${sayOhms(measurement.reading.value)}`
  const sentence =
    leads?.ohm === undefined
      ? `${read}: two leads alone read up to ${sayOhms(rule('twoWireLeadsOhm'))}, so a dead short may read like this. Hold the probes together and enter what they read, set the meter to zero there, or use four wires.`
      : `${read} after the leads: the contact of the probes alone may read as much. Use four wires.`
  return [measuredReason('unknown', sentence, [line.line])]
}

function missingReasons(rails: readonly LineVerdict[], phase: Phase): PowerReason[] {
  if (rails.length === 0) return [measuredReason('unknown', 'The board’s description names no rail to measure.')]
  const missing = rails.flatMap(({ line, measurement }) => (measurement === undefined ? [line.line] : []))
  if (missing.length === 0) return []
  const when = phase === 'after' ? ' after the work' : ''
  return [measuredReason('unknown', `Not measured${when}: ${missing.map(({ name }) => name).join(', ')}.`, missing)]
}

/** A range that only the trade's habit gives passes a reading with less weight than a good card would. */
function habitNote(rails: readonly LineVerdict[]): PowerReason[] {
  const lines = rails.flatMap(({ line, verdict, measurement }) => {
    const { from, isHabit } = line.reference
    return from === 'board' && isHabit && measurement !== undefined && verdict.kind === 'in-range' ? [line.line] : []
  })
  if (lines.length === 0) return []
  const names = lines.map(({ name }) => name).join(', ')
  return [
    measuredReason(
      'note',
      `Checked against typical values only, not against a good card of this board: ${names}.`,
      lines,
    ),
  ]
}

/** Good cards that read far under what the board's own range allows may not be good. */
function doubtfulGoodCards(rails: readonly LineVerdict[]): PowerReason[] {
  return rails.flatMap(({ line, measurement, verdict }) => {
    const reading = measurement?.reading
    const low = line.ownLowOhm
    if (line.reference.from !== 'learnt' || low === undefined || reading?.kind !== 'value') return []
    if (verdict.kind !== 'in-range' || reading.value >= low * FAR_UNDER) return []
    const sentence = `${lineWithKind(line.line)}, ${sayOhms(reading.value)}: your good cards read so, but the board’s own range begins at ${sayOhms(low)}. Look at both again.`
    return [measuredReason('unknown', sentence, [line.line])]
  })
}

const FAR_UNDER = 0.5
