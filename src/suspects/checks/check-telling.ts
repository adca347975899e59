/** What either outcome of a check would change: probabilities, the lift list, and what knowing it is worth. */
import { asSentence, joined, percent, say } from '../../base/index.ts'
import { bestLiftList, type LiftQuestion } from '../lift/lift-list.ts'
import { type StepCosts, stepValue } from '../steps/value.ts'
import type { NoneNeeds } from '../sum/need.ts'
import type { Outcomes } from './outcomes.ts'

export interface ToldOutcome {
  readonly probability: number
  /** Parts whose probability moves most, by how much. */
  readonly parts: readonly { readonly ref: string; readonly before: number; readonly after: number }[]
  /** The lift list then. */
  readonly lift: readonly string[]
  readonly sentence: string
}

export interface Told {
  /** Expected cost that knowing the outcome saves, in the shop's currency, the check's own minutes not counted. */
  readonly saves: number
  readonly ifFound: ToldOutcome
  readonly ifNot: ToldOutcome
}

export interface TellingGround {
  readonly refs: readonly string[]
  readonly liftCost: Float64Array
  readonly comebackCost: number
  readonly steps: StepCosts
}

const WORTH_SAYING = 0.01
const MOST_PARTS = 3

/**
 * Saved: what the card is expected to cost as it is known now, less what it is once the outcome is known, Σ P(o) · V(o);
 * V goes on in steps, with a run after each lift. Who can't tell saves nothing.
 */
export function tellOutcomes(ground: TellingGround, now: NoneNeeds, outcomes: Outcomes): Told {
  const today = questionFor(ground, now)
  const list = bestLiftList(today).lift
  const found = tell(ground, today, list, outcomes.found)
  const not = tell(ground, today, list, outcomes.notFound)
  const caused = (joint: NoneNeeds): NoneNeeds => withSomeCause(joint, ground.refs.length)
  const ifFound = caused(outcomes.found)
  const ifNot = caused(outcomes.notFound)
  const costThen = (joint: NoneNeeds): number => joint([]) * stepValue(questionFor(ground, joint), ground.steps).cost
  const known = ifFound([]) + ifNot([])
  const saves =
    known * stepValue(questionFor(ground, caused(now)), ground.steps).cost - costThen(ifFound) - costThen(ifNot)
  return { saves: Math.max(0, saves), ifFound: found, ifNot: not }
}

/**
 * The same joint probability with something at work that a lift or a repair puts right. A lane that fails for no reason
 * in the list fails on, whatever is done and in whatever order: that share says nothing about what to do first, and must
 * not pass for a card that has come right.
 * @param count how many parts there are; the index after the last stands for what no lift puts right
 * @returns the joint itself where hardly anything in the list explains what is seen
 */
export function withSomeCause(joint: NoneNeeds, count: number): NoneNeeds {
  const nothing = joint(Array.from({ length: count + 1 }, (_, part) => part))
  if (joint([]) - nothing < LEAST_CAUSED * joint([])) return joint
  return (parts) => Math.max(0, joint(parts) - nothing)
}

const LEAST_CAUSED = 1e-6

/** The question of the lift list, given that an outcome has come. */
export function questionFor({ refs, liftCost, comebackCost }: TellingGround, joint: NoneNeeds): LiftQuestion {
  const whole = joint([])
  const noneNeeds = (parts: readonly number[]): number => (whole > 0 ? Math.min(1, joint(parts) / whole) : 1)
  const probability = Float64Array.from(refs, (_, part) => Math.max(0, 1 - noneNeeds([part])))
  return { probability, liftCost, comebackCost, noneNeeds }
}

function tell(ground: TellingGround, today: LiftQuestion, list: readonly number[], joint: NoneNeeds): ToldOutcome {
  const question = questionFor(ground, joint)
  const best = bestLiftList(question)
  const moves = ground.refs.map((ref, part) => {
    return { ref, before: today.probability[part] ?? 0, after: question.probability[part] ?? 0 }
  })
  const moved = moves
    .filter(({ before, after }) => Math.abs(after - before) >= WORTH_SAYING)
    .toSorted((a, b) => Math.abs(b.after - b.before) - Math.abs(a.after - a.before))
    .slice(0, MOST_PARTS)
  const named = (parts: readonly number[]): string[] => parts.map((part) => ground.refs[part] ?? '')
  const more = named(best.lift.filter((part) => !list.includes(part)))
  const fewer = named(list.filter((part) => !best.lift.includes(part)))
  const likely = (a: number, b: number): number => (question.probability[b] ?? 0) - (question.probability[a] ?? 0)
  return {
    probability: joint([]),
    parts: moved,
    lift: named([...best.lift].toSorted(likely)),
    sentence: sentenceOf(moved, more, fewer),
  }
}

function sentenceOf(moved: ToldOutcome['parts'], more: readonly string[], fewer: readonly string[]): string {
  const moves = moved.map(({ ref, before, after }) =>
    say('{ref} from {before} to {after}', { ref, before: percent(before), after: percent(after) }),
  )
  const lists = [
    ...(more.length > 0 ? [say('lift {more} too', { more: joined(more) })] : []),
    ...(fewer.length > 0 ? [say('drop {fewer} from the list', { fewer: joined(fewer) })] : []),
  ]
  if (moves.length === 0 && lists.length === 0) return say('Hardly anything changes.')
  const list = lists.length > 0 ? joined(lists) : say('the list stays')
  const whole = moves.length > 0 ? `${list}: ${joined(moves)}` : list
  return asSentence(whole)
}
