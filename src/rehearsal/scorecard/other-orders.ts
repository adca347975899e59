/** The same technician with another choice of checks, for comparison: by chance, in a fixed order, or none at all. */
import type { SimulatedCard } from '../simulator/types.ts'
import { lasting } from '../simulator/draw.ts'
import type { Action, Asker, Known } from './ask.ts'
import type { Proposer } from './technician.ts'

/** Somebody who picks checks badly gives up after so many and lifts. */
const MOST_CHECKS = 8

const asked = ({ checks, measurements, areas }: Known): number => checks.length + measurements.length + areas.length

/** Checks whenever a check is proposed, but another one: whichever `choose` takes of those that could be made. */
function otherwise(asker: Asker, choose: (open: readonly Action[], turn: number) => Action | undefined): Proposer {
  let turns = 0
  return (known) => {
    if (turns >= MOST_CHECKS) return asker.proposeWithoutChecks(known)
    const action = asker.propose(known)
    if (action.kind !== 'check') return action
    turns++
    return choose(asker.open(known), asked(known)) ?? asker.proposeWithoutChecks(known)
  }
}

/** Each open check with the same chance, by the card's own seed: the same card gives the same order. */
export const byChance = (asker: Asker, { seed }: SimulatedCard): Proposer =>
  otherwise(asker, (open, turn) => open[Math.floor(lasting(seed, `turn ${turn}`) * open.length)])

/** As the catalogue stands: rails, stages, edges, then the rest. */
export const inFixedOrder = (asker: Asker): Proposer => otherwise(asker, (open) => open[0])

/** Asks nothing and lifts what is proposed. */
export const withoutChecks =
  (asker: Asker): Proposer =>
  (known) =>
    asker.proposeWithoutChecks(known)
