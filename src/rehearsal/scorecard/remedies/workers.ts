/** Who works on a simulated card: one who follows each proposal, one who knows what is broken, one who goes by a plain rule. */
import type { RemedyProposal } from '../../../suspects/index.ts'
import type { Asker } from '../ask.ts'
import type { Damage } from '../../simulator/types.ts'
import {
  check,
  costOfSendingBack,
  ended,
  type Job,
  type JobScore,
  lift,
  passesNow,
  refit,
  repairAround,
  run,
  takeUp,
  wash,
} from './bench.ts'
import { isCardLost, isSound } from './worked-card.ts'

/** Nobody goes on for ever. */
const MOST_STEPS = 30

/** Does the first step that is proposed, sees what comes of it, and asks again. */
export function followProposals(
  job: Job,
  asker: Asker,
): JobScore & { readonly saidAtFirst: RemedyProposal | undefined } {
  let now = job
  let saidAtFirst: RemedyProposal | undefined
  for (let step = 0; step < MOST_STEPS; step++) {
    if (isCardLost(now.card, now.worked)) break
    const plan = asker.remedies(now.known, now.bench)
    saidAtFirst ??= plan
    const [first] = plan.steps
    if (first === undefined || first.action === 'hand-back' || first.action === 'return')
      return { ...ended(now, first?.action === 'hand-back'), saidAtFirst }
    now = doFirst(now, plan)
  }
  return { ...ended(now, passesNow(now)), saidAtFirst }
}

function doFirst(job: Job, { steps, check: asked }: RemedyProposal): Job {
  const [first, second] = steps
  switch (first?.action) {
    case 'check':
      return asked === undefined ? job : check(job, asked.check, asked.at)
    case 'take-up':
      // before a lift there is no run: metal may still lie under the body
      return second?.action === 'lift' ? takeUp(job) : run(takeUp(job))
    case 'wash':
      return run(wash(job))
    case 'lift':
      return lift(job, first.refs)
    case 'reball':
      return run(refit(job, second?.action === 'replace' ? second.refs : []))
    case 'replace':
      return run(refit(job, first.refs))
    case 'find-short':
    case 'repair-around':
      return run(repairAround(job, first.refs))
    case 'run-again':
      return run(job)
    default:
      return job
  }
}

const OF_THE_DIE: readonly Damage['kind'][] = ['die', 'core', 'power-stage']

/**
 * Knows what is broken at any time, and does what cures it: all at once, again where it did not hold, unless sending the card
 * back costs less than the first round. Nobody can do much better: only luck is kept from this one.
 */
export function workKnowing(job: Job): JobScore {
  let now = job
  for (let round = 0; round < 4 && !isSound(now.worked) && !isCardLost(now.card, now.worked); round++) {
    const after = knowingRound(now)
    if (after.money - now.money >= costOfSendingBack()) return ended(now, false)
    now = after
  }
  return ended(now, isSound(now.worked))
}

function knowingRound(job: Job): Job {
  const { damages } = job.worked
  const refs = [...new Set(damages.flatMap(({ ref }) => ref ?? []))]
  const bad = damages.flatMap(({ ref, kind }) => (ref !== undefined && OF_THE_DIE.includes(kind) ? [ref] : []))
  const places = [...new Set(damages.flatMap(({ ref, at }) => (ref === undefined ? [at] : [])))]
  const around = places.length === 0 ? job : repairAround(job, places)
  return run(refs.length === 0 ? around : refit(lift(around, refs), bad))
}

/**
 * The plain rule: wash what was spilled, then new packages in the place of those that fail, then the core off, cleaned and
 * back on new balls; then it goes back unrepaired. Common practice, no source.
 */
export function workPlainly(job: Job): JobScore {
  let now = passesNow(job) ? run(job) : job
  if (passesNow(now)) return ended(now, true)
  if (now.known.spills.length > 0) now = run(wash(takeUp(now)))
  if (passesNow(now)) return ended(now, true)
  const failing = failingParts(now)
  now = run(refit(lift(now, failing), failing))
  const core = now.card.model.core?.ref
  if (passesNow(now) || core === undefined || isCardLost(now.card, now.worked)) return ended(now, passesNow(now))
  now = run(refit(lift(now, [core]), []))
  return ended(now, passesNow(now))
}

function failingParts({ card, known }: Job): string[] {
  const last = known.rounds.at(-1)?.lanes ?? known.lanes
  return [...new Set(card.model.lanes.flatMap(({ id, part }) => (last.get(id) === 'fail' ? [part] : [])))]
}
