/** A case as a record, for the one who worked on it or for the one who owns the card; pure, so the same input gives the same record. */
import type { RecordDocument } from './document.ts'
import type { RecordInput } from './input.ts'
import { ownersRecord } from './owner/owner.ts'
import { techniciansRecord } from './technician/technician.ts'

/** The record for the audience that the input names. */
export const recordOf = (input: RecordInput): RecordDocument =>
  input.audience === 'owner' ? ownersRecord(input) : techniciansRecord(input)
