/** How right Liftmap was in this shop: what it had said when the list was acted on, held against what was found. */
import type { ClosedCard, WorkedPart } from './card.ts'
import type { Foretold } from './schema.ts'
import { type ShareInterval, type Share, wilsonInterval } from './shares.ts'
import { type TrueCause, trueCauses } from './truth.ts'

export const RELIABILITY_BINS = 10

export interface Judged extends Share {
  /** At 95 %; undefined where nothing was tried. */
  readonly interval: ShareInterval | undefined
}

export interface ReliabilityBin extends Judged {
  /** Bounds of what was said, `from` inside, `to` outside but for the last. */
  readonly from: number
  readonly to: number
  /** Mean of what was said; undefined in an empty bin. */
  readonly said: number | undefined
}

export interface MonthOfCards {
  /** As `2026-03`; `undefined` gathers cards without a day. */
  readonly month: string | undefined
  readonly cards: number
  readonly first: Share
  readonly firstThree: Share
}

export interface Accuracy {
  /** Closed cards of which everything is known and of which it was kept what had been said. */
  readonly cards: number
  /** The story that was given first named the true causes, and no other. */
  readonly first: Judged
  readonly firstThree: Judged
  /** Of the parts on the list: those at which nothing was wrong. */
  readonly needless: Judged
  /** Of the parts that needed lifting: those that were not on the list. */
  readonly missed: Judged
  /** Of the parts that were lifted, listed or not: those at which nothing was wrong. */
  readonly liftedForNothing: Judged
  readonly reliability: readonly ReliabilityBin[]
  /** Mean of |said − was|, weighted by how many parts stand in each bin; undefined without any. */
  readonly calibrationError: number | undefined
  readonly months: readonly MonthOfCards[]
}

interface Told {
  readonly card: ClosedCard
  readonly foretold: Foretold
}

/**
 * Shares over the cards on which something had been foretold and what was wrong is known. Without any such card every
 * share is one of no tries.
 */
export function accuracyOf(cards: readonly ClosedCard[]): Accuracy {
  const told = cards.flatMap((card): Told[] =>
    card.known && card.foretold !== undefined ? [{ card, foretold: card.foretold }] : [],
  )
  const parts = told.flatMap(partsTold)
  const reliability = binsOf(parts)
  const tried = parts.length
  return {
    cards: told.length,
    first: judged(storyShare(told, 1)),
    firstThree: judged(storyShare(told, 3)),
    needless: judged(
      shareOf(
        parts.filter(({ listed }) => listed),
        ({ needed }) => !needed,
      ),
    ),
    missed: judged(
      shareOf(
        parts.filter(({ needed }) => needed),
        ({ listed }) => !listed,
      ),
    ),
    liftedForNothing: judged(liftedShare(told)),
    reliability,
    calibrationError:
      tried === 0
        ? undefined
        : reliability.reduce((sum, { said, hits, tries }) => sum + Math.abs((said ?? 0) * tries - hits), 0) / tried,
    months: monthsOf(told),
  }
}

const judged = (share: Share): Judged => ({ ...share, interval: wilsonInterval(share) })

function shareOf<T>(items: readonly T[], isHit: (item: T) => boolean): Share {
  return { hits: items.filter(isHit).length, tries: items.length }
}

/** Cards at which something was wrong: where nothing was, no story could be the true one. */
function storyShare(told: readonly Told[], stories: number): Share {
  const wrong = told.filter(({ card }) => trueCauses(card).length > 0)
  return shareOf(wrong, ({ card, foretold }) => {
    const causes = trueCauses(card)
    return foretold.stories.slice(0, stories).some((story) => tellsAll(story.causes, causes))
  })
}

type ToldCause = Foretold['stories'][number]['causes'][number]

/** Each true cause is told, and each told cause is one of the true ones. */
const tellsAll = (told: readonly ToldCause[], causes: readonly TrueCause[]): boolean =>
  told.length > 0 &&
  causes.every((cause) => told.some((each) => isSame(each, cause))) &&
  told.every((each) => causes.some((cause) => isSame(each, cause)))

/** By what a bench can tell apart: a core's own fault and its joints count as one, and so do a spill told of and one found. */
function isSame({ kind, at, refs }: ToldCause, cause: TrueCause): boolean {
  switch (cause.kind) {
    case 'core':
    case 'core-patch':
      return kind.startsWith('core')
    case 'spill':
      return kind === 'spill' || kind === 'unreported-spill'
    case 'slip':
      return kind === 'slip'
    case 'rail':
    case 'rail-branch':
      return (
        kind.startsWith('rail') && (cause.rails.length === 0 || cause.rails.some((name) => at.endsWith(`rail ${name}`)))
      )
    case 'corridor':
      return kind === 'corridor' && (cause.lanes.length === 0 || cause.lanes.includes(at))
    case 'joints':
    case 'command-joints':
      return (kind === 'joints' || kind === 'command-joints') && refs.some((ref) => cause.parts.includes(ref))
    default:
      return kind === cause.kind && refs.some((ref) => cause.parts.includes(ref))
  }
}

interface PartTold {
  readonly said: number
  readonly listed: boolean
  readonly needed: boolean
}

const needed = ({ was }: WorkedPart): boolean => was === 'bad' || was === 'joints' || was === 'under'

/** Of a repaired card every part that nobody blamed was fine, for it works with it; else only what was looked into counts. */
function partsTold({ card, foretold }: Told): PartTold[] {
  const listed = new Set(foretold.lift)
  const said = new Map(foretold.parts.map(({ ref, probability }) => [ref, probability]))
  const worked = new Map(card.parts.map((part) => [part.ref, part]))
  const refs = new Set([...said.keys(), ...listed, ...worked.keys()])
  return [...refs].flatMap((ref): PartTold[] => {
    const part = worked.get(ref)
    if (part === undefined && !card.repaired) return []
    if (part?.was === 'unknown') return []
    return [{ said: said.get(ref) ?? 0, listed: listed.has(ref), needed: part !== undefined && needed(part) }]
  })
}

function liftedShare(told: readonly Told[]): Share {
  const lifted = told.flatMap(({ card }) => card.parts.filter(({ lifts, was }) => lifts > 0 && was !== 'unknown'))
  return shareOf(lifted, (part) => !needed(part))
}

function binsOf(parts: readonly PartTold[]): ReliabilityBin[] {
  return Array.from({ length: RELIABILITY_BINS }, (_, i) => {
    const inside = parts.filter(({ said }) => Math.min(RELIABILITY_BINS - 1, Math.floor(said * RELIABILITY_BINS)) === i)
    const share = shareOf(inside, (part) => part.needed)
    const said = inside.length === 0 ? undefined : inside.reduce((sum, part) => sum + part.said, 0) / inside.length
    return { from: i / RELIABILITY_BINS, to: (i + 1) / RELIABILITY_BINS, said, ...judged(share) }
  })
}

function monthsOf(told: readonly Told[]): MonthOfCards[] {
  const months = [...new Set(told.map(({ card }) => card.month))].toSorted((a, b) =>
    sortKey(a).localeCompare(sortKey(b)),
  )
  return months.map((month) => {
    const inside = told.filter(({ card }) => card.month === month)
    return { month, cards: inside.length, first: storyShare(inside, 1), firstThree: storyShare(inside, 3) }
  })
}

/** Cards without a day come last. */
const sortKey = (month: string | undefined): string => month ?? '~'
