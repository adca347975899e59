/** The live plan: the log so far changes heat counts, findings and what is left, and the rest is planned anew. */
import { bad, faultsFromZod, good, type Result, say } from '../../base/index.ts'
import { applyLog } from './apply-log.ts'
import { changesBetween } from './changes.ts'
import type { PlanInput } from '../input.ts'
import { type BenchTick, passLogSchema } from './log.ts'
import { peaksSaid } from './logged-peaks.ts'
import { planRework } from '../plan.ts'
import type { PlanAnswer } from '../result.ts'
import { resolveShopSettings } from '../settings.ts'

export interface Replanned {
  readonly answer: PlanAnswer
  /** The question as it stands after the log: what `planRework` was asked. */
  readonly input: PlanInput
  /** What is different from the plan before the log, in sentences. */
  readonly changes: readonly string[]
}

/**
 * @param log untrusted: parsed by `passLogSchema`. Refuses what `planRework` refuses, and entries that do not fit.
 * @param ticks bench work that was ticked off
 */
export function replan(input: PlanInput, log: unknown, ticks: readonly BenchTick[] = []): Result<Replanned> {
  const parsed = passLogSchema.safeParse(log)
  if (!parsed.success)
    return bad(
      ...faultsFromZod(parsed.error, log).map((fault) => ({ ...fault, path: fault.path.replace('$', '$.log') })),
    )
  const settings = resolveShopSettings(input.settings)
  if (!settings.ok) return settings
  const before = planRework(input)
  if (!before.ok) return before
  const now = applyLog(input, parsed.data, settings.value, ticks)
  if (!now.ok) return now
  if (now.value.lift.length === 0)
    return bad({
      path: '$.log',
      found: say('every part of the list skipped'),
      expected: say('at least one part that is still to be lifted or refitted'),
      todo: say('There is nothing left to plan; put a part on the lift list to go on.'),
    })
  const answer = planRework(now.value)
  if (!answer.ok) return answer
  const changes = changesBetween(before.value, answer.value, parsed.data)
  const notes = [...peaksSaid(input.model, parsed.data), ...answer.value.notes]
  return good({ answer: { ...answer.value, notes }, input: now.value, changes })
}
