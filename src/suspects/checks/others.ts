/** What may be wrong with a card that no lift puts right: rails and their branches, tracks, what a tool hit. */
import type { CauseAt } from '../result.ts'
import type { Card } from '../sum/card.ts'
import { ownMarginals } from '../sum/own-marginals.ts'
import type { Posterior } from '../sum/posterior.ts'

export interface Other {
  readonly at: CauseAt
  readonly probability: number
}

const LEAST = 0.02
const MOST = 4

export function othersOf({ values }: Card, posterior: Posterior): Other[] {
  const shared = posterior.variables.flatMap(({ kind, states, touching, labels, labelShare }, number) => {
    if (kind !== 'power' && kind !== 'slip') return []
    const masses = posterior.states[number]
    const free = touching.filter((state) => (states[state]?.lifts ?? -1) < 0)
    return labels.map((at, label): Other => {
      return {
        at,
        probability: free.reduce((sum, state) => sum + (masses?.[state] ?? 0) * labelShare(state, label), 0),
      }
    })
  })
  const tracks = ownMarginals(posterior, values).flatMap(({ cause, probability }): Other[] =>
    cause.kind === 'corridor' ? [{ at: cause.at, probability }] : [],
  )
  return [...shared, ...tracks]
    .filter(({ probability }) => probability >= LEAST)
    .toSorted((a, b) => b.probability - a.probability)
    .slice(0, MOST)
}
