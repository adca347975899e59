/** The rework plan: the best order, its steps, what it needs and costs, another way beside it, and whether it pays. */
import { decimals, type Fault, good, type Result, say } from '../base/index.ts'
import { isSmallKind, type PlacedPart } from '../board/index.ts'
import { cheapestVariant } from './order/alternative.ts'
import { type Bake, bakeOf, unbakedWords } from './steps/bake.ts'
import { bestFirstOrder } from './order/best-first.ts'
import { type Built, buildProblem } from './order/build.ts'
import { exactOrder, MOST_PARTS_EXACTLY } from './order/exact.ts'
import { type CheckedInput, checkInput, type PlanInput } from './input.ts'
import { materialsOf } from './steps/materials.ts'
import { notesOf } from './steps/notes.ts'
import type { Order, OrderProblem } from './order/problem.ts'
import type { Plan, PlanAnswer } from './result.ts'
import { stepsOf } from './steps/steps.ts'
import { unharmedOf } from './order/unharmed.ts'
import { walkOrder } from './order/walk.ts'
import { worthOf } from './worth.ts'

/** Every list of up to 12 parts is solved exactly; a longer one best-first, with its gap said. Faults: see `checkInput`, `bakeOf`. */
export function planRework(input: PlanInput): Result<PlanAnswer> {
  const checked = checkInput(input)
  if (!checked.ok) return checked
  const bake = bakeOf(checked.value)
  if (!bake.ok) return bake
  const built = buildProblem(checked.value)
  const solve = (problem: OrderProblem, mostCost?: number): Order | undefined =>
    solveOrder(problem, checked.value, mostCost)
  const order = solve(built.problem)
  if (order === undefined) return { ok: false, faults: [NO_ORDER] }
  const best = planOf(checked.value, built, order, bake.value)
  const variant = cheapestVariant(built.problem, checked.value.targets, order, solve)
  return good({
    best,
    alternative: variant && {
      plan: planOf(checked.value, { ...built, problem: variant.problem }, variant.order, bake.value),
      differsIn: variant.differsIn,
      costsMore: Math.max(0, variant.order.cost - order.cost),
    },
    worth: worthOf(checked.value, best),
    notes: notesOf(checked.value, walkOrder(checked.value, built, order)),
  })
}

const NO_ORDER: Fault = {
  path: '$.lift',
  found: say('parts that no order can lift and refit'),
  expected: say('parts with an exposure each'),
}

/** Nodes are shared out by length, so that any list is answered in like time. */
function solveOrder(problem: OrderProblem, { settings }: CheckedInput, mostCost?: number): Order | undefined {
  if (problem.partCount <= MOST_PARTS_EXACTLY) return exactOrder(problem, mostCost)
  return bestFirstOrder(problem, Math.ceil((settings.rules.mostNodes * MOST_PARTS_EXACTLY) / problem.partCount))
}

function planOf(checked: CheckedInput, built: Built, order: Order, bake: Bake | undefined): Plan {
  const walked = walkOrder(checked, built, order)
  const steps = stepsOf(checked, built.problem, walked, bake)
  const materials = materialsOf(checked, walked)
  const minutes = steps.reduce((sum, step) => sum + step.minutes, 0)
  const labour = steps.reduce((sum, step) => sum + step.cost, 0)
  const cost = materials.reduce((sum, material) => sum + material.cost, labour)
  const elsewhere = walked.passes.reduce((sum, { detail }) => sum + detail.harmElsewhere, 0)
  const exposureCost = walked.harmToListed + elsewhere
  const limit = checked.settings.heat.heatLimit
  return {
    steps,
    minutes,
    cost,
    exposureCost,
    unharmed: unharmedOf(checked, walked),
    materials,
    unbaked: bake === undefined ? unbakedWords(checked) : '',
    heatCounts: [...walked.heatCounts].map(([ref, counts]) => ({
      ref,
      ...counts,
      limit: hasLimit(checked.input.model.partByRef.get(ref)) ? limit : undefined,
    })),
    optimality: optimalityOf(order, cost + exposureCost, checked.targets.length),
  }
}

/** J-STD-020 classes packages by their reflow cycles; of chip parts and coils it says nothing. */
const hasLimit = (part: PlacedPart | undefined): boolean => part !== undefined && !isSmallKind(part.kind)

/** @param total money of the whole plan, of which the search decides a part; the gap is said of the whole. */
function optimalityOf(order: Order, total: number, partCount: number): Plan['optimality'] {
  const gap = Math.max(0, order.cost - order.bound)
  const proved = gap <= 1e-9 * Math.max(1, order.cost)
  if (proved) {
    const how = partCount <= MOST_PARTS_EXACTLY ? say('all of them were compared') : say('no other can be cheaper')
    return { proved, costIsAtMostPctAboveBest: 0, sentence: say('Cheapest order: {how}.', { how }) }
  }
  const costIsAtMostPctAboveBest = (100 * gap) / Math.max(1e-9, total - gap)
  const sentence = say(
    'The search stopped before it had proved the best order; this one costs at most {costIsAtMostPctAboveBest} % more than the best.',
    { costIsAtMostPctAboveBest: decimals(costIsAtMostPctAboveBest, 1) },
  )
  return { proved, costIsAtMostPctAboveBest, sentence }
}
