/**
 * In: a board model and findings. Out: stories with probabilities, where the spill was, the lift list with its reasons.
 * Refuses: certainty; whatever the model leaves out is named.
 */
export {
  type AssumptionOverrides,
  type Assumptions,
  assumptionsSchema,
  defaultAssumptions,
  shippedAssumptions,
  withAssumptions,
} from './assumptions.ts'
export { createJudge, type Judge, type JudgeInput, type JudgeOptions, judge } from './judge.ts'
export { type Firing, fire } from './lattice.ts'
export { bestLiftList, costOf, type LiftAnswer, type LiftQuestion } from './lift-list.ts'
export * from './result.ts'
export type { ReportedSpill } from './setting.ts'
export { placeWithin, placeWords } from './places.ts'
export { liftableParts } from './causes.ts'
export { comebackCost, liftCosts } from './costs.ts'
