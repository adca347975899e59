/** What the runs before and after the work say about lanes, and the proof that a record speaks of. */
import type { LaneTally, Tally } from '../../report/index.ts'
import { type Proof, proofOf } from '../proof.ts'
import type { RecordInput } from './input.ts'

export const lanesIn = (tally: Tally | undefined, state: LaneTally['state']): string[] =>
  (tally?.parts ?? []).flatMap(({ channels }) =>
    channels.flatMap(({ lanes }) => lanes.filter((lane) => lane.state === state).map(({ id }) => id)),
  )

export const proofIn = (input: RecordInput): Proof => proofOf(input)
