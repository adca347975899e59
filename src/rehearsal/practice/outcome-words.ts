/** What came of an action, as the bench says it. */
import { someOf, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { lineKey, lineVerdicts, lineWithKind, type Measurement, sayReading } from '../../measure/index.ts'
import type { LaneState } from '../../suspects/index.ts'
import type { Known } from '../scorecard/ask.ts'
import type { FoundUnder } from '../simulator/types.ts'

/** One sentence a line that was read: the reading and what it is held to be. */
export function readingWords(model: BoardModel, known: Known, read: readonly Measurement[]): string[] {
  const wordOf = verdictWordOf(model, known)
  return read.map((each) => lineWords(each, wordOf(each)))
}

/** The same in short for stages that were read together: those that read alike in one sentence, the others each. */
export function readTogetherWords(model: BoardModel, known: Known, read: readonly Measurement[]): string[] {
  const wordOf = verdictWordOf(model, known)
  const alike = read.filter((each) => each.line.kind === 'stage' && wordOf(each) === ALIKE)
  if (alike.length < 2) return readingWords(model, known, read)
  const others = read.filter((each) => !alike.includes(each))
  const values = alike.flatMap(({ reading }) => (reading.kind === 'value' ? [reading.value] : []))
  const [least, most] = [Math.min(...values), Math.max(...values)].map((value) =>
    sayReading({ kind: 'value', value }, 'ohms'),
  )
  return [
    ...others.map((each) => lineWords(each, wordOf(each))),
    say('Stages {alike} read alike: {least} to {most}.', {
      alike: alike.map(({ line }) => line.name).join(', '),
      least,
      most,
    }),
  ]
}

const ALIKE = say('like its siblings')

const lineWords = ({ line, reading, quantity }: Measurement, word: string): string =>
  `${lineWithKind(line)}: ${sayReading(reading, quantity)}, ${word}.`

function verdictWordOf(model: BoardModel, { measurements }: Known): (read: Measurement) => string {
  const verdicts = lineVerdicts(model, { measurements, goodReadings: [] }, 'ohms', 'before')
  return ({ line }) =>
    verdicts.find((each) => lineKey(each.line.line) === lineKey(line))?.verdict.word ?? say('no reference')
}

/**
 * What was seen under a lifted part and what was done to it. Of parts other than memory and core only that they were
 * replaced.
 */
export function underWords(model: BoardModel, { ref, wet }: FoundUnder): string[] {
  const part = model.partByRef.get(ref)
  if (part?.kind !== 'memory' && part?.kind !== 'core') return [say('{ref} was replaced.', { ref })]
  const names = wet.map((id) => model.regionById.get(id)?.name ?? id)
  const seen =
    names.length === 0
      ? say('Nothing lay between {ref} and the board.', { ref })
      : say('Something had got under {ref}: at {names}.', { ref, names: someOf(names, 6) })
  return [seen, say('{ref} was cleaned and reballed, or replaced where that was needed, and went on again.', { ref })]
}

/** How many lanes fail and at which packages; a lane that was not tested counts as not failing. */
export function runWords(model: BoardModel, lanes: ReadonlyMap<string, LaneState>): string[] {
  const failing = model.lanes.filter(({ id }) => lanes.get(id) === 'fail')
  if (failing.length === 0) return [say('Every lane passes.')]
  const parts = [...new Set(failing.map(({ part }) => part))]
  const passing = model.memories.length - parts.length
  const rest =
    passing === 0
      ? say('No package passes whole.')
      : say('{passing, plural, one {# package passes} other {# packages pass}} whole.', { passing })
  return [
    say('{failing} of {all} lanes fail, at {parts}.', {
      failing: failing.length,
      all: model.lanes.length,
      parts: someOf(parts, 8),
    }),
    rest,
  ]
}
