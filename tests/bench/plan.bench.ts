/** The plan after the heat is solved: 12 lifts exactly, 30 best-first, on boards and heat made from a seed. */
import { performance } from 'node:perf_hooks'
import { type Random, seededRandom } from '../../src/base/index.ts'
import { type GroupExposure, type PlanInput, planRework } from '../../src/plan/index.ts'
import { exposureOn, plainBoard } from '../plan/plan-fixture.ts'

const SEED = 2025
const REPEATS = 5

export async function benchPlan(): Promise<object> {
  return { lifts12: measure(12), lifts30: measure(30), aim: { lifts12Ms: 1000 } }
}

function measure(count: number): object {
  const input = ringQuestion(count, seededRandom(SEED))
  const times: number[] = []
  let answer = planRework(input)
  for (let i = 0; i < REPEATS; i++) {
    const start = performance.now()
    answer = planRework(input)
    times.push(performance.now() - start)
  }
  if (!answer.ok) throw new Error(JSON.stringify(answer.faults))
  const { optimality, cost, exposureCost } = answer.value.best
  return {
    medianMs: Math.round(times.toSorted((a, b) => a - b)[Math.floor(REPEATS / 2)] ?? 0),
    withAlternative: answer.value.alternative?.differsIn,
    pairsUnderOneNozzle: input.groups?.length,
    cost: Number((cost + exposureCost).toFixed(2)),
    proved: optimality.proved,
    atMostPctAboveBest: Number(optimality.costIsAtMostPctAboveBest.toFixed(3)),
  }
}

/** Two rows of memory, one in three on the bottom side; each pass melts or warms what is within 40 mm, unevenly. */
export function ringQuestion(count: number, random: Random): PlanInput {
  const parts = Array.from({ length: count }, (_, i) => ({
    ref: `U${i + 2}`,
    x: 20 + 17 * Math.floor(i / 2),
    y: 30 + 40 * (i % 2),
    side: i % 3 === 2 ? ('bottom' as const) : ('top' as const),
    heatCount: random.whole(3),
    price: 10 + random.whole(20),
  }))
  const heatFrom = (from: (typeof parts)[number]): Record<string, number> =>
    Object.fromEntries(
      parts.flatMap((to) => {
        const mm = Math.hypot(from.x - to.x, from.y - to.y)
        return to === from || mm > 45 ? [] : [[to.ref, 250 - 3 * mm + 30 * (random.next() - 0.5)] as const]
      }),
    )
  const exposures = new Map(parts.map((part) => [part.ref, exposureOn(part.ref, heatFrom(part), 5, part.side)]))
  const groups: GroupExposure[] = []
  for (const [i, a] of parts.entries())
    for (const b of parts.slice(i + 1))
      if (a.side === b.side && Math.abs(a.x - b.x) + Math.abs(a.y - b.y) < 20) {
        const both = { ...heatFrom(a), ...heatFrom(b) }
        delete both[a.ref]
        delete both[b.ref]
        groups.push({ refs: [a.ref, b.ref], exposure: exposureOn(a.ref, both, 7, a.side) })
      }
  return { model: plainBoard(parts), lift: parts.map(({ ref }) => ref), exposures, groups, successProbability: 0.7 }
}
