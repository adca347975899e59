/** `liftmap suspects CASE`: stories that explain the findings, and the lift list with its reasons. */
import { decimals, minutesWords, percent, roughMoney, say } from '../../base/index.ts'
import type { z } from 'zod'
import { cautionsOfCase, enteredOf, lookFirst, shortsFirst, usualPhase } from '../../case/index.ts'
import {
  type ProposedAction,
  type ProposedPlan,
  proposedWords,
  type RankedChecks,
  type RemedyProposal,
  type ToldOutcome,
  type ToldStory,
  toldStories,
} from '../../suspects/index.ts'
import { EXIT, printAnswer, whenGood } from '../answer.ts'
import { assessCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { suspectsOutput } from '../output.ts'

type Suspects = z.infer<typeof suspectsOutput>

/**
 * Prints stories, lift list and proposal, with `checks` also every check by what it would tell. Returns the exit
 * code.
 */
export async function runSuspects(
  io: Io,
  file: string,
  options: { checks?: boolean | undefined; text?: boolean | undefined },
): Promise<number> {
  return await whenGood(io, await assessCaseFile(io, file), (assessed) => {
    const { caseFile, assessment, assessor } = assessed
    const { suspects } = assessment
    const told = options.checks === true ? Number.POSITIVE_INFINITY : undefined
    const { ranked, proposal } = assessor.nextSteps(enteredOf(assessed), told)
    const next = options.checks === true ? nextChecks(ranked) : undefined
    const { spill } = suspects
    const answer: Suspects = {
      stories: suspects.stories.map((story) => ({
        causes: story.causes.map(({ kind, at }) => ({ kind, at })),
        probability: story.probability,
        sentence: story.sentence,
      })),
      remainder: suspects.remainder,
      lift: [...suspects.lift],
      parts: suspects.parts.map(({ ref, probability, comesOff, lift, remedy, wrong, why }) => ({
        ref,
        probability,
        comesOff,
        lift,
        remedy,
        wrong,
        why: [...why],
      })),
      proposal: copiedProposal(proposal),
      spill: spill === undefined ? null : { at: { ...spill.at }, sdMm: spill.sdMm, probability: spill.probability },
      ...(next === undefined ? {} : { checks: next.checks, decisionBits: next.decisionBits }),
      leftOut: [...new Set([...suspects.leftOut, ...(next?.leftOut ?? [])])],
      lookFirst: lookFirst(shortsFirst(assessed.model, caseFile, usualPhase(caseFile)), undefined).map(
        ({ what, todo }) => `${what}. ${todo}`,
      ),
      cautions: cautionsOfCase(caseFile, ['arrival', 'spill', 'suspects']),
    }
    const asText = (printed: Suspects): string =>
      saySuspects(printed, toldStories(suspects.stories), caseFile.handBack.currency)
    printAnswer(io, suspectsOutput, answer, options.text === true ? asText : undefined)
    return EXIT.fine
  })
}

const copiedPlan = ({ steps, expectedCost, minutes, works }: ProposedPlan) => ({
  // oxlint-disable-next-line unicorn/no-thenable -- the field is called so where it is printed
  steps: steps.map(({ action, refs, next }) => ({ action, refs: [...refs], then: next })),
  expectedCost,
  minutes,
  ...(works === undefined ? {} : { works }),
})

const copiedProposal = ({ others, ...plan }: RemedyProposal) => ({
  ...copiedPlan(plan),
  others: others.map(({ name, ...other }) => ({ name, ...copiedPlan(other) })),
})

/** All of them with what each outcome would change. */
function nextChecks(ranked: RankedChecks) {
  const checks = ranked.checks.flatMap(({ ifFound, ifNot, saves, caution, ...check }) => {
    if (ifFound === undefined || ifNot === undefined || saves === undefined) return []
    const { check: id, at, question, minutes, bits, bitsPerMinute, entry, powered } = check
    const told = { saves, ifFound: copied(ifFound), ifNot: copied(ifNot) }
    const warned = caution === undefined ? {} : { caution }
    return [{ check: id, at, question, minutes, bits, bitsPerMinute, ...told, entry, powered, ...warned }]
  })
  return {
    checks,
    decisionBits: ranked.decisionBits,
    leftOut: [...ranked.leftOut, ...(ranked.waiting === undefined ? [] : [ranked.waiting])],
  }
}

const copied = ({ parts, lift, ...rest }: ToldOutcome) => ({ ...rest, parts: [...parts], lift: [...lift] })

const SAID = 8

function sayChecks({ checks }: Suspects): string[] {
  if (checks === undefined) return []
  return [
    say('Next checks, most useful first:'),
    ...checks.slice(0, SAID).flatMap((check) => [
      say('  {question}  ({minutes} min, saves about {saves} on average)', {
        question: check.question,
        minutes: check.minutes,
        saves: Math.round(check.saves),
      }),
      say('      If so ({probability}): {sentence}', {
        probability: percent(check.ifFound.probability),
        sentence: check.ifFound.sentence,
      }),
      say('      If not ({probability}): {sentence}', {
        probability: percent(check.ifNot.probability),
        sentence: check.ifNot.sentence,
      }),
      ...(check.caution === undefined ? [] : [say('      Caution: {caution}', { caution: check.caution })]),
    ]),
  ]
}

/** What the list is called where something else comes first. */
const LIFT_AFTER: Readonly<Record<ProposedAction, string>> = {
  wash: say('Lift, if it still fails once it was washed'),
  'take-up': say('Lift, once step 1 below is done'),
  check: say('Lift, unless step 1 below says otherwise'),
  'find-short': say('Lift, if it still fails after step 1 below'),
  'repair-around': say('Lift, if it still fails after step 1 below'),
  'run-again': say('Lift, if it still fails after step 1 below'),
  lift: say('Lift'),
  reball: say('Lift'),
  replace: say('Lift'),
  'hand-back': say('Lift'),
  return: say('Lift, where it is repaired after all'),
}

function saySuspects(answer: Suspects, stories: readonly ToldStory[], currency: string): string {
  const first = answer.proposal.steps[0]?.action
  const lift = first === undefined ? say('Lift') : LIFT_AFTER[first]
  const lines = [
    ...answer.lookFirst,
    answer.lift.length === 0 ? nothingWords(answer) : `${lift}: ${answer.lift.join(', ')}`,
  ]
  for (const part of answer.parts.filter((each) => each.lift)) {
    lines.push(`  ${part.ref}  ${percent(part.comesOff)}`, ...part.why.map((sentence) => `      ${sentence}`))
  }
  lines.push(...sayProposal(answer.proposal, currency), say('Stories:'))
  for (const story of stories) lines.push(`  ${percent(story.probability).padStart(12)}  ${story.sentence}`)
  lines.push(say('  {value}  everything else together', { value: percent(answer.remainder).padStart(12) }))
  if (answer.spill !== null) {
    const { at, sdMm } = answer.spill
    lines.push(
      say('Where it was: {x}, {y} mm, give or take {sdMm} mm', {
        x: decimals(at.x, 1),
        y: decimals(at.y, 1),
        sdMm: decimals(sdMm, 1),
      }),
    )
  }
  lines.push(...sayChecks(answer))
  return [
    ...lines,
    ...answer.leftOut.map(notCounted),
    ...answer.cautions.map((caution) => say('Caution: {caution}', { caution })),
  ].join('\n')
}

const nothingWords = ({ proposal }: Suspects): string =>
  proposal.steps[0]?.action === 'hand-back'
    ? say(
        'Lift nothing: every lane that was tested after the work passes. A fault that comes and goes can remain, and what the test does not cover.',
      )
    : say('Lift nothing yet.')

function sayProposal({ others, ...plan }: Suspects['proposal'], currency: string): string[] {
  return [
    say('What to do first, {plan}:', { plan: figures(plan, currency) }),
    ...plan.steps.map((step, at) => {
      const next = step.then === '' ? '' : ` ${step.then}`
      return `  ${at + 1}. ${proposedWords(step)}.${next}`
    }),
    ...others.map(({ name, ...other }) => say('  Or: {name}, {figures}.', { name, figures: figures(other, currency) })),
  ]
}

const figures = ({ expectedCost, minutes, works }: Omit<Suspects['proposal'], 'others'>, currency: string): string => {
  const chance = works === undefined ? '' : say(', works in the end: {works}', { works: percent(works) })
  return say('on average about {expectedCost} and {minutes}{chance}', {
    expectedCost: roughMoney(expectedCost, currency),
    minutes: minutesWords(minutes),
    chance,
  })
}

/** A whole sentence stands as it is. */
const notCounted = (what: string): string => (what.endsWith('.') ? what : say('Not counted: {what}.', { what }))
