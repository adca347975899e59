/** What may be wrong with a card that no lift puts right: rails and their branches, tracks, what a tool hit. */
import { railOf } from '../causes/places.ts'
import type { CauseAt, Findings } from '../result.ts'
import type { Card } from '../sum/card.ts'
import { ownMarginals } from '../sum/own-marginals.ts'
import type { Posterior } from '../sum/posterior.ts'

export interface Other {
  /** As a round names what was put right: `rail VMEM`, `slip s1`, a track by its lane. */
  readonly name: string
  readonly at: CauseAt
  readonly probability: number
}

/** Shares of what may be wrong beside the parts. */
const LEAST = 0.1
const MOST = 3

/**
 * Places at fault that are no part, the likeliest first: at most three, each at least a tenth of them all together.
 * Names are those by which they are put right; causes of one rail add up under its name.
 */
export function othersOf({ values, context }: Card, posterior: Posterior, { slips }: Pick<Findings, 'slips'>): Other[] {
  const found = new Map<string, Other>()
  const add = (name: string, at: CauseAt, probability: number): void => {
    const known = found.get(name)
    const likelier = known === undefined || known.probability < probability ? at : known.at
    found.set(name, { name, at: likelier, probability: probability + (known?.probability ?? 0) })
  }
  let slip = 0
  for (const [number, { kind, isOpen, states, touching, labels, labelShare }] of posterior.variables.entries()) {
    const mark = kind === 'slip' ? slips[slip++] : undefined
    if (!isOpen) continue
    const free = touching.filter((state) => (states[state]?.lifts ?? -1) < 0)
    for (const [label, at] of labels.entries()) {
      const name = kind === 'slip' ? `slip ${mark?.id ?? ''}` : railOf(at.at)
      const probability = free.reduce(
        (sum, state) => sum + (posterior.states[number]?.[state] ?? 0) * labelShare(state, label),
        0,
      )
      add(name, at, probability)
    }
  }
  for (const { cause, probability } of ownMarginals(posterior, values)) {
    const name = cause.at.at
    if (cause.kind === 'corridor' && context.observed.rightFrom(name) === Infinity) add(name, cause.at, probability)
  }
  const all = [...found.values()].toSorted((a, b) => b.probability - a.probability)
  const whole = all.reduce((sum, { probability }) => sum + probability, 0)
  return all.slice(0, MOST).filter(({ probability }) => probability >= LEAST * whole && probability > 1e-6)
}
