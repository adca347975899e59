/** What following the proposals came to on one card, beside one who knows and one who goes by a plain rule; and on many. */
import type { Asker, Known } from '../ask.ts'
import { calibrationOf, type Interval, mean, meanOf, ratioOf } from '../statistics.ts'
import type { SimulatedCard } from '../../simulator/types.ts'
import { type JobScore, startJob } from './bench.ts'
import { followProposals, workKnowing, workPlainly } from './workers.ts'

export interface RemedyScore {
  readonly proposals: JobScore
  readonly allKnowing: JobScore
  readonly plain: JobScore
  /** What the first proposal promised: undefined where nothing was reckoned. */
  readonly said: { readonly cost: number; readonly works: number } | undefined
}

/** Three workers on the same card with the same luck, and what the first proposal said that it would come to. */
export function scoreRemedies(card: SimulatedCard, asker: Asker, known: Known): RemedyScore {
  const { saidAtFirst, ...proposals } = followProposals(startJob(card, known), asker)
  const said =
    saidAtFirst?.works === undefined ? undefined : { cost: saidAtFirst.expectedCost, works: saidAtFirst.works }
  return {
    proposals,
    allKnowing: workKnowing(startJob(card, known)),
    plain: workPlainly(startJob(card, known)),
    said,
  }
}

type Worker = 'proposals' | 'allKnowing' | 'plain'

export interface RemedySummary {
  readonly cards: number
  readonly cost: Readonly<Record<Worker, Interval>>
  readonly ratio: { readonly toAllKnowing: Interval; readonly toPlain: Interval }
  /** Shares of the cards that end so. */
  readonly ends: Readonly<Record<Worker, Readonly<Record<JobScore['end'], number>>>>
  readonly minutes: number
  readonly runs: number
  /** On the cards on which something was reckoned: what was promised at first, and what came of it. */
  readonly said: {
    readonly cards: number
    readonly works: number
    readonly worked: number
    readonly ece: number
    readonly cost: number
    readonly came: number
  }
}

/** Means over cards with bootstrap intervals, costs in the shop's currency; undefined without any scores. */
export function remedySummary(scores: readonly RemedyScore[]): RemedySummary | undefined {
  if (scores.length === 0) return undefined
  const costs = (worker: Worker): number[] => scores.map((score) => score[worker].cost)
  const endsOf = (worker: Worker): Record<JobScore['end'], number> => {
    const share = (end: JobScore['end']): number => mean(scores.map((score) => (score[worker].end === end ? 1 : 0)))
    return {
      works: share('works'),
      'comes back': share('comes back'),
      'sent back': share('sent back'),
      lost: share('lost'),
    }
  }
  const byWorker = <T>(of: (worker: Worker) => T) => ({
    proposals: of('proposals'),
    allKnowing: of('allKnowing'),
    plain: of('plain'),
  })
  const reckoned = scores.flatMap(({ said, proposals }) => (said === undefined ? [] : [{ said, proposals }]))
  const worked = reckoned.map(({ said, proposals }) => [said.works, proposals.end === 'works' ? 1 : 0] as const)
  return {
    cards: scores.length,
    cost: byWorker((worker) => meanOf(costs(worker))),
    ratio: {
      toAllKnowing: ratioOf(costs('proposals'), costs('allKnowing')),
      toPlain: ratioOf(costs('proposals'), costs('plain')),
    },
    ends: byWorker(endsOf),
    minutes: mean(scores.map(({ proposals }) => proposals.minutes)),
    runs: mean(scores.map(({ proposals }) => proposals.runs)),
    said: {
      cards: reckoned.length,
      works: mean(reckoned.map(({ said }) => said.works)),
      worked: mean(worked.map(([, was]) => was)),
      ece: calibrationOf(worked).ece,
      cost: mean(reckoned.map(({ said }) => said.cost)),
      came: mean(reckoned.map(({ proposals }) => proposals.cost)),
    },
  }
}
