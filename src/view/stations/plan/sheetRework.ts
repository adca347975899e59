/** What the sheet draws of the plan and of the pass that is looked at. */
import type { BoardModel } from '../../../board/index.ts'
import { alloyOf, heatAssumptions } from '../../../heat/index.ts'
import type { PlanStep } from '../../../plan/index.ts'
import { type HeatView, isothermLevels, type PassView } from '../../sheet/index.ts'
import { boardAt, exposedInRun, highestC, offBefore } from './heatFacts.ts'
import type { PlanState } from '../../stores/planStore.ts'
import { passViews } from './planWords.ts'

export const passesOf = ({ answer, litStep, look }: Pick<PlanState, 'answer' | 'litStep' | 'look'>): PassView[] =>
  answer === undefined ? [] : passViews(answer, look?.n ?? litStep)

/** What of a run's view stays the same at all its moments. */
export type RunView = Omit<HeatView, 'boardC'>

/** @param steps the plan in force: what it has off at the step that is looked at is not exposed */
export function runViewOf(model: BoardModel, look: PlanState['look'], steps: readonly PlanStep[]): RunView | undefined {
  const run = look?.run
  if (look === undefined || run === undefined) return undefined
  const target = model.partByRef.get(look.refs[0] ?? '')
  const liquidusC = heatAssumptions.alloys[alloyOf(target?.description ?? {})].liquidusC
  return {
    setting: run.setting,
    targets: look.refs,
    grid: run.grid,
    levelsC: isothermLevels(highestC(run), liquidusC),
    liquidusC,
    exposed: exposedInRun(run, [...look.refs, ...offBefore(steps, look.n)]),
  }
}

export function heatViewOf(view: RunView | undefined, look: PlanState['look'], timeS: number): HeatView | undefined {
  const boardC = look?.run === undefined ? undefined : boardAt(look.run.frames, timeS)
  return view === undefined || boardC === undefined ? undefined : { ...view, boardC }
}
