/** `liftmap plan CASE`: the ordered steps of the rework, with settings, materials, cost and an alternative. */
import { heatLines } from '../../heat/index.ts'
import { joined, minutesWords, numberWords, roughMoney, say } from '../../base/index.ts'
import type { z } from 'zod'
import { enteredOf, lookFirst, planCase, reworkQuestion, shortsFirst, usualPhase } from '../../case/index.ts'
import { endingMeans } from '../../suspects/index.ts'
import {
  type Plan,
  type PlanStep,
  resolveShopSettings,
  standing,
  stepTitle,
  wholeWorth,
  wholeWorthWords,
  worthWords,
} from '../../plan/index.ts'
import { EXIT, printAnswer, printFaults, whenGood } from '../answer.ts'
import { assessCaseFile } from '../files.ts'
import type { Io } from '../io.ts'
import { planOutput } from '../output.ts'
import { settingOf } from '../settings.ts'

type PlanAnswerOutput = z.infer<typeof planOutput>
type PlanBody = Pick<PlanAnswerOutput, 'steps' | 'minutes' | 'cost' | 'materials' | 'unbaked' | 'optimal'>

/**
 * Prints the best plan and an alternative, with minutes and costs in the shop's money; tells progress meanwhile. A
 * break-even value that is infinite is printed as null. Returns the exit code.
 */
export async function runPlan(io: Io, file: string, options: { text?: boolean | undefined }): Promise<number> {
  return await whenGood(io, await assessCaseFile(io, file), (assessed) => {
    const { caseFile, model, assessment, assessor } = assessed
    const planned = planCase(model, reworkQuestion(caseFile, assessment.suspects), {
      onProgress: tellEachOnce(io),
    })
    if (!planned.ok) return printFaults(io, planned.faults)
    const { answer, cannot, changes } = planned.value
    const first = lookFirst(shortsFirst(model, caseFile, usualPhase(caseFile)), assessment.suspects)
    const means = endingMeans(assessor.nextSteps(enteredOf(assessed)).proposal.endings ?? [])
    const shop = resolveShopSettings(caseFile.shop)
    const { alternative, worth } = answer
    const output: PlanAnswerOutput = {
      ...bodyOf(answer.best),
      done: standing(caseFile.planned ?? [], answer.best.steps, caseFile.passes, caseFile.ticks).past.map(
        ({ n, action, refs, outcome, on }) => ({
          n,
          action,
          refs: [...refs],
          outcome,
          ...(on === undefined ? {} : { on }),
        }),
      ),
      alternative:
        alternative === undefined
          ? null
          : { ...bodyOf(alternative.plan), differsIn: alternative.differsIn, costsMore: alternative.costsMore },
      success: worth.successProbability,
      worth: {
        successProbability: worth.successProbability,
        costOfRepair: worth.costOfRepair,
        expectedGain: worth.expectedGain,
        breakEvenValue: Number.isFinite(worth.breakEvenValue) ? worth.breakEvenValue : null,
        sentence: worthWords(worth, (amount) => roughMoney(amount, caseFile.handBack.currency)),
      },
      whole: means === undefined || first.length > 0 || !shop.ok ? null : wholeWorth(means, shop.value.money),
      cannot: cannot.map(({ ref, missing }) => ({ ref, missing: [...missing] })),
      changes: [...changes],
      noLiftMends: first.map(({ what, todo }) => `${what}. ${todo}`),
      notes: [...answer.notes],
    }
    const asText = (plan: PlanAnswerOutput): string => sayPlan(plan, caseFile.handBack.currency)
    printAnswer(io, planOutput, output, options.text === true ? asText : undefined)
    return EXIT.fine
  })
}

/** A line on standard error for each part whose heat is being solved. */
function tellEachOnce(io: Io): (share: number, ref: string) => void {
  let told = ''
  return (_share, ref) => {
    if (ref !== told) io.err(say('heat of {ref} …\n', { ref }))
    told = ref
  }
}

function bodyOf(plan: Plan): PlanBody {
  return {
    steps: plan.steps.map(stepOf),
    minutes: plan.minutes,
    cost: plan.cost,
    materials: plan.materials.map(({ what, amount, why }) => ({ what, amount, why })),
    unbaked: plan.unbaked,
    optimal: plan.optimality.sentence,
  }
}

function stepOf(step: PlanStep): PlanBody['steps'][number] {
  const { n, action, minutes, cost, why, hours, setting } = step
  return {
    n,
    ...(step.isNew === true ? { isNew: true } : {}),
    action,
    refs: [...step.refs],
    minutes,
    ...(hours === undefined ? {} : { hours }),
    cost,
    why,
    settings: settingOf(setting),
    ...(step.joints === undefined ? {} : { joints: { ...step.joints } }),
    ...(step.liftFromS === undefined ? {} : { liftFromS: step.liftFromS }),
    ...(step.handsOffUntilC === undefined ? {} : { handsOffUntilC: step.handsOffUntilC }),
    ...(step.short === undefined ? {} : { short: step.short }),
    cautions: [...step.cautions],
  }
}

function sayPlan(plan: PlanAnswerOutput, currency: string): string {
  const told = new Map<string, number>()
  const lines = plan.steps.flatMap((step) => [
    `${String(step.n).padStart(3)}  ${stepTitle(step)}  ${step.hours === undefined ? minutesWords(step.minutes) : say('{hours} h in the oven', { hours: step.hours })}`,
    ...heatedLines(step).map((line) => `       ${line}`),
    ...step.why.split('\n').map((line) => `       ${line}`),
    ...sayCautions(step, told),
  ])
  lines.push(
    say('In all {minutes} at the bench{steps}, {cost}{value}. {optimal}', {
      minutes: minutesWords(plan.minutes),
      steps: ovenWords(plan.steps),
      cost: roughMoney(plan.cost, currency),
      value: currency === '' ? say(' in the shop’s money') : '',
      optimal: plan.optimal,
    }),
    ...(plan.materials.length > 0 ? [say('Materials:')] : []),
  )
  for (const { what, amount } of plan.materials) lines.push(`  ${amount}  ${what}`)
  if (plan.unbaked !== '') lines.push(plan.unbaked)
  if (plan.alternative !== null)
    lines.push(
      say('Another way: {differsIn}, {costsMore} more.', {
        differsIn: plan.alternative.differsIn,
        costsMore: roughMoney(plan.alternative.costsMore, currency),
      }),
    )
  if (plan.whole !== null) lines.push(wholeWorthWords(plan.whole, (amount) => roughMoney(amount, currency)))
  lines.push(plan.worth.sentence)
  for (const { ref, missing } of plan.cannot)
    lines.push(say("{ref} can't be lifted with this equipment: {missing}", { ref, missing: missing.join('; ') }))
  const done = plan.done.map(
    ({ n, outcome, ...step }) => `${String(n).padStart(3)}  ${stepTitle(step)}  ${outcomeWords[outcome]}`,
  )
  return [...plan.noLiftMends, ...done, ...lines, ...plan.changes, ...plan.notes].join('\n')
}

const outcomeWords = { done: say('done'), failed: say('failed'), skipped: say('skipped') } as const

const heatedLines = ({ settings, ...step }: PlanBody['steps'][number]): string[] =>
  settings === null ? [] : heatLines({ setting: settings, ...step })

/** A caution stands in full where it is first met; later steps name the steps that have it. */
function sayCautions({ n, cautions }: PlanBody['steps'][number], told: Map<string, number>): string[] {
  const known = [...new Set(cautions.flatMap((caution) => told.get(caution) ?? []))].toSorted((a, b) => a - b)
  const fresh = cautions.filter((caution) => !told.has(caution))
  for (const caution of fresh) told.set(caution, n)
  return [
    ...fresh.map((caution) => say('       Caution: {caution}', { caution })),
    ...(known.length > 0
      ? [say('       Caution: those of step {known} hold here too.', { known: joined(known.map(String)) })]
      : []),
  ]
}

function ovenWords(steps: readonly { readonly hours?: number | undefined }[]): string {
  const hours = steps.reduce((sum, step) => sum + (step.hours ?? 0), 0)
  return hours === 0 ? '' : say(' and {hours} h in the oven', { hours: numberWords(hours) })
}
