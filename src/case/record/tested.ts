/** Lanes of a tally by their state. */
import type { LaneTally, Tally } from '../../report/index.ts'

/** Ids of the lanes in one state, in the tally's order; none without a tally. */
export const lanesIn = (tally: Tally | undefined, state: LaneTally['state']): string[] =>
  (tally?.parts ?? []).flatMap(({ channels }) =>
    channels.flatMap(({ lanes }) => lanes.filter((lane) => lane.state === state).map(({ id }) => id)),
  )
