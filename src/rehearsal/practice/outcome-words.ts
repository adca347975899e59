/** What came of an action, as the bench says it. */
import type { BoardModel } from '../../board/index.ts'
import { lineVerdicts, type Measurement, sayReading } from '../../measure/index.ts'
import type { LaneState } from '../../suspects/index.ts'
import type { Known } from '../scorecard/ask.ts'
import type { FoundUnder } from '../simulator/types.ts'

/** One sentence a line that was read: the reading and what it is held to be. */
export function readingWords(model: BoardModel, known: Known, read: readonly Measurement[]): string[] {
  const verdicts = lineVerdicts(model, { measurements: known.measurements, goodReadings: [] }, 'ohms', 'before')
  return read.map(({ line, reading, quantity }) => {
    const verdict = verdicts.find((each) => each.line.line.kind === line.kind && each.line.line.name === line.name)
    const name = `${line.kind === 'rail' ? 'Rail' : 'Stage'} ${line.name}`
    return `${name}: ${sayReading(reading, quantity)}, ${verdict?.verdict.word ?? 'nothing to hold it against'}.`
  })
}

export function underWords(model: BoardModel, { ref, wet }: FoundUnder): string[] {
  const part = model.partByRef.get(ref)
  if (part?.kind !== 'memory' && part?.kind !== 'core') return [`${ref} was replaced.`]
  const names = wet.map((id) => model.regionById.get(id)?.name ?? id)
  const seen =
    names.length === 0
      ? `Nothing lay between ${ref} and the board.`
      : `Something had got under ${ref}: at ${someOf(names, 6)}.`
  return [seen, `${ref} was cleaned and reballed, or replaced where that was needed, and went on again.`]
}

export function runWords(model: BoardModel, lanes: ReadonlyMap<string, LaneState>): string[] {
  const failing = model.lanes.filter(({ id }) => lanes.get(id) === 'fail')
  if (failing.length === 0) return ['Every lane passes.']
  const parts = [...new Set(failing.map(({ part }) => part))]
  const passing = model.memories.length - parts.length
  const rest =
    passing === 0
      ? 'No package passes whole.'
      : `${packages(passing)} pass whole.`.replace('1 package pass', '1 package passes')
  return [`${failing.length} of ${model.lanes.length} lanes fail, at ${someOf(parts, 8)}.`, rest]
}

const packages = (count: number): string => `${count} ${count === 1 ? 'package' : 'packages'}`

export function someOf(names: readonly string[], most: number): string {
  if (names.length > most) return `${names.slice(0, most).join(', ')} and ${names.length - most} more`
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`
}
