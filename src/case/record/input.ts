/** What a record is made from. Nothing is looked up: the day, the photos and the program's version are handed in. */
import type { BoardModel } from '../../board/index.ts'
import type { Tally } from '../../report/index.ts'
import type { Assessment } from '../assess.ts'
import type { Proof } from '../proof.ts'
import type { Rework } from '../rework.ts'
import type { Case } from '../schema.ts'
import type { Audience } from './document.ts'

export interface RecordInput {
  readonly audience: Audience
  readonly caseFile: Case
  readonly model: BoardModel
  /** Of the card as it came, and of the runs after the work. */
  readonly tally: Tally | undefined
  readonly retest: Tally | undefined
  /** The two runs beside each other; see `proofOf`. */
  readonly proof: Proof
  /** Undefined where nothing could be worked out. */
  readonly assessment: Assessment | undefined
  /** The plan of the rework, where it was worked out. */
  readonly rework?: Rework | undefined
  /** The day on which the record is made, as `YYYY-MM-DD`. */
  readonly today: string
  /** Of the program. */
  readonly version?: string
  /** Small pictures of the photos as data URLs, by photo id; photos without one are listed by name. */
  readonly photos?: ReadonlyMap<string, string>
}
