/**
 * Stacks on the core's substrate as variables: a die of the stack, all of it or one channel, or bumps under it. Nobody lifts
 * a stack from a substrate: only a new core with its stacks puts any of it right.
 */
import { type PlacedPart, standsOnBoard } from '../../board/index.ts'
import { checkTouches } from '../checks/check-scope.ts'
import type { ListedVariable, SharedState } from '../network/cause.ts'
import { NEVER } from '../network/observations.ts'
import { uncuredBy } from '../remedies/figures.ts'
import { type CauseContext, dieForms, lasting, laneTouches, versionsOf } from './context.ts'

interface Form {
  readonly kind: 'die' | 'joints' | 'command-joints'
  readonly at: string
  readonly weight: number
  readonly lanes: readonly string[]
}

/** One variable for each stack that stands on the core, in the board's order. */
export const stackVariables = (context: CauseContext): ListedVariable[] =>
  context.model.memories.flatMap((part) => (standsOnBoard(part) ? [] : [stackVariable(context, part)]))

function stackVariable(context: CauseContext, part: PlacedPart): ListedVariable {
  const { assumptions, observed } = context
  const { ref, description } = part
  const carrier = description.carriedBy ?? ''
  const forms = formsOf(context, ref)
  const total = forms.reduce((sum, { weight }) => sum + weight, 0)
  const scale = Math.max(1, total)
  const versions = versionsOf(observed.replacedBefore(carrier), uncuredBy(assumptions).die)
  const states = forms.flatMap(({ kind, at, weight, lanes }) =>
    versions.map(
      ({ share, rightFrom }): SharedState => ({
        weight: (weight * share) / scale,
        at: { kind, at, refs: [ref, carrier] },
        touches: [
          ...laneTouches(context, lanes, assumptions.fails[kind]).map((touch) => ({
            ...touch,
            end: 'other' as const,
            rightFrom,
          })),
          ...checkTouches(observed.checks, { kind, lanes, parts: [ref] }).map(lasting),
        ],
        lifts: rightFrom === NEVER ? context.partIndex(carrier) : -1,
      }),
    ),
  )
  return { kind: 'core', isOpen: false, absent: 1 - total / scale, states }
}

function formsOf(context: CauseContext, ref: string): Form[] {
  const { prior, core } = context.assumptions
  const regions = context.model.regions.filter((region) => region.part === ref && region.lanes.length > 0)
  const fields = (kind: 'joints' | 'command-joints', role: 'lane' | 'command'): Form[] => {
    const under = regions.filter((region) => region.role === role)
    const weight = (prior[kind] * core['stack-joints']) / Math.max(1, under.length)
    return under.map(({ id, lanes }) => ({ kind, at: id, weight, lanes }))
  }
  return [
    ...dieForms(context, ref).map(({ share, ...form }): Form => ({ kind: 'die', ...form, weight: prior.die * share })),
    ...fields('joints', 'lane'),
    ...fields('command-joints', 'command'),
  ]
}
