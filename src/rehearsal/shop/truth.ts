/** What was wrong with a card, in the words of the causes that the suspects room knows, each with its place. */
import type { ClosedCard, WorkedPart } from './card.ts'

export interface TrueCause {
  readonly kind:
    | 'die'
    | 'joints'
    | 'command-joints'
    | 'corridor'
    | 'rail'
    | 'rail-branch'
    | 'power-stage'
    | 'core'
    | 'core-patch'
    | 'slip'
    | 'spill'
  /** How many of such places it was; more than one for joints of several regions of one part. */
  readonly places: number
  readonly parts: readonly string[]
  readonly lanes: readonly string[]
  readonly rails: readonly string[]
}

/**
 * Joints of a memory part are those of its command field where every lane of it failed, else those of each failing lane:
 * nobody sees from above which balls were open. A part that was fine or unknown gives no cause.
 */
export function trueCauses(card: ClosedCard): TrueCause[] {
  return [...card.parts.flatMap((part) => causesAtPart(card, part)), ...otherCauses(card)]
}

function causesAtPart(card: ClosedCard, part: WorkedPart): TrueCause[] {
  const { ref, kind, was, lanes, failing } = part
  const at = { places: 1, parts: [ref], lanes: failing, rails: [] }
  if (was === 'fine' || was === 'unknown') return []
  if (was === 'under') return [{ kind: 'spill', ...at }]
  if (kind === 'core')
    return [{ kind: was === 'bad' ? 'core' : 'core-patch', ...at, lanes: was === 'bad' ? lanes : failing }]
  if (kind === 'memory') {
    if (was === 'bad') return [{ kind: 'die', ...at, lanes }]
    const whole = failing.length === lanes.length && lanes.length > 1
    return [{ kind: whole ? 'command-joints' : 'joints', ...at, places: whole ? 1 : Math.max(1, failing.length) }]
  }
  const made = [...card.railParts].filter(([, { stages }]) => stages.includes(ref))
  if (made.length === 0) return []
  const fed = made.flatMap(([, { feeds }]) => feeds)
  return [{ kind: 'power-stage', ...at, parts: [ref, ...fed], rails: made.map(([name]) => name) }]
}

function otherCauses({ others, railParts, branches }: ClosedCard): TrueCause[] {
  return others.map(({ what, at }): TrueCause => {
    const named = at === undefined ? [] : [at]
    const none = { places: 1, parts: [], lanes: [], rails: [] }
    const branch = what === 'rail' ? branches.get(at ?? '') : undefined
    if (branch !== undefined) return { ...none, kind: 'rail-branch', parts: branch.feeds, rails: [branch.rail] }
    if (what === 'rail') return { ...none, kind: 'rail', parts: railParts.get(at ?? '')?.feeds ?? [], rails: named }
    if (what === 'track') return { ...none, kind: 'corridor', lanes: named }
    return { ...none, kind: what === 'slip' ? 'slip' : 'spill' }
  })
}
