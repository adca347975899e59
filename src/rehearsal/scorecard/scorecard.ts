/** Many cards' scores as one scorecard: costs, hits, calibration, by kind of accident and by whatever else can be told apart. */
import { type RemedySummary, remedySummary } from './remedies/score.ts'
import type { CardScore, Said, VariantScore } from './score-card.ts'
import { type Calibration, calibrationOf, type Interval, mean, meanOf, ratioOf } from './statistics.ts'

export type CostName = keyof CardScore['cost']

export interface Group {
  readonly cards: number
  readonly cost: Readonly<Record<string, number>>
  readonly first: number
  readonly firstThree: number
  readonly firstByPart: number
  readonly missed: number
  readonly needless: number
  readonly coreSaid: number
  readonly coreWas: number
}

export interface Scorecard {
  readonly cards: number
  readonly seed: number
  readonly mixture: string
  readonly weights: Readonly<Record<string, number>>
  readonly cost: Readonly<Record<string, number>>
  readonly first: number
  readonly firstThree: number
  readonly firstByPart: number
  readonly firstThreeByPart: number
  readonly missed: number
  readonly needless: number
  readonly ece: { readonly core: number; readonly failing: number; readonly all: number }
  /** What the errors would be by chance alone if every probability were exact. */
  readonly eceByChance: { readonly core: number; readonly failing: number; readonly all: number }
  readonly brier: { readonly core: number; readonly failing: number; readonly all: number }
  readonly ratio: Readonly<Record<string, Interval>>
  readonly ci: Readonly<Record<string, Interval>>
  readonly coreShare: number
  readonly place: { readonly cards: number; readonly errorMm: number; readonly markMm: number; readonly sdMm: number }
  readonly without: Readonly<
    Record<string, { readonly cards: number; readonly liftmap: number; readonly eceCore: number }>
  >
  /** The technician in steps: what it took, and what other choices of checks would have cost on some of the cards. */
  readonly steps: StepsSummary | undefined
  /** Those who work remedy by remedy, on the cards on which they did. */
  readonly remedies: RemedySummary | undefined
  readonly milliseconds: { readonly median: number; readonly mean: number; readonly most: number }
  readonly byKind: Readonly<Record<string, Group>>
  readonly byBoard: Readonly<Record<string, Group>>
  readonly bySubstance: Readonly<Record<string, Group>>
  readonly byFailing: Readonly<Record<string, Group>>
  readonly byTold: Readonly<Record<string, Group>>
  readonly reliability: { readonly core: Calibration; readonly failing: Calibration; readonly all: Calibration }
}

export interface StepsSummary {
  readonly costBesideProof: number
  readonly checks: number
  readonly minutesOfChecks: number
  readonly rounds: number
  readonly comebacks: number
  readonly orders: {
    readonly cards: number
    readonly steps: number
    readonly random: number
    readonly fixed: number
    readonly noChecks: number
  }
}

export interface ScorecardHead {
  readonly seed: number
  readonly mixture: string
  readonly weights: Readonly<Record<string, number>>
}

const COSTS: readonly CostName[] = [
  'liftmap',
  'steps',
  'named',
  'namedAndCore',
  'ring',
  'allKnowing',
  'allKnowingInSteps',
]

/**
 * The scores of cards as shares, means and ratios, with bootstrap intervals. Shares are of cards; costs are in the
 * shop's currency.
 */
export function scorecardOf(head: ScorecardHead, cards: readonly CardScore[]): Scorecard {
  const reliability = {
    core: calibrationOf(cards.map(({ core }) => core)),
    failing: calibrationOf(cards.flatMap(({ failingSaid }) => failingSaid)),
    all: calibrationOf(cards.flatMap(({ allSaid }) => allSaid)),
  }
  const liftmap = costsOf(cards, 'liftmap')
  const steps = costsOf(cards, 'steps')
  const knowing = costsOf(cards, 'allKnowing')
  const ruled = costsOf(cards, 'namedAndCore')
  const knowingInSteps = costsOf(cards, 'allKnowingInSteps')
  return {
    cards: cards.length,
    ...head,
    cost: meanCosts(cards),
    first: shareOf(cards, ({ first }) => first),
    firstThree: shareOf(cards, ({ firstThree }) => firstThree),
    firstByPart: shareOf(cards, ({ firstByPart }) => firstByPart),
    firstThreeByPart: shareOf(cards, ({ firstThreeByPart }) => firstThreeByPart),
    missed: mean(cards.map(({ missed }) => missed)),
    needless: mean(cards.map(({ needless }) => needless)),
    ece: each(reliability, ({ ece }) => ece),
    eceByChance: each(reliability, ({ eceByChance }) => eceByChance),
    brier: each(reliability, ({ brier }) => brier),
    ratio: {
      liftmapToAllKnowing: ratioOf(liftmap, knowing),
      liftmapToNamedAndCore: ratioOf(liftmap, ruled),
      ...(steps.length === cards.length
        ? {
            stepsToAllKnowing: ratioOf(steps, knowing),
            stepsToAllKnowingInSteps: ratioOf(steps, knowingInSteps),
            stepsToNamedAndCore: ratioOf(steps, ruled),
          }
        : {}),
    },
    ci: {
      ...Object.fromEntries(
        COSTS.flatMap((name) => {
          const costs = costsOf(cards, name)
          return costs.length === 0 ? [] : [[`cost.${name}`, meanOf(costs)] as const]
        }),
      ),
      first: meanOf(cards.map(({ first }) => (first ? 1 : 0))),
      firstThree: meanOf(cards.map(({ firstThree }) => (firstThree ? 1 : 0))),
      missed: meanOf(cards.map(({ missed }) => missed)),
      needless: meanOf(cards.map(({ needless }) => needless)),
    },
    coreShare: reliability.core.was,
    place: placesOf(cards),
    without: withoutOf(cards),
    steps: stepsOf(cards),
    remedies: remedySummary(cards.flatMap(({ remedies }) => remedies ?? [])),
    milliseconds: timesOf(cards),
    byKind: groups(cards, ({ kind }) => kind),
    byBoard: groups(cards, ({ board }) => board),
    bySubstance: groups(cards, ({ substance }) => substance ?? 'none'),
    byFailing: groups(cards, ({ failing }) => (failing.length > 4 ? '5 or more' : `${failing.length}`)),
    byTold: groups(cards, ({ told }) => told),
    reliability,
  }
}

const shareOf = (cards: readonly CardScore[], is: (card: CardScore) => boolean): number =>
  mean(cards.map((card) => (is(card) ? 1 : 0)))

const costsOf = (cards: readonly CardScore[], name: CostName): number[] => cards.flatMap(({ cost }) => cost[name] ?? [])

const meanCosts = (cards: readonly CardScore[]): Record<string, number> =>
  Object.fromEntries(
    COSTS.flatMap((name) => {
      const costs = costsOf(cards, name)
      return costs.length === 0 ? [] : [[name, mean(costs)] as const]
    }),
  )

const each = <T>({ core, failing, all }: Record<'core' | 'failing' | 'all', T>, of: (one: T) => number) => ({
  core: of(core),
  failing: of(failing),
  all: of(all),
})

function groups(cards: readonly CardScore[], nameOf: (card: CardScore) => string): Record<string, Group> {
  const byName = new Map<string, CardScore[]>()
  for (const card of cards) {
    const own = byName.get(nameOf(card)) ?? []
    byName.set(nameOf(card), own)
    own.push(card)
  }
  const sorted = [...byName].toSorted(([a], [b]) => a.localeCompare(b))
  return Object.fromEntries(sorted.map(([name, own]) => [name, groupOf(own)]))
}

const groupOf = (cards: readonly CardScore[]): Group => ({
  cards: cards.length,
  cost: meanCosts(cards),
  first: shareOf(cards, ({ first }) => first),
  firstThree: shareOf(cards, ({ firstThree }) => firstThree),
  firstByPart: shareOf(cards, ({ firstByPart }) => firstByPart),
  missed: mean(cards.map(({ missed }) => missed)),
  needless: mean(cards.map(({ needless }) => needless)),
  coreSaid: mean(cards.map(({ core }) => core[0])),
  coreWas: mean(cards.map(({ core }) => core[1])),
})

function placesOf(cards: readonly CardScore[]): Scorecard['place'] {
  const places = cards.flatMap(({ place }) => place ?? [])
  return {
    cards: places.length,
    errorMm: mean(places.map(({ errorMm }) => errorMm)),
    markMm: mean(places.map(({ markMm }) => markMm)),
    sdMm: mean(places.map(({ sdMm }) => sdMm)),
  }
}

/** The same cards throughout, those that were judged with less as well; with checks: all that were worked on in steps. */
function withoutOf(cards: readonly CardScore[]): Scorecard['without'] {
  const own = cards.flatMap(({ without, cost, core }) =>
    without === undefined ? [] : [{ ...without, nothingLess: { liftmap: cost.liftmap, core } }],
  )
  const summed = (scores: readonly VariantScore[]) => {
    const said: Said[] = scores.map(({ core }) => core)
    return {
      cards: scores.length,
      liftmap: mean(scores.map(({ liftmap }) => liftmap)),
      eceCore: calibrationOf(said).ece,
    }
  }
  const checked = cards.flatMap((card) => card.checked ?? [])
  return {
    nothingLess: summed(own.map(({ nothingLess }) => nothingLess)),
    looks: summed(own.map(({ looks }) => looks)),
    readings: summed(own.map(({ readings }) => readings)),
    looksAndReadings: summed(own.map(({ both }) => both)),
    ...(checked.length === 0 ? {} : { withChecks: summed(checked) }),
  }
}

function stepsOf(cards: readonly CardScore[]): StepsSummary | undefined {
  const walked = cards.flatMap(({ steps }) => steps ?? [])
  if (walked.length === 0) return undefined
  const orders = cards.flatMap(({ otherOrders }) => otherOrders ?? [])
  return {
    costBesideProof: mean(walked.map(({ costBesideProof }) => costBesideProof)),
    checks: mean(walked.map(({ checks }) => checks)),
    minutesOfChecks: mean(walked.map(({ minutesOfChecks }) => minutesOfChecks)),
    rounds: mean(walked.map(({ rounds }) => rounds)),
    comebacks: mean(walked.map(({ comeback }) => (comeback ? 1 : 0))),
    orders: {
      cards: orders.length,
      steps: mean(orders.map(({ steps }) => steps)),
      random: mean(orders.map(({ random }) => random)),
      fixed: mean(orders.map(({ fixed }) => fixed)),
      noChecks: mean(orders.map(({ noChecks }) => noChecks)),
    },
  }
}

function timesOf(cards: readonly CardScore[]): Scorecard['milliseconds'] {
  const times = cards.map(({ milliseconds }) => milliseconds).toSorted((a, b) => a - b)
  return { median: times[times.length >> 1] ?? 0, mean: mean(times), most: times.at(-1) ?? 0 }
}
