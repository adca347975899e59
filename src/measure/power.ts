/** Whether anything that was measured or seen speaks against power on the card. Never says that power is harmless. */
import { type Result, bad, good, numberWords, someOf, say } from '../base/index.ts'
import { type BoardModel, partsWithoutSupply } from '../board/index.ts'
import { cleanedLater, type SeenMark } from './cleaned.ts'
import { diodeReasons } from './power-diode.ts'
import { railReasons } from './power-rails.ts'
import { measuredReason, type PowerReason } from './power-reason.ts'
import { stageReasons } from './power-stages.ts'
import { supplyReasons } from './power-supplies.ts'
import type { AtLimit, LineName, Phase, PowerUp } from './schema.ts'
import { lineVerdicts, type Measured } from './verdict.ts'

export type { SeenMark } from './cleaned.ts'
export type { PowerReason } from './power-reason.ts'

export interface CardFacts {
  readonly marks?: readonly SeenMark[]
  readonly arrival?: { readonly accident: string; readonly poweredSince?: string }
  /** The board was cleaned and dried: ids of the marks that this took care of. */
  readonly cleaned?: { readonly marks: readonly string[] } | undefined
  /** What the bench supply did when the card had power. */
  readonly powered?: { readonly limitA?: number | undefined; readonly atLimit: AtLimit } | undefined
}

export interface PowerInput extends Measured, CardFacts {
  readonly phase: Phase
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
  safe: say('No reading so far says don’t power it'),
  'not-safe': say('Not safe to power'),
  'not-known': say('Not known whether it is safe to power'),
}

/**
 * The trade's rule of thumb (common practice, no source). Against power is what reads as a short for that kind of rail, an
 * shorted high-side switch, or what is far below what good cards of this board read. What is only unlike the trade's habit warns and forbids nothing; what was
 * not measured, can't be told from the leads, or may still lie on the board leaves it unknown.
 */
export function judgePower(model: BoardModel, input: PowerInput): PowerJudgement {
  const verdicts = lineVerdicts(model, input, 'ohms', input.phase)
  const missing = verdicts.flatMap(({ line, measurement }) =>
    measurement === undefined && line.line.kind === 'rail' ? [line.line] : [],
  )
  const reasons = [
    ...railReasons(verdicts, input),
    ...supplyReasons(verdicts, input),
    ...unknownSupplies(model),
    ...limitReasons(input),
    ...stageReasons(verdicts, input),
    ...diodeReasons(lineVerdicts(model, input, 'diode', input.phase), verdicts),
    ...cardReasons(input, missing.length === 0 && verdicts.length > 0),
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

/**
 * What speaks against giving power now, for a caution that stands until it is gone; that rails are yet to be measured is
 * none of it. @param judgement undefined while no board is known: what is known of the card speaks alone
 */
export function powerCaution(facts: CardFacts, judgement: PowerJudgement | undefined): readonly PowerReason[] {
  const reasons = judgement?.reasons ?? sorted(cardReasons(facts, false))
  return reasons.filter(({ weight, about }) => weight === 'against' || (weight === 'unknown' && about === 'card'))
}

const NO_PROMISE: PowerReason = {
  weight: 'note',
  sentence: say('That is no promise: a meter sees neither every pin nor a fault that comes with voltage or heat.'),
  about: 'measured',
  lines: [],
  key: 'no promise',
}

const ORDER = ['against', 'unknown', 'note'] as const

const sorted = (reasons: readonly PowerReason[]): PowerReason[] =>
  reasons.toSorted((a, b) => ORDER.indexOf(a.weight) - ORDER.indexOf(b.weight))

/** After the work on the card it is not known whether the supply would do so again. */
function limitReasons({ powered, phase }: PowerInput): PowerReason[] {
  if (powered?.atLimit !== 'stays') return []
  const at =
    powered.limitA === undefined
      ? say('its limit')
      : say('its limit of {limitA} A', { limitA: numberWords(powered.limitA) })
  return phase === 'before'
    ? [
        measuredReason(
          'against',
          say('The supply stayed at {at} when the card had power: measure cold what draws it down.', { at }),
          [],
          `at limit ${powered.limitA ?? ''}`,
        ),
      ]
    : [measuredReason('note', say('Before the work the supply stayed at {at}: begin again with a low limit.', { at }))]
}

/** A part that no rail is known to feed can't be judged by any reading. */
function unknownSupplies(model: BoardModel): PowerReason[] {
  const refs = model.rails.length === 0 ? [] : partsWithoutSupply(model)
  if (refs.length === 0) return []
  return [
    measuredReason(
      'unknown',
      say('The board file names no rail that feeds {refs}: find it, and read it too.', { refs: someOf(refs, 4) }),
    ),
  ]
}

const DIRT = ['residue', 'film', 'corrosion']

/**
 * What happened to the card and what lies on it.
 * @param isMeasured whether every rail was read: then a short that something left behind would have shown
 */
function cardReasons({ marks = [], arrival, cleaned }: CardFacts, isMeasured: boolean): PowerReason[] {
  const left = marks.filter((mark, i) => !isCleaned(mark, cleaned) && !cleanedLater(mark, marks.slice(i + 1)))
  const spills = left.filter(({ kind }) => kind === 'spill').length
  const dirt = left.filter(({ kind }) => DIRT.includes(kind)).length
  const marked = marks.some(({ kind }) => kind === 'spill' || DIRT.includes(kind))
  const slipped = arrival?.accident === 'slip' || marks.some(({ kind }) => kind === 'slip')
  const of = (key: string, sentence: string): PowerReason => {
    return { weight: 'unknown', about: 'card', sentence, lines: [], key }
  }
  const unknown = (holds: boolean, key: string, sentence: string): PowerReason[] => (holds ? [of(key, sentence)] : [])
  const spilled = !marked && cleaned === undefined
  const reasons = [
    ...unknown(
      spills > 0,
      `spills ${spills}`,
      say(
        '{spills, plural, one {# spill} other {# spills}} marked and not marked clean: it may bridge pads that no probe reaches.',
        { spills },
      ),
    ),
    ...unknown(
      dirt > 0,
      `dirt ${dirt}`,
      say('{dirt, plural, one {# place} other {# places}} with residue, film or corrosion, not marked clean since.', {
        dirt,
      }),
    ),
    ...(cleaned === undefined ? [] : [CLEANED]),
    ...unknown(
      spilled && arrival?.accident === 'spill',
      'spilled',
      say('Something was spilled, and where it went is not marked.'),
    ),
    ...unknown(
      spilled && arrival?.accident === 'flux',
      'flux',
      say('Flux was left on it, and where is not marked: warm and damp it conducts.'),
    ),
    ...unknown(slipped && !isMeasured, 'slip', say('A slipped tool may have left a short that only a meter shows.')),
    ...unknown(
      arrival?.accident === 'unknown' && !isMeasured,
      'nobody knows',
      say('Nobody knows what happened to it.'),
    ),
  ]
  if (arrival?.poweredSince !== 'yes' || !reasons.some(({ weight }) => weight === 'unknown')) return reasons
  const wet = spills > 0 || arrival.accident === 'spill' || arrival.accident === 'flux'
  const since = wet
    ? say('It was powered since: metal may have grown between wet joints.')
    : say('It was powered since, and may be worse for it.')
  return [...reasons, of('powered since', since)]
}

const CLEANED: PowerReason = {
  weight: 'note',
  about: 'card',
  key: 'cleaned',
  sentence: say('Cleaned and dried, as noted. Nobody has looked under the parts that stayed on.'),
  lines: [],
}

/** Whether the noted cleaning took care of a mark; one that was made since counts again. */
export const isCleaned = ({ id }: Pick<SeenMark, 'id'>, cleaned: PowerInput['cleaned']): boolean =>
  id !== undefined && cleaned !== undefined && cleaned.marks.includes(id)

/** Power as it goes on the record. Refuses power against the verdict without a typed reason. */
export function powerUpOf(judgement: PowerJudgement, against: string, at?: string): Result<PowerUp> {
  const reason = against.trim()
  if (judgement.verdict !== 'safe' && reason === '') {
    const found = say('power against the verdict "{words}"', { words: judgement.words })
    return bad({
      path: 'the reason',
      found,
      expected: say('a typed reason'),
      todo: say('Say why it gets power all the same.'),
    })
  }
  return good({
    ...(at === undefined ? {} : { at }),
    verdict: judgement.verdict,
    reasons: judgement.reasons.map(({ sentence }) => shortened(sentence)).slice(0, MOST_REASONS),
    keys: judgement.reasons.map(({ key }) => shortened(key)).slice(0, MOST_REASONS),
    ...(judgement.verdict === 'safe' ? {} : { against: reason.slice(0, MOST_CHARACTERS) }),
  })
}

/** As the case file takes them. */
const MOST_REASONS = 200
const MOST_CHARACTERS = 2000

const shortened = (sentence: string): string => (sentence.length <= 500 ? sentence : `${sentence.slice(0, 499)}…`)
