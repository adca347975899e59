/** What figures are explained from: the case as it stands, and what the cores last answered about it. */
import { roughMoney } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type Assessment, assumptionsInForce, type Case, type Proof, settingsOf } from '../../case/index.ts'
import type { PlanAnswer, ShopSettings } from '../../plan/index.ts'
import type { Tally } from '../../report/index.ts'
import { type Assumptions, type RankedChecks, type RemedyProposal, withAssumptions } from '../../suspects/index.ts'
import type { HeatLook } from '../stores/planStore.ts'
import type { Desk } from '../stores/desk.ts'
import { currencyOf } from '../stores/currency.ts'

export interface Known {
  readonly present: Case
  readonly model: BoardModel
  readonly tally: Tally | undefined
  readonly assessment: Assessment | undefined
  readonly checks: RankedChecks | undefined
  readonly proposal: RemedyProposal | undefined
  readonly answer: PlanAnswer | undefined
  readonly look: HeatLook | undefined
  readonly proof: Proof | undefined
  /** Priors, risks and trust in force: the shipped ones, the shop's record over them, the case's own over both. */
  readonly assumptions: Assumptions
  /** Prices and limits in force. */
  readonly shop: ShopSettings
  readonly money: (amount: number) => string
}

/** Undefined while no case lies on the desk. */
export function knownOf(desk: Desk): Known | undefined {
  const { history, board } = desk.cases.getState()
  const present = history?.present
  if (present === undefined || board === undefined) return undefined
  const shop = settingsOf(present)
  if (shop === undefined) return undefined
  const { byId } = desk.readings.getState()
  const { reports } = present
  const tally = desk.tallyOfCase(board.model, reports, byId)
  const { answer, look } = desk.plan.getState()
  const { ranked, proposal } = desk.nextChecks.getState()
  const currency = currencyOf(present, desk.shopDetails.getState())
  return {
    present,
    model: board.model,
    tally,
    assessment: desk.results.getState().assessment,
    checks: ranked,
    proposal,
    answer,
    look,
    proof: desk.proofOfCase(board.model, reports, byId, tally),
    assumptions: withAssumptions(assumptionsInForce(present)),
    shop,
    money: (amount) => roughMoney(amount, currency),
  }
}
