/**
 * What is dear to make and the same in many tests, kept for all files that one process runs: assessors of boards, whose
 * marches from every region do not depend on a case, and what lifting a part with the usual equipment comes to. That an
 * assessor which was asked before answers like a fresh one is a law of its own (`suspects/laws`, `spill/engine`).
 */
import type { BoardModel } from '../../src/board/index.ts'
import { type Assessor, createAssessor } from '../../src/case/index.ts'
import { defaultEquipment, findSetting, type HeatRun } from '../../src/heat/index.ts'
import { value } from './heat-board.ts'

const assessors = new Map<string, Assessor>()

/** An assessor of this board, or of one that is told by the same description. */
export function assessorFor(model: BoardModel): Assessor {
  const key = JSON.stringify(model.description)
  const kept = assessors.get(key) ?? createAssessor(model)
  assessors.set(key, kept)
  return kept
}

const runs = new Map<string, HeatRun>()

/** The run that lifts a part with the usual equipment. */
export function liftOf(model: BoardModel, ref: string): HeatRun {
  const key = `${ref} ${JSON.stringify(model.description)}`
  const kept = runs.get(key) ?? foundLift(model, ref)
  runs.set(key, kept)
  return kept
}

function foundLift(model: BoardModel, ref: string): HeatRun {
  const answer = value(findSetting(model, { ref, equipment: defaultEquipment }))
  if (!('run' in answer)) throw new Error(`${ref}: ${answer.cannot.join(' ')}`)
  return answer.run
}
