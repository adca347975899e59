/** What cold readings of rails say about power, and which rails are missing. */
import { joined, say } from '../base/index.ts'
import { lineWithKind } from './line-key.ts'
import { isOfLeads } from './line-states.ts'
import { measuredReason, type PowerReason, reasonOf, whenWords } from './power-reason.ts'
import { rule } from './practice.ts'
import { sayOhms } from './say.ts'
import type { Leads, Phase } from './schema.ts'
import type { LineVerdict } from './verdict.ts'

interface When {
  readonly phase: Phase
  readonly leads?: Leads | undefined
}

/** @param verdicts of cold readings, of all lines */
export function railReasons(verdicts: readonly LineVerdict[], { phase, leads }: When): PowerReason[] {
  const rails = verdicts.filter(({ line }) => line.line.kind === 'rail')
  return [
    ...rails.flatMap((each) => reasonOf(each)),
    ...rails.flatMap((each) => leadsReason(each, leads)),
    ...doubtfulGoodCards(rails),
    ...missingReasons(rails, phase),
    ...habitNote(rails),
  ]
}

/** Leads alone may read as much as a rail that is well, so that a dead short reads as if it were well. */
function leadsReason(each: LineVerdict, leads: Leads | undefined): PowerReason[] {
  const { line, measurement } = each
  if (!isOfLeads(each, leads) || measurement?.reading.kind !== 'value') return []
  const read = `${lineWithKind(line.line)}, ${sayOhms(measurement.reading.value)}`
  const sentence =
    leads?.ohm === undefined
      ? say(
          '{read}: two leads alone read up to {rule}, so a dead short may read like this. Hold the probes together and enter what they read, set the meter to zero there, or use four wires.',
          { read, rule: sayOhms(rule('twoWireLeadsOhm')) },
        )
      : say('{read} after the leads: the contact of the probes alone may read as much. Use four wires.', { read })
  return [measuredReason('unknown', sentence, [line.line])]
}

function missingReasons(rails: readonly LineVerdict[], phase: Phase): PowerReason[] {
  if (rails.length === 0) return [measuredReason('unknown', say('The board’s description names no rail to measure.'))]
  const missing = rails.flatMap(({ line, measurement }) => (measurement === undefined ? [line.line] : []))
  if (missing.length === 0) return []
  const names = joined(missing.map(({ name }) => name))
  return [measuredReason('unknown', say('Not measured{phase}: {names}.', { phase: whenWords(phase), names }), missing)]
}

/** A range that only the trade's habit gives passes a reading with less weight than a good card would. */
function habitNote(rails: readonly LineVerdict[]): PowerReason[] {
  const lines = rails.flatMap(({ line, verdict, measurement }) => {
    const { from, isHabit } = line.reference
    return from === 'board' && isHabit && measurement !== undefined && verdict.kind === 'in-range' ? [line.line] : []
  })
  if (lines.length === 0) return []
  const names = joined(lines.map(({ name }) => name))
  return [
    measuredReason(
      'note',
      say('Checked against typical values only, not against a good card of this board: {names}.', { names }),
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
    if (verdict.kind !== 'in-range' || reading.value >= low * rule('farBelowRange')) return []
    const sentence = say(
      '{line}, {value}: your good cards read so, but the board’s own range begins at {low}. Look at both again.',
      { line: lineWithKind(line.line), value: sayOhms(reading.value), low: sayOhms(low) },
    )
    return [measuredReason('unknown', sentence, [line.line])]
  })
}
