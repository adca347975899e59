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
 * Nobody sees from above which balls were open. Joints of a memory part are those of a command field behind which every lane
 * failed, and those of each failing lane beside it. A part that was fine or unknown gives no cause.
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
    return jointsOf(part)
  }
  const made = [...card.railParts].filter(([, { stages }]) => stages.includes(ref))
  if (made.length === 0) return []
  const fed = made.flatMap(([, { feeds }]) => feeds)
  return [{ kind: 'power-stage', ...at, parts: [ref, ...fed], rails: made.map(([name]) => name) }]
}

/** A command field with one lane alone behind it can't be told from that lane's own joints, which are likelier. */
function jointsOf({ ref, failing, commandLanes }: WorkedPart): TrueCause[] {
  const whole = commandLanes.filter((lanes) => lanes.length > 1 && lanes.every((lane) => failing.includes(lane)))
  const behind = [...new Set(whole.flat())]
  const alone = failing.filter((lane) => !behind.includes(lane))
  const at = { parts: [ref], rails: [] }
  return [
    ...(behind.length > 0 ? [{ kind: 'command-joints' as const, places: 1, lanes: behind, ...at }] : []),
    ...(alone.length > 0 || behind.length === 0
      ? [{ kind: 'joints' as const, places: Math.max(1, alone.length), lanes: alone, ...at }]
      : []),
  ]
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
