/** Why an action can't be done now, in a sentence; undefined where it can. */
import { say } from '../../base/index.ts'
import { checkById, liftableParts } from '../../suspects/index.ts'
import { railAgainstPower } from '../scorecard/ask.ts'
import { edgesToLook } from '../simulator/looks.ts'
import type { SimulatedCard } from '../simulator/types.ts'
import { type Bench, isMeasured, isWorkedOn } from './bench.ts'
import type { PracticeAction } from './game.ts'
import { workplaceSaid } from './place-words.ts'

export interface Refusing {
  readonly card: SimulatedCard
  /** `check at` of each check that can be made on the card. */
  readonly checks: ReadonlySet<string>
  /** What can be put right: rails, tracks, slips. */
  readonly names: ReadonlySet<string>
}

/**
 * Refuses anything once the card was handed back, whatever the card does not have, what was done already, power where
 * something speaks against it, and a run with nothing worked on since the last.
 */
export function refusalOf({ card, checks, names }: Refusing, bench: Bench, action: PracticeAction): string | undefined {
  if (bench.handedBack !== undefined) return say('The card was handed back.')
  switch (action.kind) {
    case 'check':
      if (checkById(action.check) === undefined || !checks.has(`${action.check} ${action.at}`))
        return say('On this card there is no such check at {at}.', { at: workplaceSaid(action.at) })
      return (
        doneAlready(card, bench, action) ??
        (checkById(action.check)?.powered === true ? againstPower(card, bench) : undefined)
      )
    case 'lift':
      if (!liftableParts(card.model).includes(action.ref))
        return say('{ref} is no part that is lifted.', { ref: action.ref })
      return bench.lifted.includes(action.ref) ? say('{ref} was off and put right.', { ref: action.ref }) : undefined
    case 'put-right':
      if (!names.has(action.name)) return say('There is no {name} on this card.', { name: workplaceSaid(action.name) })
      return bench.putRight.includes(action.name)
        ? say('{name} was gone into and put right.', { name: workplaceSaid(action.name) })
        : undefined
    case 'run':
      if (!bench.untested && bench.runs > 0)
        return say('Nothing was worked on since the last run: it would come out the same.')
      return againstPower(card, bench)
    default:
      return undefined
  }
}

/** A check is done again only after something was worked on; a place that was looked at stays as it was seen. */
function doneAlready({ model }: SimulatedCard, bench: Bench, { check, at }: PracticeAction & { kind: 'check' }) {
  const { done, known } = bench
  const lastWork = done.findLastIndex(({ action }) => action.kind === 'lift' || action.kind === 'put-right')
  const since = done.slice(lastWork + 1)
  if (since.some(({ action }) => action.kind === 'check' && action.check === check && action.at === at))
    return say('Nothing was worked on since: it would tell the same.')
  const evidence = checkById(check)?.evidence
  if (evidence === 'area') {
    const place = edgesToLook(model, known.spills).find((each) => each.at === at)
    return known.areas.some(({ id }) => id === place?.mark.id)
      ? say('Somebody has looked there; the map shows it.')
      : undefined
  }
  const isLine = evidence === 'rail' || evidence === 'stage'
  return isLine && lastWork < 0 && isMeasured(known, { kind: evidence, name: at })
    ? say('It was measured before.')
    : undefined
}

/** A rail that reads towards a short speaks against power, until somebody has worked on the card. */
function againstPower({ model }: SimulatedCard, bench: Bench): string | undefined {
  if (isWorkedOn(bench)) return undefined
  const rail = railAgainstPower(model, bench.known)
  if (rail === undefined) return undefined
  return say(
    'Not safe to power: {sentence} Power on a shorted rail burns copper and can start a fire. Put it right first.',
    { sentence: rail.sentence },
  )
}
