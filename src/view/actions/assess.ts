/** Asks the reasoner again whenever marks, readings or assumptions change; while the hand moves, the latest wins. */
import { type Result, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import {
  type Assessment,
  assumptionsInForce,
  type Case,
  cleanedAfter,
  type EarlierRun,
  hostAnswer,
  isUntested,
  pricesInForce,
  toldBy,
  usualPhase,
  isTakenUp,
  isWashed,
} from '../../case/index.ts'
import { isAbort } from '../../workers/client.ts'
import { type AssessInput, calls } from '../../workers/contract.ts'
import { latestWins } from '../../workers/latest.ts'
import type { Desk } from '../stores/desk.ts'
import { currencyOf } from '../stores/currency.ts'
import { powerJudgementOf } from '../stores/measuring.ts'
import { noResult } from '../stores/resultStore.ts'

const entered = [
  'marks',
  'substances',
  'assumptions',
  'ownRecord',
  'measurements',
  'leads',
  'goodReadings',
  'checks',
  'passes',
  'shop',
] as const

export interface Question extends Pick<Case, (typeof entered)[number]> {
  readonly board: BoardModel
  readonly tally: AssessInput['tally']
  readonly retest: AssessInput['retest']
  readonly earlier: readonly EarlierRun[]
  readonly untested: AssessInput['untested']
  readonly told: AssessInput['told']
  /** By the host, as the card came. */
  readonly detected: Case['powered']['enumerates']
  readonly power: AssessInput['power']
  readonly washed: AssessInput['washed']
  readonly takenUp: AssessInput['takenUp']
  readonly washedAfter: AssessInput['washedAfter']
  readonly currency: string
}

/** @returns a function that ends the watch */
export function watchForAssessment(desk: Desk): () => void {
  const ask = latestWins((input: AssessInput) => desk.reasoner.call(calls.assess, input))
  let last: Question | undefined
  const look = (): void => {
    const question = questionOf(desk)
    if (question === undefined) {
      last = undefined
      return
    }
    if (last !== undefined && sameQuestion(question, last)) return
    if (last?.board !== question.board) desk.results.setState(noResult)
    last = question
    void answer(desk, question, ask, () => last === question)
  }
  const ends = [desk.cases.subscribe(look), desk.readings.subscribe(look), desk.shopDetails.subscribe(look)]
  look()
  return () => {
    for (const end of ends) end()
  }
}

/** What there is to ask about the case on the desk; undefined while it is still opening. */
export function questionOf(desk: Desk): Question | undefined {
  const { history, board } = desk.cases.getState()
  if (history === undefined || board === undefined) return undefined
  const {
    reports,
    marks,
    substances,
    assumptions,
    ownRecord,
    measurements,
    leads,
    goodReadings,
    checks,
    passes,
    arrival,
    shop,
    powered,
  } = history.present
  if (stillOpening(desk)) return undefined
  const { byId } = desk.readings.getState()
  const tally = desk.tallyOfCase(board.model, reports, byId)
  const retest = desk.retestOfCase(board.model, reports, byId)
  const earlier = desk.earlierOfCase(board.model, reports, byId)
  const untested = isUntested(history.present)
  const told = toldBy(arrival.accident)
  const detected = powered.enumerates
  const own = { marks, substances, assumptions, ownRecord, shop, measurements, leads, goodReadings, checks, passes }
  const power = powerJudgementOf(board.model, history.present, usualPhase(history.present)).verdict
  const washed = isWashed(history.present)
  const takenUp = isTakenUp(history.present)
  const washedAfter = cleanedAfter(history.present)
  const currency = currencyOf(history.present, desk.shopDetails.getState())
  return {
    board: board.model,
    tally,
    retest,
    earlier,
    untested,
    told,
    detected,
    power,
    washed,
    takenUp,
    washedAfter,
    currency,
    ...own,
  }
}

/** What the workers are told of it: the figures of the shop's own record lie under those of the case. */
export function inputOf(question: Question): AssessInput {
  const { board, ownRecord, assumptions, shop, earlier, detected, ...input } = question
  return {
    ...input,
    checks: [...input.checks, ...hostAnswer(board, detected, input.tally !== undefined)],
    earlier: [...earlier],
    assumptions: assumptionsInForce({ ownRecord, assumptions }),
    prices: pricesInForce({ shop }),
  }
}

/** Right after opening, reports are still being read: an answer without them would only mislead. */
function stillOpening(desk: Desk): boolean {
  if (desk.results.getState().assessment !== undefined) return false
  const { byId } = desk.readings.getState()
  const reports = desk.cases.getState().history?.present.reports ?? []
  return reports.some((report) => report.table === undefined && (byId.get(report.id)?.state ?? 'reading') === 'reading')
}

const sameQuestion = (a: Question, b: Question): boolean =>
  a.board === b.board &&
  a.tally === b.tally &&
  a.retest === b.retest &&
  a.earlier === b.earlier &&
  a.untested === b.untested &&
  a.told === b.told &&
  a.detected === b.detected &&
  a.power === b.power &&
  a.washed === b.washed &&
  a.takenUp === b.takenUp &&
  a.washedAfter === b.washedAfter &&
  a.currency === b.currency &&
  entered.every((field) => a[field] === b[field])

async function answer(
  desk: Desk,
  question: Question,
  ask: (input: AssessInput) => Promise<Result<Assessment>>,
  isNewest: () => boolean,
): Promise<void> {
  const started = performance.now()
  const { id } = desk.cases.getState()
  /** Another case may lie on the same board by the time that the answer comes. */
  const isOvertaken = (): boolean =>
    desk.cases.getState().id !== id || desk.cases.getState().board?.model !== question.board
  desk.results.setState({ state: 'working' })
  try {
    const result = await ask(inputOf(question))
    if (isOvertaken()) return
    const tookMs = performance.now() - started
    // an answer that a newer question waits behind is shown, but is not yet that of the case as it is now
    const state = isNewest() ? 'done' : 'working'
    if (result.ok) desk.results.setState({ state, assessment: result.value, faults: [], tookMs })
    else desk.results.setState({ state: 'failed', assessment: undefined, faults: result.faults, tookMs })
  } catch (reason) {
    if (isAbort(reason) || isOvertaken()) return
    const found = reason instanceof Error ? reason.message : String(reason)
    const fault = {
      path: say('the reasoning'),
      found,
      expected: say('an answer'),
      todo: say('Save the case and load the page again.'),
    }
    desk.results.setState({ state: 'failed', assessment: undefined, faults: [fault] })
  }
}
