/** The plan on the screen: asked anew when what it rests on changes, passes noted, a pass's heat looked at. */
import { type Fault, type Result, say } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'
import {
  type Case,
  marksCleanedBy,
  overtakenBy,
  type Rework,
  reworkQuestion,
  type ReworkQuestion,
} from '../../../case/index.ts'
import {
  type BenchTick,
  benchTickSchema,
  evidenceFrom,
  gluedYet,
  type PassEntry,
  type PlannedRow,
  plannedRows,
  type PlanStep,
} from '../../../plan/index.ts'
import type { Foretold } from '../../../rehearsal/index.ts'
import { isAbort } from '../../../workers/client.ts'
import { calls } from '../../../workers/contract.ts'
import { latestWins } from '../../../workers/latest.ts'
import type { Desk } from '../../stores/desk.ts'
import { changesSaid } from './planChanges.ts'
import { noPlan } from '../../stores/planStore.ts'
import { foretoldNow, keptWithLog } from '../../actions/causes.ts'
import { now } from '../../actions/clock.ts'
import { editCase } from '../../actions/edit.ts'
import { MESSAGE_CORNER, sayFaults } from '../../actions/messages.ts'
import { brokenFault, closeHeat } from './askHeat.ts'
import { isAnswered, standingNow } from './standingNow.ts'

/** What must be known before there is something to plan; undefined while it is not. */
export function planQuestion(desk: Desk): ReworkQuestion | undefined {
  const present = desk.cases.getState().history?.present
  const { assessment, state } = desk.results.getState()
  if (present === undefined || assessment === undefined || state !== 'done') return undefined
  const asked = reworkQuestion(present, assessment.suspects)
  return asked.lift.length === 0 ? undefined : asked
}

/** What was planned before may be overtaken, as where the last pass was taken back and the list is empty. */
function hasNothingToPlan(desk: Desk): boolean {
  const present = desk.cases.getState().history?.present
  const { assessment, state } = desk.results.getState()
  if (present === undefined || assessment === undefined || state !== 'done') return false
  return reworkQuestion(present, assessment.suspects).lift.length === 0
}

/** While the plan's station is open, every change of lift list, equipment, prices or log is planned again. */
export function watchForPlan(desk: Desk): () => void {
  const ask = latestWins((next: Asked) => answer(desk, next))
  let asked: Asked | undefined
  let timer: ReturnType<typeof setTimeout> | undefined
  const due = (): Asked | undefined => {
    const { board } = desk.cases.getState()
    const question = desk.screen.getState().station === 'plan' ? planQuestion(desk) : undefined
    if (board === undefined || question === undefined) return undefined
    const key = JSON.stringify([question, [...question.floorLife], [...(question.replace ?? [])]])
    if (asked?.key === key && asked.model === board.model) return undefined
    return { question, model: board.model, key, abort: new AbortController() }
  }
  const look = (): void => {
    clearTimeout(timer)
    if (hasNothingToPlan(desk)) {
      asked?.abort.abort()
      asked = undefined
      if (desk.plan.getState().answer !== undefined) desk.plan.setState(noPlan)
    }
    tellBehind(desk, due() !== undefined)
    timer = setTimeout(askIfChanged, CALM_MS)
  }
  const askIfChanged = (): void => {
    const next = due()
    if (next === undefined) return
    // Solves with other equipment are of no use any more; with the same one the next plan takes them over.
    if (asked !== undefined && heatKey(asked.question) !== heatKey(next.question)) asked.abort.abort()
    asked = next
    tellBehind(desk, false)
    ask(next).catch(() => undefined)
  }
  const forget = desk.cases.subscribe((after, before) => {
    if (after.board === before.board) return
    asked?.abort.abort()
    asked = undefined
    closeHeat(desk)
    desk.plan.setState(noPlan)
  })
  const ends = [
    desk.cases.subscribe(look),
    desk.results.subscribe(look),
    desk.screen.subscribe((after, before) => {
      if (after.station !== before.station) look()
    }),
  ]
  handles.set(desk, {
    again: () => {
      asked = undefined
      look()
    },
    stop: () => {
      asked?.abort.abort()
      desk.plan.setState({ state: 'stopped', progress: undefined })
    },
  })
  look()
  return () => {
    clearTimeout(timer)
    asked?.abort.abort()
    for (const end of [forget, ...ends]) end()
  }
}

const CALM_MS = 250

function tellBehind(desk: Desk, behind: boolean): void {
  if (desk.plan.getState().behind !== behind) desk.plan.setState({ behind })
}

interface Asked {
  readonly question: ReworkQuestion
  readonly model: BoardModel
  readonly key: string
  readonly abort: AbortController
}

const heatKey = ({ equipment, shields }: ReworkQuestion): string => JSON.stringify([equipment, shields])

const handles = new WeakMap<Desk, { again(): void; stop(): void }>()

export const planAgain = (desk: Desk): void => handles.get(desk)?.again()
export const stopPlanning = (desk: Desk): void => handles.get(desk)?.stop()

async function answer(desk: Desk, { question, model, abort }: Asked): Promise<void> {
  if (abort.signal.aborted) return
  desk.plan.setState({ state: 'working', progress: undefined })
  try {
    const result = await desk.planner.ask(
      model,
      calls.planRework,
      { question },
      {
        signal: abort.signal,
        onProgress: (progress) => {
          if (!abort.signal.aborted) desk.plan.setState({ progress })
        },
      },
    )
    if (!abort.signal.aborted) take(desk, question, result)
  } catch (reason) {
    if (isAbort(reason) || abort.signal.aborted) return
    desk.plan.setState({ state: 'failed', progress: undefined, faults: [brokenFault(say('the plan'), reason)] })
  }
}

function take(desk: Desk, question: ReworkQuestion, result: Result<Rework>): void {
  if (!result.ok) {
    const { behind } = desk.plan.getState()
    desk.plan.setState({ ...noPlan, behind, state: 'failed', faults: onceEach(result.faults) })
    return
  }
  const { answer: found, exposures, changes: sinceTheLog, cannot } = result.value
  const { answer: before, askedOf, look } = desk.plan.getState()
  const { lift, passes, ticks = [] } = question
  const changes =
    before === undefined || askedOf === undefined
      ? sinceTheLog
      : changesSaid({ answer: before, ...askedOf }, { answer: found, lift, passes })
  desk.plan.setState({
    state: 'done',
    progress: undefined,
    answer: found,
    askedOf: { lift, passes, ticks },
    exposures,
    changes,
    cannot,
    faults: [],
  })
  const stays = found.best.steps.some((step) => step.n === look?.n && sameRefs(step, look.refs) && sameHeat(step, look))
  if (look !== undefined && !stays) closeHeat(desk)
}

/** Each part asks for its heat, so what is wrong with the bench comes back once a part. */
const onceEach = (faults: readonly Fault[]): Fault[] => [
  ...new Map(faults.map((fault) => [`${fault.path} ${fault.found} ${fault.expected}`, fault])).values(),
]

const sameHeat = (step: PlanStep, look: { readonly setting: object }): boolean =>
  JSON.stringify(step.setting) === JSON.stringify(look.setting)

const sameRefs = (step: PlanStep, refs: readonly string[]): boolean => step.refs.join() === refs.join()

export const lightStep = (desk: Desk, n: number | undefined): void => desk.plan.setState({ litStep: n })

/** A pass goes on the log, and what lay under the part onto the sheet: stories and lift list follow. */
export function logPass(desk: Desk, entry: PassEntry): void {
  const { board, history } = desk.cases.getState()
  const model = board?.model
  if (model === undefined) return
  const glued =
    entry.action === 'lift' && entry.outcome === 'done'
      ? gluedYet(partsOf(model, entry.refs), history?.present.ticks ?? [])
      : []
  if (glued.length > 0)
    return sayFaults(desk, MESSAGE_CORNER, say('Not noted: the glue comes first'), glued.map(stillGlued))
  const foretold = foretoldNow(desk)
  const noted = { ...entry, on: now() }
  editCase(desk, (present) => ({
    ...withEvidence(present, [...present.passes, noted], model, foretold),
    planned: stillPlanned(desk, present),
  }))
}

const partsOf = (model: BoardModel, refs: readonly string[]) => refs.flatMap((ref) => model.partByRef.get(ref) ?? [])

const stillGlued = (ref: string): Fault => ({
  path: ref,
  found: say('glue that nobody noted as broken'),
  expected: say('“Break the glue of {ref}” done before its lift', { ref }),
  todo: say('Tick that step off first; where there is no glue, say so at the part.'),
})

/** Bench work beside the passes is ticked off: done, or left out. */
export function logTick(desk: Desk, { action, refs, minutes }: PlanStep, outcome: BenchTick['outcome']): void {
  const tick = benchTickSchema.safeParse({ action, refs, minutes, outcome, afterPasses: 0, on: now() })
  if (!tick.success) return
  editCase(desk, (present) => {
    const marks = action === 'wash' || action === 'take-up' ? { marks: marksCleanedBy(action, present) } : {}
    const ticks = [...present.ticks, { ...tick.data, ...marks, afterPasses: present.passes.length }]
    return { ...present, ticks, planned: stillPlanned(desk, present) }
  })
}

/** Every step keeps the number that it has on the screen as something is noted. */
function stillPlanned(desk: Desk, present: Case): PlannedRow[] {
  const { answer: shown, askedOf } = desk.plan.getState()
  const { planned = [] } = present
  if (shown === undefined || !isAnswered(present, askedOf)) return planned
  return plannedRows(standingNow(shown, present, askedOf), planned)
}

/** Takes back what was noted last, a tick or a pass. */
export function dropLastNoted(desk: Desk): void {
  const present = desk.cases.getState().history?.present
  if (present === undefined) return
  if (isTickLast(present)) editCase(desk, (c) => unbegun({ ...c, ticks: c.ticks.slice(0, -1) }))
  else dropLastPass(desk)
}

/** With nothing noted any more the plan begins anew, and with it its numbers. */
function unbegun(present: Case): Case {
  const { planned: _, ...rest } = present
  return present.passes.length + present.ticks.length === 0 ? rest : present
}

/** Whether the last thing noted was bench work that was ticked off. */
export const isTickLast = ({ ticks, passes }: Pick<Case, 'ticks' | 'passes'>): boolean =>
  ticks.length > 0 && (ticks.at(-1)?.afterPasses ?? 0) >= passes.length

function dropLastPass(desk: Desk): void {
  const model = desk.cases.getState().board?.model
  if (model !== undefined) editCase(desk, (c) => unbegun(withEvidence(c, c.passes.slice(0, -1), model)))
}

/** Marks that the log made are made anew from it; all others stay as they are. */
function withEvidence(present: Case, passes: Case['passes'], model: BoardModel, foretold?: Foretold): Case {
  const made = new Set(evidenceFrom(model, present.passes).map(({ id }) => id))
  const own = present.marks.filter(({ id }) => !made.has(id))
  const kept = keptWithLog(present, passes, foretold)
  const reports = overtakenBy(kept.reports, passes.length)
  return { ...kept, passes, reports, marks: [...own, ...evidenceFrom(model, passes)] }
}
