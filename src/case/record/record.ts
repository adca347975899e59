/** A case as a record, for the one who worked on it, for the one who owns the card, or to stay with the card; pure, so the same input gives the same record. */
import type { RecordDocument } from './document.ts'
import type { RecordInput } from './input.ts'
import { invoicePage } from '../invoice/page.ts'
import { quotePage } from '../quote/page.ts'
import { ownersRecord } from './owner/owner.ts'
import { intakeSlip } from './slip.ts'
import { techniciansRecord } from './technician/technician.ts'

/** The record for the audience that the input names. */
export function recordOf(input: RecordInput): RecordDocument {
  switch (input.audience) {
    case 'owner':
      return ownersRecord(input)
    case 'technician':
      return techniciansRecord(input)
    case 'intake':
      return intakeSlip(input)
    case 'quote':
      return quotePage(input)
    case 'invoice':
      return invoicePage(input)
  }
}
