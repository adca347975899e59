/** What is different between two answers, in sentences. */
import { joined, minutesWords, percent, say } from '../../base/index.ts'
import type { PassLog } from './log.ts'
import type { Plan, PlanAnswer } from '../result.ts'

/** @param log what was done in between; its passes are not missed from the later plan */
export function changesBetween(before: PlanAnswer, after: PlanAnswer, log: PassLog = []): string[] {
  return [
    ...passChanges(before.best, after.best, log),
    ...fateChanges(before.best, after.best),
    ...dryChanges(before.best, after.best),
    ...bakeChanges(before.best, after.best),
    ...countChanges(before.best, after.best),
    ...worthChanges(before, after),
  ]
}

const nameOf = (action: 'lift' | 'refit', refs: readonly string[]): string =>
  say('{action, select, lift {lift {refs}} other {refit {refs}}}', { action, refs: joined(refs) })

const passesOf = ({ steps }: Plan) =>
  steps.flatMap(({ action, refs }) => (action === 'lift' || action === 'refit' ? [{ action, refs }] : []))

const namesOf = (passes: ReturnType<typeof passesOf>): string[] =>
  passes.map(({ action, refs }) => nameOf(action, refs))

function passChanges(before: Plan, after: Plan, log: PassLog): string[] {
  // Parts that were planned together may have been worked on one by one.
  const done = new Set(
    log.flatMap(({ action, refs, outcome }) => (outcome === 'done' ? refs.map((ref) => `${action} ${ref}`) : [])),
  )
  const expected = namesOf(
    passesOf(before).filter(({ action, refs }) => !refs.every((ref) => done.has(`${action} ${ref}`))),
  )
  const now = namesOf(passesOf(after))
  const gone = expected.filter((name) => !now.includes(name))
  const fresh = now.filter((name) => !expected.includes(name))
  const kept = expected.filter((name) => now.includes(name))
  const isMoved = now.filter((name) => kept.includes(name)).some((name, index) => name !== kept[index])
  const next = isMoved ? now.slice(0, 1) : []
  return [
    ...(gone.length > 0 ? [say('No longer in the plan: {gone}.', { gone: gone.join(', ') })] : []),
    ...(fresh.length > 0 ? [say('New in the plan: {fresh}.', { fresh: fresh.join(', ') })] : []),
    ...next.map((name) => say('The order of what is left changed; next is: {now}.', { now: name })),
  ]
}

function fateChanges(before: Plan, after: Plan): string[] {
  const was = refsWith(before, 'replace')
  const fresh = refsWith(after, 'replace').filter((ref) => !was.includes(ref))
  const spared = was.filter((ref) => refsWith(after, 'reball').includes(ref))
  return [
    ...(fresh.length > 0 ? [say('{fresh} must now be replaced: at the heat limit.', { fresh: joined(fresh) })] : []),
    ...(spared.length > 0 ? [say('{spared} can now be used again.', { spared: joined(spared) })] : []),
  ]
}

const refsWith = ({ steps }: Plan, wanted: string): string[] =>
  steps.flatMap(({ action, refs }) => (action === wanted ? refs : []))

function dryChanges(before: Plan, after: Plan): string[] {
  const was = before.steps.find(({ action }) => action === 'dry')
  const now = after.steps.find(({ action }) => action === 'dry')
  if (now === undefined || was?.refs.join() === now.refs.join()) return []
  return [
    say('Dry {refs} for {minutesWords} before the next heat.', {
      refs: joined(now.refs),
      minutesWords: minutesWords((now.hours ?? 0) * 60),
    }),
  ]
}

function bakeChanges(before: Plan, after: Plan): string[] {
  const was = before.steps.find(({ action }) => action === 'bake')?.hours ?? 0
  const now = after.steps.find(({ action }) => action === 'bake')?.hours ?? 0
  if (was === now) return []
  return [
    now === 0
      ? say('Nothing is to be baked any more.')
      : say('Bake {now} h before the next heat instead of {was} h.', { now, was }),
  ]
}

function countChanges(before: Plan, after: Plan): string[] {
  const was = new Map(before.heatCounts.map(({ ref, after: count }) => [ref, count]))
  return after.heatCounts.flatMap(({ ref, after: count, limit }) => {
    const old = was.get(ref)
    if (old === undefined || old === count) return []
    return [
      limit !== undefined && count > limit
        ? say(
            '{ref} ends with {count, plural, one {# melt} other {# melts}}, not {old} as planned, beyond its limit of {limit}.',
            { ref, count, old, limit },
          )
        : say('{ref} ends with {count, plural, one {# melt} other {# melts}}, not {old} as planned.', {
            ref,
            count,
            old,
          }),
    ]
  })
}

function worthChanges(before: PlanAnswer, after: PlanAnswer): string[] {
  const sentences: string[] = []
  const [was, now] = [before.worth, after.worth]
  // passes that are over can no longer harm anything: that alone is no news
  const [wasSaid, nowSaid] = [percent(was.successProbability), percent(now.successProbability)]
  if (was.curesProbability !== now.curesProbability && wasSaid !== nowSaid)
    sentences.push(say('The chance of success goes from {wasSaid} to {nowSaid}.', { wasSaid, nowSaid }))
  if (was.expectedGain > 0 !== now.expectedGain > 0)
    sentences.push(now.expectedGain > 0 ? say('Going on now pays.') : say('Going on no longer pays.'))
  return sentences
}
