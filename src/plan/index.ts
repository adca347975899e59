/**
 * In: parts to lift, what heating each does to the others, prices. Out: an ordered plan with reasons, materials, cost, an alternative.
 * Refuses: an order that breaks a rule of the bench; says when the optimum is not proved.
 */
export { bestFirstOrder } from './order/best-first.ts'
export { changesBetween } from './log/changes.ts'
export { evidenceFrom } from './log/evidence-from-log.ts'
export { exactOrder } from './order/exact.ts'
export { type GroupCandidate, groupCandidates } from './order/groups.ts'
export type { BakeLookup, Begun, FloorLife, GroupExposure, Nozzle, PlanInput } from './input.ts'
export * from './log/log.ts'
export { foundWords, outcomeWords } from './log/log-words.ts'
export { planRework } from './plan.ts'
export type { Order, OrderProblem, Pass } from './order/problem.ts'
export { type Replanned, replan } from './log/replan.ts'
export {
  type PastRow,
  type PlannedRow,
  plannedRows,
  plannedRowSchema,
  standing,
  type StandingPlan,
} from './log/standing.ts'
export * from './result.ts'
export {
  defaultShopSettings,
  resolveShopSettings,
  type ShopSettings,
  type ShopSettingsInput,
  shippedShopSettings,
  shopSettingsSchema,
} from './settings.ts'
export { checkIn } from './steps/cleaning.ts'
export { gluedYet } from './steps/unglue.ts'
export { stepTitle } from './steps/step-title.ts'
export { type WholeWorth, wholeWorth, wholeWorthWords, worthWords } from './worth.ts'
