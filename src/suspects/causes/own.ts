/** The causes that only one memory package suffers from: its die, its joints by region, its tracks to the core. */
import { type Corridor, type PlacedPart, standsOnBoard } from '../../board/index.ts'
import { type CausePlace, checkTouches } from '../checks/check-scope.ts'
import type { OwnCause } from '../network/cause.ts'
import { NEVER } from '../network/observations.ts'
import { REFIT_FAILS, refitDefect, uncuredBy } from '../remedies/figures.ts'
import { type CauseContext, dieForms, lanesOfPart, laneTouches, versionsOf } from './context.ts'

/** Causes of every package on the board, then of every corridor, in the board's order. */
export const ownCauses = (context: CauseContext): OwnCause[] => [
  ...context.model.memories.flatMap((part) => (standsOnBoard(part) ? packageCauses(context, part) : [])),
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
  /** The run from which on it is put right; where left out, as soon as its place was. */
  readonly rightFrom?: number
  /** Of what work brought in: its prior, and from which run on it can be there. */
  readonly refit?: { readonly prior: number; readonly wrongFrom: number }
}

function causeOf(context: CauseContext, { kind, at, part, lanes, q, share = 1, refit, ...draft }: Draft): OwnCause {
  const { observed, assumptions } = context
  const met: CausePlace = { kind, lanes, ...(kind === 'corridor' ? {} : { parts: [part] }) }
  const mends = kind !== 'corridor'
  const { rightFrom = observed.rightFrom(at) } = draft
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
  const die = dieForms(context, ref).flatMap((form) =>
    inVersions(context, { kind: 'die', part: ref, q: fails.die, ...form }),
  )
  const regions = model.regions.filter((region) => region.part === ref && region.lanes.length > 0)
  const commandMm2 = regions.reduce((sum, { role, areaMm2 }) => sum + (role === 'command' ? areaMm2 : 0), 0)
  const joints = regions.flatMap((region) => {
    const kind = region.role === 'command' ? 'command-joints' : 'joints'
    const q = region.role === 'power' ? fails['power-region'] : fails[kind]
    const share = kind === 'command-joints' && commandMm2 > 0 ? region.areaMm2 / commandMm2 : 1
    return inVersions(context, { kind, at: region.id, part: ref, lanes: region.lanes, q, share })
  })
  return [...die, ...joints, ...refitCauses(context, ref)]
}

/**
 * A bad die goes back on with new balls and is as bad as before: only a new part puts it right, all else any refit does; now
 * and then it does not.
 */
function inVersions(context: CauseContext, draft: Draft): OwnCause[] {
  const { observed } = context
  const { kind, part, share = 1 } = draft
  const runs = kind === 'die' ? observed.replacedBefore(part) : observed.refittedBefore(part)
  const { die, joints } = uncuredBy(context.assumptions)
  return versionsOf(runs, kind === 'die' ? die : joints).map(({ share: of, rightFrom }) =>
    causeOf(context, { ...draft, share: share * of, rightFrom }),
  )
}

/** What each refit may have brought in: a bridge, an open joint, a part that sits turned. */
function refitCauses(context: CauseContext, ref: string): OwnCause[] {
  const refitted = context.observed.refittedBefore(ref)
  const lanes = lanesOfPart(context.model, ref)
  return refitted.map((wrongFrom, at) => {
    const rightFrom = refitted[at + 1] ?? NEVER
    const refit = { prior: refitDefect('memory'), wrongFrom }
    return causeOf(context, {
      kind: 'joints',
      at: `${ref} as refitted`,
      part: ref,
      lanes,
      q: REFIT_FAILS,
      refit,
      rightFrom,
    })
  })
}

function corridorCauses(context: CauseContext, { lane }: Corridor): OwnCause[] {
  const part = context.model.laneById.get(lane)?.part
  if (part === undefined) return []
  return [causeOf(context, { kind: 'corridor', at: lane, part, lanes: [lane], q: context.assumptions.fails.corridor })]
}
