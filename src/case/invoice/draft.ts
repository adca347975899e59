/** The lines that a case's work comes to: the agreed fee, hours at the shop's rate, parts and materials; where it did not help, what was quoted for that. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Exposure } from '../../heat/index.ts'
import { isDeclined } from '../quote/declined.ts'
import { loggedWork, settingsOf } from '../quote/spent.ts'
import { partsDraft } from '../record/drafts.ts'
import type { Case } from '../schema.ts'
import { type InvoiceLine, invoiceLineSchema } from './schema.ts'

/**
 * Minutes as noted at hand-back, else those of log and ticks; parts as noted, else new ones by the log. A price has two
 * decimals; what costs nothing is no line. Empty where nothing was done.
 */
export function draftLines(
  caseFile: Case,
  model: BoardModel,
  exposures: readonly Pick<Exposure, 'target' | 'minutes'>[] = [],
): InvoiceLine[] {
  const fee = caseFile.intake?.diagnosisFee
  const { minutes: noted, usedParts, outcome } = caseFile.handBack
  const diagnosis = { what: say('Diagnosis, as agreed'), quantity: 1, price: fee ?? 0 }
  // a quote says what is paid where the work does not help: the fee, and no hours (`worseDraft`)
  const didNotHelp = outcome === 'not repaired' || outcome === 'not worth repairing'
  if (fee !== undefined && (isDeclined(caseFile) || didNotHelp)) return linesOf([diagnosis])
  const minutes = Math.round(noted ?? loggedWork(caseFile, model, exposures).minutes)
  const rate = settingsOf(caseFile)?.money.hourlyRate ?? 0
  const parts = usedParts.length > 0 ? usedParts : partsDraft(caseFile, model, undefined)
  return linesOf([
    diagnosis,
    { what: say('Work at the bench'), unit: 'minutes', quantity: minutes, price: rate },
    ...parts.map(({ what, count, price }) => ({ what, quantity: count, price })),
  ])
}

const linesOf = (
  drafts: readonly { what: string; unit?: 'minutes'; quantity: number; price: number }[],
): InvoiceLine[] =>
  drafts
    .filter(({ quantity, price }) => quantity > 0 && price > 0)
    .map((draft) => invoiceLineSchema.parse({ ...draft, price: Math.round(draft.price * 100) / 100 }))
