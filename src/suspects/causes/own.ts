/** The causes that only one memory package suffers from: its die, its joints by region, its tracks to the core. */
import type { Corridor, PlacedPart } from '../../board/index.ts'
import { type CausePlace, checkTouches } from '../checks/check-scope.ts'
import type { OwnCause } from '../network/cause.ts'
import { NEVER } from '../network/observations.ts'
import { REFIT_FAILS, refitDefect } from '../remedies/figures.ts'
import { type CauseContext, lanesOfPart, laneTouches } from './context.ts'

export const ownCauses = (context: CauseContext): OwnCause[] => [
  ...context.model.memories.flatMap((part) => packageCauses(context, part)),
  ...context.model.corridors.flatMap((corridor) => corridorCauses(context, corridor)),
]

interface Draft {
  readonly kind: 'die' | 'joints' | 'command-joints' | 'corridor'
  readonly at: string
  readonly part: string
  readonly lanes: readonly string[]
  readonly q: number
  /** Share of the kind's prior, where several causes divide it among them. */
  readonly share?: number
  /** Of what work brought in: its prior, and between which runs it can be there. */
  readonly refit?: { readonly prior: number; readonly wrongFrom: number; readonly rightFrom: number }
}

function causeOf(context: CauseContext, { kind, at, part, lanes, q, share = 1, refit }: Draft): OwnCause {
  const { observed, assumptions } = context
  const met: CausePlace = { kind, lanes, ...(kind === 'corridor' ? {} : { parts: [part] }) }
  const mends = kind !== 'corridor'
  const rightFrom = refit?.rightFrom ?? rightFromOf(context, kind, kind === 'corridor' ? at : part)
  return {
    kind,
    at: { kind, at, refs: [part] },
    part,
    prior: refit?.prior ?? assumptions.prior[kind] * share,
    touches: [...laneTouches(context, lanes, q), ...checkTouches(observed.checks, met)],
    lifts: mends && rightFrom === NEVER,
    rightFrom,
    wrongFrom: refit?.wrongFrom ?? 0,
  }
}

function packageCauses(context: CauseContext, { ref }: PlacedPart): OwnCause[] {
  const { model, assumptions } = context
  const { fails } = assumptions
  const die = causeOf(context, { kind: 'die', at: ref, part: ref, lanes: lanesOfPart(model, ref), q: fails.die })
  const regions = model.regions.filter((region) => region.part === ref && region.lanes.length > 0)
  const commandMm2 = regions.reduce((sum, { role, areaMm2 }) => sum + (role === 'command' ? areaMm2 : 0), 0)
  const joints = regions.map((region) => {
    const kind = region.role === 'command' ? 'command-joints' : 'joints'
    const q = region.role === 'power' ? fails['power-region'] : fails[kind]
    const share = kind === 'command-joints' && commandMm2 > 0 ? region.areaMm2 / commandMm2 : 1
    return causeOf(context, { kind, at: region.id, part: ref, lanes: region.lanes, q, share })
  })
  return [die, ...joints, ...refitCauses(context, ref)]
}

/** A bad die goes back on with new balls and is as bad as before: only a new part puts it right. */
const rightFromOf = ({ observed }: CauseContext, kind: Draft['kind'], name: string): number =>
  kind === 'die' ? observed.replacedFrom(name) : observed.rightFrom(name)

/** What each refit may have brought in: a bridge, an open joint, a part that sits turned. */
function refitCauses(context: CauseContext, ref: string): OwnCause[] {
  const refitted = context.observed.refittedBefore(ref)
  const lanes = lanesOfPart(context.model, ref)
  return refitted.map((wrongFrom, at) => {
    const refit = { prior: refitDefect('memory'), wrongFrom, rightFrom: refitted[at + 1] ?? NEVER }
    return causeOf(context, { kind: 'joints', at: `${ref} as refitted`, part: ref, lanes, q: REFIT_FAILS, refit })
  })
}

function corridorCauses(context: CauseContext, { lane }: Corridor): OwnCause[] {
  const part = context.model.laneById.get(lane)?.part
  if (part === undefined) return []
  return [causeOf(context, { kind: 'corridor', at: lane, part, lanes: [lane], q: context.assumptions.fails.corridor })]
}
