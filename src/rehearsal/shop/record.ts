/** The shop's record: its own counts and those of others, and what they make of the shipped figures. */
import { type AssumptionOverrides, assumptionsSchema } from '../../suspects/index.ts'
import type { ClosedCard } from './card.ts'
import { countsOf } from './count-card.ts'
import { addCounts, type Counts, noCounts } from './counts.ts'
import { type Figure, isOfAnyCard, isOfEveryCard, minuteFigures, shareFigures } from './figures.ts'
import { betaMean, betaSd, type ShareInterval, learntBeta, type Share, wilsonInterval } from './shares.ts'
import { shopWeights } from './weights.ts'

export interface BoardCounts {
  readonly all: Counts
  /** Of the same cards, those of each board by its name; may be left out where names are not told. */
  readonly boards: Readonly<Record<string, Counts>>
}

export interface ShopRecord {
  readonly own: BoardCounts
  /** Counts of other shops. */
  readonly pools: readonly (BoardCounts & { readonly name: string })[]
}

export const noBoardCounts: BoardCounts = { all: noCounts(), boards: {} }

/** Counts of cards over all boards and by board name, in whatever order the cards come. */
export function countCards(cards: readonly ClosedCard[]): BoardCounts {
  return cards
    .map((card): BoardCounts => {
      const counts = countsOf(card)
      return { all: counts, boards: { [card.board]: counts } }
    })
    .reduce(addBoardCounts, noBoardCounts)
}

/** The sum of both, board by board; neither is changed. */
export function addBoardCounts(a: BoardCounts, b: BoardCounts): BoardCounts {
  const boards = new Map(Object.entries(a.boards))
  for (const [name, counts] of Object.entries(b.boards))
    boards.set(name, addCounts(boards.get(name) ?? noCounts(), counts))
  return { all: addCounts(a.all, b.all), boards: Object.fromEntries(boards) }
}

/** The shop's own counts with all pools added. */
export const pooled = ({ own, pools }: ShopRecord): BoardCounts => pools.reduce<BoardCounts>(addBoardCounts, own)

export interface Basis {
  readonly counts: Counts
  /** The board whose cards alone are counted; undefined where those of all boards are. */
  readonly board: string | undefined
}

/** The cards of one board alone once there are enough of them, else those of all boards. */
export function basisFor(record: ShopRecord, board: string | undefined): Basis {
  const { all, boards } = pooled(record)
  const own = board !== undefined && Object.hasOwn(boards, board) ? boards[board] : undefined
  return own !== undefined && own.cards >= shopWeights.boardCards.value
    ? { counts: own, board }
    : { counts: all, board: undefined }
}

export interface LearntFigure {
  readonly figure: Figure
  readonly learnt: number
  /** Standard deviation of the learnt share; undefined for minutes. */
  readonly sd: number | undefined
  /** Hits of tries; of minutes the sum and the number of lifts. */
  readonly seen: Share
  /** What one hit counts: below 1 where the cards were chosen by having failed. */
  readonly scale: number
  /** Of the share that was seen alone, at 95 %; undefined for minutes. */
  readonly interval: ShareInterval | undefined
}

/** Every figure that was tried at least once, in the order of the catalogue. */
export function learntFigures(counts: Counts): LearntFigure[] {
  const chance = chanceOfAny(counts)
  const shares = shareFigures.flatMap((figure): LearntFigure[] => {
    const seen = counts.shares[figure.id]
    if (seen === undefined || seen.tries === 0) return []
    const scale = isOfAnyCard(figure) ? chance : 1
    const exposed = { hits: seen.hits, tries: seen.tries / scale }
    const beta = learntBeta(figure.shipped, weightOf(figure, seen, counts.cards) / scale, exposed)
    return [{ figure, learnt: betaMean(beta), sd: betaSd(beta), seen, scale, interval: wilsonInterval(seen) }]
  })
  const minutes = minuteFigures.flatMap((figure): LearntFigure[] => {
    const noted = counts.minutes[figure.id]
    if (noted === undefined || noted.lifts === 0) return []
    const weight = shopWeights.lifts.value
    const learnt = (figure.shipped * weight + noted.minutes) / (weight + noted.lifts)
    return [
      {
        figure,
        learnt,
        sd: undefined,
        seen: { hits: noted.minutes, tries: noted.lifts },
        scale: 1,
        interval: undefined,
      },
    ]
  })
  return [...shares, ...minutes]
}

/**
 * The chance, by the shipped priors, that a card of these boards has something wrong with it at all: 1 − Π(1 − prior) over
 * the places of an average card. Causes are taken as independent, and a card comes in because at least one is there, so
 * that each card seen stands for 1/chance cards, the rest of them sound and never seen. Taken without it, every prior
 * would come out too high, and two causes at once by its square.
 */
export function chanceOfAny({ cards, shares }: Counts): number {
  if (cards === 0) return 1
  const logNone = shareFigures.filter(isOfAnyCard).reduce((sum, figure) => {
    const places = isOfEveryCard(figure) ? (shares[figure.id]?.tries ?? 0) / cards : 1
    return sum + places * Math.log1p(-figure.shipped)
  }, 0)
  return -Math.expm1(logNone)
}

/** In tries: a prior of something that every card has is worth so many cards, with as many places each as were seen. */
function weightOf(figure: Figure, { tries }: Share, cards: number): number {
  return isOfEveryCard(figure) && cards > 0 ? (shopWeights.cards.value * tries) / cards : shopWeights.tries.value
}

/** What the record makes of the assumptions for a card on that board; nothing where nothing was tried. */
export function assumptionsFrom(record: ShopRecord, boardName: string | undefined): AssumptionOverrides {
  const sections: Record<string, Record<string, number>> = {}
  const learntOfAll = learntFigures(basisFor(record, boardName).counts)
  for (const { figure, learnt } of learntOfAll) {
    if (figure.section === 'check' || figure.section === 'cure') continue
    sections[figure.section] = { ...sections[figure.section], [figure.name]: learnt }
  }
  const checks = checksFrom(learntOfAll)
  const cures = curesFrom(learntOfAll)
  return assumptionsSchema.parse({
    ...sections,
    ...(Object.keys(checks).length === 0 ? {} : { checks }),
    ...(Object.keys(cures).length === 0 ? {} : { cures }),
  })
}

/** No remedy is sure, and none is of no use at all: else one card could rule out what was done on the next. */
const curesFrom = (figures: readonly LearntFigure[]): Record<string, number> =>
  Object.fromEntries(
    figures.flatMap(({ figure, learnt }) =>
      figure.section === 'cure' ? [[figure.name, Math.min(0.999, Math.max(0.001, learnt))]] : [],
    ),
  )

interface LearntCheck {
  finds?: Record<string, number>
  falseAlarm?: number
}

/** Within the bounds of the catalogue: no check finds nothing, none is sure, and none is without false alarms. */
function checksFrom(figures: readonly LearntFigure[]): Record<string, LearntCheck> {
  const checks: Record<string, LearntCheck> = {}
  for (const { figure, learnt } of figures) {
    if (figure.section !== 'check' || figure.of === undefined) continue
    const known = checks[figure.name] ?? {}
    checks[figure.name] =
      figure.of === 'falseAlarm'
        ? { ...known, falseAlarm: Math.min(0.5, Math.max(0.001, learnt)) }
        : { ...known, finds: { ...known.finds, [figure.of]: Math.min(0.99, Math.max(1e-6, learnt)) } }
  }
  return checks
}
