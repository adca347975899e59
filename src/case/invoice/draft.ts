/** The lines that a case's work comes to: hours at the shop's rate, parts and materials; of a declined job the agreed fee. */
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
  if (isDeclined(caseFile) && fee !== undefined)
    return linesOf([{ what: say('Diagnosis, as agreed'), quantity: 1, price: fee }])
  const { minutes: noted, usedParts } = caseFile.handBack
  const minutes = Math.round(noted ?? loggedWork(caseFile, model, exposures).minutes)
  const rate = settingsOf(caseFile)?.money.hourlyRate ?? 0
  const parts = usedParts.length > 0 ? usedParts : partsDraft(caseFile, model, undefined)
  return linesOf([
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
