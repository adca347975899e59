/**
 * In: parts to lift, what heating each does to the others, prices. Out: an ordered plan with reasons, materials, cost, an alternative.
 * Refuses: an order that breaks a rule of the bench; says when the optimum is not proved.
 */
export { bestFirstOrder } from './best-first.ts'
export { exactOrder, MOST_PARTS_EXACTLY } from './exact.ts'
export { type Order, type OrderProblem, type Pass } from './problem.ts'
export * from './result.ts'
