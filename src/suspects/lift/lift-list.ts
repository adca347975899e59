/**
 * The list of parts to lift that costs least in expectation. One comeback serves every part that was missed, so the
 * cost of leaving parts is joint: comeback · P(any part that was left needs lifting) + Σ P(it does) · its lift then.
 * That probability is a coverage function of the set left, hence submodular: the gain of leaving one more part off the
 * list is smallest against the empty set of left parts and greatest against the fullest. Both bounds decide nearly
 * every part for good (exactly); what stays open is tried in full up to six parts, else improved one part at a time from both
 * ends: all of it lifted, none of it.
 */
export interface LiftQuestion {
  /** By part: probability that it needs lifting, and the cost of lifting it now. */
  readonly probability: Float64Array
  readonly liftCost: Float64Array
  readonly comebackCost: number
  /** Probability that none of these parts needs lifting; exact for any set. */
  readonly noneNeeds: (parts: readonly number[]) => number
}

export interface LiftAnswer {
  /** Parts to lift, ascending. */
  readonly lift: readonly number[]
  readonly cost: number
  /** True where the list is proven to be the best one. */
  readonly exact: boolean
}

const TRIED_IN_FULL = 6

/** Expected cost of lifting exactly `lift`. */
export function costOf(question: LiftQuestion, lift: readonly number[]): number {
  const lifted = new Set(lift)
  const left = [...question.probability.keys()].filter((part) => !lifted.has(part))
  let cost = 0
  for (const part of lift) cost += question.liftCost[part] ?? 0
  for (const part of left) cost += (question.probability[part] ?? 0) * (question.liftCost[part] ?? 0)
  return cost + question.comebackCost * missed(question, left)
}

/** Probability that at least one of the parts that were left needs lifting. */
function missed(question: LiftQuestion, left: readonly number[]): number {
  const possible = left.filter((part) => (question.probability[part] ?? 0) > 0).toSorted((a, b) => a - b)
  return possible.length === 0 ? 0 : Math.max(0, 1 - question.noneNeeds(possible))
}

/**
 * The list and its expected cost in the shop's currency, `exact` where it is proved best. Parts are indices,
 * ascending; up to a set number of undecided ones every subset is tried, beyond that single swaps.
 */
export function bestLiftList(question: LiftQuestion): LiftAnswer {
  const left: number[] = []
  const lift: number[] = []
  // A part adds most to the comeback where it alone is left: what is worth leaving even then is left for good.
  let open = [...question.probability.keys()].filter((part) => {
    if (!worthLeaving(question, part, question.probability[part] ?? 0)) return true
    left.push(part)
    return false
  })
  for (let before = -1; open.length > 0 && before !== open.length; ) {
    before = open.length
    for (const part of open) {
      const others = open.filter((other) => other !== part)
      // Between what is surely left and all that may be: decided where both ends say the same, and each decision
      // narrows the ends for the others.
      if (worthLeaving(question, part, gain(question, left, part))) left.push(part)
      else if (!worthLeaving(question, part, gain(question, [...left, ...others], part))) lift.push(part)
      else continue
      open = others
    }
  }
  if (open.length === 0) return answer(question, lift, true)
  return open.length <= TRIED_IN_FULL ? tryInFull(question, lift, open) : improve(question, lift, open)
}

/** How much likelier a comeback becomes if `part` is left too. */
const gain = (question: LiftQuestion, left: readonly number[], part: number): number =>
  missed(question, [...left, part]) - missed(question, left)

/** Lifting a part that does not need it is saved by leaving it; against that stands the comeback. */
const worthLeaving = (question: LiftQuestion, part: number, likelier: number): boolean =>
  question.comebackCost * likelier <= (1 - (question.probability[part] ?? 0)) * (question.liftCost[part] ?? 0)

const answer = (question: LiftQuestion, list: readonly number[], exact: boolean): LiftAnswer => {
  const lift = [...list].toSorted((a, b) => a - b)
  return { lift, cost: costOf(question, lift), exact }
}

function tryInFull(question: LiftQuestion, decided: readonly number[], open: readonly number[]): LiftAnswer {
  let best = answer(question, decided, true)
  for (let set = 1; set < 1 << open.length; set++) {
    const list = [...decided, ...open.filter((_, index) => (set >> index) & 1)]
    const next = answer(question, list, true)
    if (next.cost < best.cost) best = next
  }
  return best
}

/** From both ends, all that is open lifted and all of it left, as parts that fail together pay only together. */
function improve(question: LiftQuestion, decided: readonly number[], open: readonly number[]): LiftAnswer {
  const fromAll = improveFrom(question, open, answer(question, [...decided, ...open], false))
  const fromNone = improveFrom(question, open, answer(question, decided, false))
  return fromNone.cost < fromAll.cost ? fromNone : fromAll
}

function improveFrom(question: LiftQuestion, open: readonly number[], start: LiftAnswer): LiftAnswer {
  let best = start
  for (;;) {
    let better = best
    for (const part of open) {
      const list = best.lift.includes(part) ? best.lift.filter((other) => other !== part) : [...best.lift, part]
      const next = answer(question, list, false)
      if (next.cost < better.cost - 1e-12) better = next
    }
    if (better === best) return best
    best = better
  }
}
