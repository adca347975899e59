/**
 * A tool slipped or something fell: it harms what lies in its disc. Tracks there are cut or bridged one by one; a stage is
 * damaged with a severity; a small part is missed only beside itself, by the memory packages next to it that it serves.
 * Of stages and small parts at most one is taken to be harmed by one slip.
 */
import { distanceToSegment } from '../../base/index.ts'
import {
  type BoardModel,
  type Corridor,
  isSmallKind,
  partKinds,
  type PlacedPart,
  type Rail,
  standsOnBoard,
} from '../../board/index.ts'
import type { SlipMark } from '../../spill/index.ts'
import { checkTouches } from '../checks/check-scope.ts'
import type { ListedVariable, SharedState, SharedTouch } from '../network/cause.ts'
import { NEVER } from '../network/observations.ts'
import { type CauseContext, lasting, laneTouches, toLift } from './context.ts'
import { gapMm, placeWords } from './places.ts'
import { severityShares, stageReading, stageTouches, supplyTouches } from './power.ts'

/** A small part serves the packages within this distance that its rail feeds (common practice, no source). */
const SERVES_WITHIN_MM = 8

/**
 * The variable of one slip. Its states are that it cut only tracks, or one further harm each, weighed by odds; it is
 * open until somebody put it right.
 */
export function slipVariable(context: CauseContext, slip: SlipMark): ListedVariable {
  const { model, assumptions } = context
  const prior = assumptions.prior.slip
  const cut = cutTouches(context, slip)
  const hit = model.parts.filter(
    (part) => part.side === slip.side && standsOnBoard(part) && gapMm(part, slip.at) <= slip.radiusMm,
  )
  const at = { kind: 'slip', at: placeWords(model, slip.at, slip.side), refs: hit.map(({ ref }) => ref) } as const
  const met = checkTouches(context.observed.checks, metBy(context, slip, hit)).map(lasting)
  const further = furtherHarm(context, slip, hit)
  const odds = further.map(({ probability }) => (probability < 1 ? probability / (1 - probability) : 1e6))
  const total = 1 + odds.reduce((sum, value) => sum + value, 0)
  const states: SharedState[] = [
    { weight: prior / total, at, touches: [...cut, ...met], lifts: -1 },
    ...further.flatMap(({ forms }, i) =>
      forms.map(({ share, touches, lifts }) => ({
        weight: (prior * (odds[i] ?? 0) * share) / total,
        at,
        touches: [...cut, ...met, ...touches],
        lifts,
      })),
    ),
  ]
  const isOpen = context.observed.rightFrom(`slip ${slip.id}`) === NEVER
  return { kind: 'slip', isOpen, absent: 1 - prior, states }
}

function cutTouches(context: CauseContext, slip: SlipMark): SharedTouch[] {
  const cut = cutCorridors(context.model, slip).map(({ lane }) => lane)
  const rightFrom = context.observed.rightFrom(`slip ${slip.id}`)
  return laneTouches(context, cut, context.assumptions.fails['slip-on-corridor']).map((touch) => {
    return { ...touch, end: 'other', rightFrom }
  })
}

const cutCorridors = (model: BoardModel, slip: SlipMark): Corridor[] =>
  model.corridors.filter(
    (corridor) => corridor.side === slip.side && gapToPath(corridor, slip) <= slip.radiusMm + corridor.widthMm / 2,
  )

function metBy({ model }: CauseContext, slip: SlipMark, hit: readonly PlacedPart[]) {
  const refs = hit.map(({ ref }) => ref)
  const rails = model.rails.filter(({ stages, feeds }) =>
    refs.some((ref) => stages.includes(ref) || feeds.includes(ref)),
  )
  const lanes = cutCorridors(model, slip).map(({ lane }) => lane)
  return { kind: 'slip', parts: refs, lanes, rails: rails.map(({ name }) => name) } as const
}

interface Harm {
  readonly probability: number
  /** Shares sum to one. */
  readonly forms: readonly {
    readonly share: number
    readonly touches: readonly SharedTouch[]
    readonly lifts: number
  }[]
}

function furtherHarm(context: CauseContext, slip: SlipMark, hit: readonly PlacedPart[]): Harm[] {
  const { fails, evidence } = context.assumptions
  const stages = hit.filter(({ kind }) => partKinds[kind].makesPower)
  const small = hit.filter(({ kind }) => isSmallKind(kind))
  return [
    ...stages.map(({ ref }): Harm => {
      const reading = stageReading(context, [ref], evidence.stageBadIfSlip)
      const forms = severityShares(context.assumptions, 'stage').map(([severity, share]) => {
        return { share, touches: [...stageTouches(context, ref, severity), ...reading], lifts: toLift(context, ref) }
      })
      return { probability: fails['slip-on-stage'], forms }
    }),
    ...small.map((part): Harm => {
      return {
        probability: fails['slip-on-small-part'],
        forms: [{ share: 1, touches: besideTouches(context, slip, part), lifts: -1 }],
      }
    }),
  ]
}

/** What a small part that is gone or chipped does: a weak supply beside it, and now and then a short of its rail. */
function besideTouches(context: CauseContext, slip: SlipMark, part: PlacedPart): SharedTouch[] {
  const { model, assumptions, observed } = context
  const rails = model.rails.filter(({ feeds }) => feeds.includes(part.ref))
  const supplies = new Map<number, SharedTouch>()
  for (const rail of rails) {
    for (const touch of supplyTouches(
      context,
      servedBy(model, part, rail),
      'weak',
      observed.rightFrom(`slip ${slip.id}`),
    ))
      supplies.set(touch.finding, touch)
  }
  const readings = rails.flatMap(({ name }) => {
    const finding = observed.rail.get(name)
    return finding === undefined ? [] : [lasting({ finding, q: assumptions.evidence.railBadIfSmallPart })]
  })
  return [...supplies.values(), ...readings]
}

function servedBy(model: BoardModel, part: PlacedPart, { feeds }: Rail): string[] {
  const fed = model.memories.filter(({ ref }) => feeds.includes(ref))
  const near = fed.filter((memory) => gapMm(memory, part.placement.at) <= SERVES_WITHIN_MM)
  return near.map(({ ref }) => ref)
}

function gapToPath(corridor: Corridor, slip: SlipMark): number {
  let gap = Infinity
  for (let i = 1; i < corridor.path.length; i++) {
    const a = corridor.path[i - 1]
    const b = corridor.path[i]
    if (a !== undefined && b !== undefined) gap = Math.min(gap, distanceToSegment(slip.at, a, b))
  }
  return gap
}
