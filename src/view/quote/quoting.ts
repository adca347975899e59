/** The quote on the desk: its range asked of the cores, given, answered, and gone past with a reason. */
import { good, type Result } from '../../base/index.ts'
import {
  type Case,
  dayAfter,
  declinedHandBack,
  intakeOf,
  type Quote,
  quoteRange,
  type QuoteRange,
  spentSoFar,
  waitingHours,
  worseDraft,
} from '../../case/index.ts'
import type { RemedyProposal } from '../../suspects/index.ts'
import { calls } from '../../workers/contract.ts'
import { inputOf, questionOf } from '../actions/assess.ts'
import { today } from '../actions/clock.ts'
import { editCase } from '../actions/edit.ts'
import type { Desk } from '../stores/desk.ts'

/** Undefined where nothing can be reckoned: no run that fails, or work that has to be tested first. */
export async function askForRange(desk: Desk): Promise<Result<QuoteRange | undefined>> {
  const question = questionOf(desk)
  const present = desk.cases.getState().history?.present
  if (question === undefined || present === undefined) return { ok: true, value: undefined }
  const next = proposalNow(desk) ?? (await desk.reader.call(calls.nextSteps, inputOf(question)))
  if (!next.ok) return next
  const { exposures, answer } = desk.plan.getState()
  const { hoursADay, partsDays, taxPct } = desk.shopDetails.getState()
  const { money, minutes } = spentSoFar(present, question.board, exposures)
  const waiting = waitingHours(present, answer?.best.steps)
  const terms = { hoursADay, partsDays, taxPct, spent: { money, minutes }, waitingHours: waiting }
  return { ok: true, value: quoteRange(next.value.proposal.endings ?? [], terms) }
}

/** What stations show that tell what is proposed, where it is of this very assessment: it is not reckoned twice. */
function proposalNow(desk: Desk): Result<{ readonly proposal: RemedyProposal }> | undefined {
  const { state, assessment } = desk.results.getState()
  const { state: asked, proposal, follows } = desk.nextChecks.getState()
  const isOfNow = state === 'done' && asked === 'done' && assessment !== undefined && follows === assessment
  return isOfNow && proposal !== undefined ? good({ proposal }) : undefined
}

/** What is told an owner is whole: down below, up above. Entered by hand it claims no chance. */
export function giveQuote(desk: Desk, range: Omit<QuoteRange, 'works'> & { readonly works?: number }): void {
  const { letterhead, taxPct, quoteDays, currency } = desk.shopDetails.getState()
  const on = today()
  editCase(desk, (c) => {
    const inCurrency = c.handBack.currency === '' ? currency : c.handBack.currency
    const quote: Quote = {
      on,
      low: Math.floor(range.low),
      expected: Math.round(range.expected),
      high: Math.ceil(range.high),
      daysLow: range.daysLow,
      daysHigh: range.daysHigh,
      ...(range.works === undefined ? {} : { works: range.works }),
      taxPct,
      validUntil: dayAfter(on, quoteDays),
      ifWorse: worseDraft(range.works, intakeOf(c).diagnosisFee, inCurrency),
      letterhead,
      answer: 'open',
      answeredBy: '',
      pastLimit: [],
    }
    return { ...c, quote, handBack: { ...c.handBack, currency: inCurrency } }
  })
}

export const editQuote = (desk: Desk, change: Partial<Quote>): void =>
  editCase(
    desk,
    (c) => (c.quote === undefined ? c : { ...c, quote: { ...c.quote, ...change } }),
    `quote ${Object.keys(change).join()}`,
  )

/** Takes out one of the fields that may be missing. */
export const clearInQuote = (desk: Desk, field: 'limit' | 'validUntil' | 'answeredOn' | 'how'): void =>
  editCase(
    desk,
    (c) => {
      if (c.quote === undefined) return c
      const quote = { ...c.quote }
      delete quote[field]
      return { ...c, quote }
    },
    `quote ${field}`,
  )

export const takeBackQuote = (desk: Desk): void =>
  editCase(desk, (c) => {
    const { quote: _, ...rest } = c
    return rest
  })

/** Agreed: up to the higher price, until another limit is entered. Declined: the hand-back is filled in. */
export function answerQuote(desk: Desk, answer: Quote['answer']): void {
  editCase(desk, (c) => {
    if (c.quote === undefined) return c
    const answered = { ...c, quote: answeredQuote(c.quote, answer) }
    return answer === 'declined' ? { ...answered, handBack: declinedHandBack(answered, today()) } : answered
  })
}

function answeredQuote(quote: Quote, answer: Quote['answer']): Quote {
  const { answeredOn: on, ...rest } = quote
  if (answer === 'open') return { ...rest, answer }
  const answered = { ...rest, answer, answeredOn: on ?? today() }
  return answer === 'agreed' ? { ...answered, limit: quote.limit ?? quote.high } : answered
}

/** Why work goes, or went, past the limit. */
export const noteReason = (desk: Desk, limit: number, spent: number, reason: string): void =>
  editCase(desk, (c: Case) =>
    c.quote === undefined
      ? c
      : { ...c, quote: { ...c.quote, pastLimit: [...c.quote.pastLimit, { limit, spent, on: today(), reason }] } },
  )
