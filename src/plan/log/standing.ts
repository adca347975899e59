/** The plan as a list that stands: what was done keeps its number and stays in sight, and what a finding added is told as new. */
import { z } from 'zod'
import { type PlanStep, type StepAction, stepActions } from '../result.ts'
import { isOfTheCard } from '../steps/step-title.ts'
import type { BenchTick, PassEntry, PassLog } from './log.ts'

export const plannedRowSchema = z.strictObject({
  n: z.int().min(1).max(10_000),
  action: z.enum(stepActions),
  refs: z.array(z.string().min(1).max(120)).max(200),
  isNew: z.boolean().optional().describe('it came into the plan after the work had begun'),
})
/** A step that was in sight when something was noted, with the number that it had. */
export type PlannedRow = z.infer<typeof plannedRowSchema>

export interface PastRow {
  readonly n: number
  readonly action: StepAction
  readonly refs: readonly string[]
  readonly outcome: PassEntry['outcome']
  /** When it was noted. */
  readonly on: string | undefined
  /** Of a pass: all that was noted of it. */
  readonly pass: PassEntry | undefined
}

export interface StandingPlan {
  /** In the order in which they were noted. */
  readonly past: readonly PastRow[]
  /** What is left, in its order, each with the number that it keeps. */
  readonly open: readonly PlanStep[]
  /** Of the plan as it was begun, and neither noted nor needed any more. */
  readonly dropped: readonly PlannedRow[]
}

/**
 * A step is known again by what is done and where; a failed one is still to be done and keeps its number. New ones get numbers
 * that no other has.
 * @param planned what was in sight when something was last noted; where nothing is kept, steps are numbered as they come
 * @param steps what is left by the plan, numbered anyhow
 */
export function standing(
  planned: readonly PlannedRow[],
  steps: readonly PlanStep[],
  log: PassLog,
  ticks: readonly BenchTick[],
): StandingPlan {
  const numbers = numbering(planned)
  const past = notedInOrder(log, ticks).map((row) => {
    const n = numbers.of(row)
    if (row.outcome !== 'failed') numbers.finish(n)
    return { ...row, n }
  })
  const open = steps.map((step) => {
    const n = numbers.of(step)
    numbers.finish(n)
    const before = planned.find((row) => row.n === n)
    return { ...step, n, isNew: planned.length > 0 && (before === undefined || before.isNew === true) }
  })
  const told = new Set([...past, ...open].map(({ n }) => n))
  return { past, open, dropped: planned.filter(({ n, isNew }) => isNew !== true && !told.has(n)) }
}

/** What is kept of it for the next time something is noted. */
export const plannedRows = ({ past, open, dropped }: StandingPlan, planned: readonly PlannedRow[]): PlannedRow[] => {
  const rows = new Map(planned.map((row) => [row.n, row]))
  for (const { n, action, refs } of [...past, ...open, ...dropped])
    if (!rows.has(n)) rows.set(n, { n, action, refs: [...refs], ...(planned.length > 0 ? { isNew: true } : {}) })
  return [...rows.values()].toSorted((a, b) => a.n - b.n)
}

type Named = Pick<PlanStep, 'action' | 'refs'>

function numbering(planned: readonly PlannedRow[]): { of(step: Named): number; finish(n: number): void } {
  const finished = new Set<number>()
  const given = new Map<number, Named>(planned.map((row) => [row.n, row]))
  const isSame = (a: Named, b: Named): boolean =>
    a.action === b.action && (isOfTheCard(a.action) || a.refs.some((ref) => b.refs.includes(ref)))
  return {
    of: (step) => {
      const known = [...given].find(([n, row]) => !finished.has(n) && isSame(row, step))?.[0]
      const n = known ?? Math.max(0, ...given.keys()) + 1
      if (known === undefined) given.set(n, step)
      return n
    },
    finish: (n) => void finished.add(n),
  }
}

/** Passes, and what was ticked off before, between and after them. */
function notedInOrder(log: PassLog, ticks: readonly BenchTick[]): Omit<PastRow, 'n'>[] {
  const after = (passes: number): Omit<PastRow, 'n'>[] =>
    ticks
      .filter(({ afterPasses }) => Math.min(afterPasses, log.length) === passes)
      .map(({ action, refs, outcome, on }) => ({ action, refs, outcome, on, pass: undefined }))
  return [
    ...after(0),
    ...log.flatMap((pass, i) => [
      { action: pass.action, refs: pass.refs, outcome: pass.outcome, on: pass.on, pass },
      ...after(i + 1),
    ]),
  ]
}
