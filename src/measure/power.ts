/** Whether anything that was measured or seen speaks against power on the card. Never says that power is harmless. */
import { type Result, bad, good } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { cleanedLater, type SeenMark } from './cleaned.ts'
import { isFarAbove } from './judge-ohms.ts'
import { rule } from './practice.ts'
import { sayOhms } from './say.ts'
import type { MeasuringLine } from './lines.ts'
import type { LineName, Phase, PowerUp, Reading } from './schema.ts'
import { type LineVerdict, lineVerdicts, type Measured } from './verdict.ts'
import type { VerdictKind } from './verdict-words.ts'

export type { SeenMark } from './cleaned.ts'

export interface PowerInput extends Measured {
  readonly phase: Phase
  readonly marks?: readonly SeenMark[]
  readonly arrival?: { readonly accident: string }
  /** The board was cleaned and dried: ids of the marks that this took care of. */
  readonly cleaned?: { readonly marks: readonly string[] } | undefined
}

export interface PowerReason {
  /** `against` makes it not safe, `unknown` not known; a `note` changes nothing. */
  readonly weight: 'against' | 'unknown' | 'note'
  readonly sentence: string
  readonly lines: readonly LineName[]
}

export interface PowerJudgement {
  readonly verdict: PowerUp['verdict']
  /** The verdict as a headline. */
  readonly words: string
  /** The weightiest first. */
  readonly reasons: readonly PowerReason[]
  /** Rails without a reading in this phase. */
  readonly missing: readonly LineName[]
}

const HEADLINES: Readonly<Record<PowerUp['verdict'], string>> = {
  safe: 'Nothing measured speaks against power',
  'not-safe': 'Not safe to power',
  'not-known': 'Not known whether it is safe to power',
}

/**
 * The trade's rule of thumb (common practice, no source): no rail short, the input above 1 kΩ, no rail under its range,
 * stages of one rail within a fifth of each other, nothing wet or conductive left, every rail measured.
 */
export function judgePower(model: BoardModel, input: PowerInput): PowerJudgement {
  const verdicts = lineVerdicts(model, input, 'ohms', input.phase)
  const missing = verdicts.flatMap(({ line, measurement }) =>
    measurement === undefined && line.line.kind === 'rail' ? [line.line] : [],
  )
  const reasons = [
    ...verdicts.flatMap((each) => reasonOfLine(each)),
    ...verdicts.flatMap((each) => leadsNote(each)),
    ...doubtfulGoodCards(verdicts),
    ...missingReasons(verdicts, missing, input.phase),
    ...habitNote(verdicts),
    ...seenReasons(input),
  ]
  const has = (weight: PowerReason['weight']): boolean => reasons.some((reason) => reason.weight === weight)
  const verdict = has('against') ? 'not-safe' : has('unknown') ? 'not-known' : 'safe'
  return {
    verdict,
    words: HEADLINES[verdict],
    reasons: [...(verdict === 'safe' ? [NO_PROMISE] : []), ...sorted(reasons)],
    missing,
  }
}

const NO_PROMISE: PowerReason = {
  weight: 'note',
  sentence: 'That is no promise: a meter sees neither every pin nor a fault that comes with voltage or heat.',
  lines: [],
}

const ORDER = ['against', 'unknown', 'note'] as const

const sorted = (reasons: readonly PowerReason[]): PowerReason[] =>
  reasons.toSorted((a, b) => ORDER.indexOf(a.weight) - ORDER.indexOf(b.weight))

const WEIGHTS: Readonly<Partial<Record<VerdictKind, PowerReason['weight']>>> = {
  short: 'against',
  low: 'against',
  below: 'against',
  'unlike-low': 'against',
  'unlike-high': 'unknown',
  open: 'unknown',
  unusual: 'unknown',
  above: 'note',
}

/** A hint passes nothing on a core rail, whose short reads much as it does when it is well. */
function weightOf(line: MeasuringLine, reading: Reading, kind: VerdictKind): PowerReason['weight'] | undefined {
  if (kind === 'above' && isFarAbove(line, reading)) return 'unknown'
  if (line.line.kind === 'rail' && (kind === 'no-range' || (kind === 'usual' && line.use === 'core'))) return 'unknown'
  return WEIGHTS[kind]
}

/** Leads alone may read as much as a rail that is well. */
function leadsNote({ line, measurement }: LineVerdict): PowerReason[] {
  const reading = measurement?.reading
  if (line.line.kind !== 'rail' || reading?.kind !== 'value' || reading.value >= rule('twoWireLeadsOhm')) return []
  const sentence = `Rail ${line.line.name}: leads and contact alone read up to ${sayOhms(rule('twoWireLeadsOhm'))} with two wires. Take off what they read when they touch each other, or measure with four wires.`
  return [{ weight: 'note', sentence, lines: [line.line] }]
}

function reasonOfLine({ line, measurement, verdict }: LineVerdict): PowerReason[] {
  if (measurement === undefined) return []
  const name = `${line.line.kind === 'rail' ? 'Rail' : 'Stage'} ${line.line.name}`
  const { reading } = measurement
  const atLeast = rule('inputAtLeastOhm')
  const weight = weightOf(line, reading, verdict.kind)
  if (
    weight !== 'against' &&
    line.line.kind === 'rail' &&
    line.use === 'input' &&
    reading.kind === 'value' &&
    reading.value < atLeast
  ) {
    const sentence = `${name}, ${sayOhms(reading.value)}: an input should read above ${sayOhms(atLeast)}.`
    return [{ weight: 'against', sentence, lines: [line.line] }]
  }
  return weight === undefined
    ? []
    : [{ weight, sentence: `${name}, ${verdict.word}: ${verdict.sentence}`, lines: [line.line] }]
}

function missingReasons(verdicts: readonly LineVerdict[], missing: readonly LineName[], phase: Phase): PowerReason[] {
  const when = phase === 'after' ? ' after the work' : ''
  const stages = verdicts.filter(({ line, measurement }) => line.line.kind === 'stage' && measurement === undefined)
  const names = (lines: readonly LineName[]): string => lines.map(({ name }) => name).join(', ')
  const rails: PowerReason[] =
    verdicts.length === 0
      ? [{ weight: 'unknown', sentence: 'The board’s description names no rail to measure.', lines: [] }]
      : missing.length === 0
        ? []
        : [{ weight: 'unknown', sentence: `Not measured${when}: ${names(missing)}.`, lines: missing }]
  if (stages.length === 0) return rails
  // What a core rail reads by itself tells little: it is known by its stages reading alike.
  const ofCore = stages.filter(({ line }) => line.use === 'core').map(({ line }) => line.line)
  const others = stages.filter(({ line }) => line.use !== 'core').map(({ line }) => line.line)
  const said = (lines: readonly LineName[], weight: PowerReason['weight'], word: string): PowerReason[] =>
    lines.length === 0 ? [] : [{ weight, sentence: `${word} not compared${when}: ${names(lines)}.`, lines }]
  return [...rails, ...said(ofCore, 'unknown', 'Stages of the core'), ...said(others, 'note', 'Stages')]
}

/** A range that only the trade's habit gives passes a reading with less weight than a good card would. */
function habitNote(verdicts: readonly LineVerdict[]): PowerReason[] {
  const lines = verdicts.flatMap(({ line, verdict, measurement }) => {
    const byHabit = line.reference.from === 'board' && /common practice/i.test(line.reference.source)
    const counts = line.line.kind === 'rail' && measurement !== undefined && verdict.kind === 'in-range'
    return byHabit && counts ? [line.line] : []
  })
  if (lines.length === 0) return []
  const names = lines.map(({ name }) => name).join(', ')
  const sentence = `Held against what is usual in the trade alone, not against a good card of this board: ${names}.`
  return [{ weight: 'note', sentence, lines }]
}

/** Good cards that read far under what the board's own range allows may not be good. */
function doubtfulGoodCards(verdicts: readonly LineVerdict[]): PowerReason[] {
  return verdicts.flatMap(({ line, measurement, verdict }) => {
    const reading = measurement?.reading
    const low = line.ownLowOhm
    if (line.reference.from !== 'learnt' || low === undefined || reading?.kind !== 'value') return []
    if (verdict.kind !== 'in-range' || reading.value >= low * FAR_UNDER) return []
    const sentence = `Rail ${line.line.name}, ${sayOhms(reading.value)}: your good cards read so, but the board’s own range begins at ${sayOhms(low)}. Look at both again.`
    return [{ weight: 'unknown', sentence, lines: [line.line] }]
  })
}

const FAR_UNDER = 0.5

const DIRT = ['residue', 'film', 'corrosion']

function seenReasons({ marks = [], arrival, cleaned }: PowerInput): PowerReason[] {
  const left = marks.filter((mark, i) => !isCleaned(mark, cleaned) && !cleanedLater(mark, marks.slice(i + 1)))
  const spills = left.filter(({ kind }) => kind === 'spill').length
  const dirt = left.filter(({ kind }) => DIRT.includes(kind)).length
  const marked = marks.some(({ kind }) => kind === 'spill' || DIRT.includes(kind))
  const unknown = (sentence: string): PowerReason => ({ weight: 'unknown', sentence, lines: [] })
  const spilled = arrival?.accident === 'spill' || arrival?.accident === 'flux'
  return [
    ...(spills > 0
      ? [unknown(`${counted(spills, 'spill')} marked and not marked clean: it may bridge pads that no probe reaches.`)]
      : []),
    ...(dirt > 0
      ? [unknown(`${counted(dirt, 'place')} with residue, film or corrosion, not marked clean since.`)]
      : []),
    ...(cleaned === undefined ? [] : [CLEANED]),
    ...(spilled && !marked && cleaned === undefined
      ? [unknown('Something was spilled or left on it, and where it went is not marked.')]
      : []),
  ]
}

const CLEANED: PowerReason = {
  weight: 'note',
  sentence: 'Cleaned and dried, as was noted. What may still lie under parts that stayed on, nobody has seen.',
  lines: [],
}

/** Whether the noted cleaning took care of a mark; one that was made since counts again. */
export const isCleaned = ({ id }: Pick<SeenMark, 'id'>, cleaned: PowerInput['cleaned']): boolean =>
  id !== undefined && cleaned !== undefined && cleaned.marks.includes(id)

const counted = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`

/** Power as it goes on the record. Refuses power against the verdict without a typed reason. */
export function powerUpOf(judgement: PowerJudgement, against: string, at?: string): Result<PowerUp> {
  const reason = against.trim()
  if (judgement.verdict !== 'safe' && reason === '') {
    const found = `power against the verdict "${judgement.words}"`
    return bad({ path: 'the reason', found, expected: 'a typed reason', todo: 'Say why it gets power all the same.' })
  }
  return good({
    ...(at === undefined ? {} : { at }),
    verdict: judgement.verdict,
    reasons: judgement.reasons.map(({ sentence }) => shortened(sentence)).slice(0, MOST_REASONS),
    ...(judgement.verdict === 'safe' ? {} : { against: reason.slice(0, MOST_CHARACTERS) }),
  })
}

/** As the case file takes them. */
const MOST_REASONS = 200
const MOST_CHARACTERS = 2000

const shortened = (sentence: string): string => (sentence.length <= 500 ? sentence : `${sentence.slice(0, 499)}…`)
