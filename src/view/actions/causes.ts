/** What was wrong with the card, confirmed at hand-back; and what had been foretold, kept when the list is acted on. */
import { type Case, foretoldOf } from '../../case/index.ts'
import { evidenceFrom } from '../../plan/index.ts'
import type { CausesFound, Foretold } from '../../rehearsal/index.ts'
import { calls } from '../../workers/contract.ts'
import type { Desk } from '../stores/desk.ts'
import { inputOf, questionOf } from './assess.ts'
import { editCase } from './edit.ts'

/** As it stands on the screen now; undefined while it is being worked out. */
export function foretoldNow(desk: Desk): Foretold | undefined {
  const { state, assessment } = desk.results.getState()
  const question = questionOf(desk)
  if (state !== 'done' || assessment === undefined || question === undefined) return undefined
  return foretoldOf(assessment.suspects, question.tally)
}

/** With the first pass of the log comes what had been foretold until then; without any pass there is nothing to keep. */
export function keptWithLog(present: Case, passes: Case['passes'], foretold: Foretold | undefined): Case {
  if (passes.length === 0) {
    const { foretold: _, ...rest } = present
    return rest
  }
  return present.passes.length > 0 || foretold === undefined ? present : { ...present, foretold }
}

export const editCauses = (desk: Desk, causes: CausesFound, joinKey?: string): void =>
  editCase(desk, (c) => ({ ...c, handBack: { ...c.handBack, causes } }), joinKey)

/**
 * Confirming keeps what had been foretold too, where that was not kept when the first pass was noted. It comes a moment
 * later and is no step of undo: nobody entered it.
 */
export async function settleCauses(desk: Desk, causes: CausesFound): Promise<void> {
  editCauses(desk, causes)
  const { id, history } = desk.cases.getState()
  if (history?.present.foretold !== undefined) return
  const foretold = await foretoldBeforeWork(desk)
  if (foretold === undefined) return
  desk.cases.setState((now) => {
    if (now.id !== id || now.history === undefined || now.history.present.foretold !== undefined) return {}
    return { history: { ...now.history, present: { ...now.history.present, foretold } } }
  })
}

/** Without the log, what was found under lifted parts and the runs after the work: all of it came after the list. */
async function foretoldBeforeWork(desk: Desk): Promise<Foretold | undefined> {
  const present = desk.cases.getState().history?.present
  const question = questionOf(desk)
  if (present === undefined || question === undefined) return undefined
  const untouched = present.passes.length === 0 && question.retest === undefined
  const shown = untouched ? foretoldNow(desk) : undefined
  if (shown !== undefined) return shown
  const made = new Set(evidenceFrom(question.board, present.passes).map(({ id }) => id))
  const marks = question.marks.filter(({ id }) => !made.has(id))
  try {
    const judged = await desk.reader.call(
      calls.assess,
      inputOf({ ...question, marks, passes: [], retest: undefined, earlier: [], untested: false }),
    )
    return judged.ok ? foretoldOf(judged.value.suspects, question.tally) : undefined
  } catch {
    // what fails in the worker is told by the reasoning itself; without it nothing is foretold
    return undefined
  }
}
