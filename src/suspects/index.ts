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
export { type CheckEntry, checkById, checkCatalogue, checkWords } from './check-catalogue.ts'
export { type CheckInstance, checkInstances, type LookPlace, lookPlaces } from './check-instances.ts'
export type { ToldOutcome } from './check-telling.ts'
export { type Information, informationOf } from './information.ts'
export type { ChecksInput } from './judge-checks.ts'
export type { RankedCheck, RankedChecks } from './rank-checks.ts'
export { createJudge, type Judge, type JudgeInput, type JudgeOptions, judge } from './judge.ts'
export { type Firing, fire } from './lattice.ts'
export { bestLiftList, costOf, type LiftAnswer, type LiftQuestion } from './lift-list.ts'
export * from './result.ts'
export type { ReportedSpill } from './setting.ts'
export { placeWithin, placeWords } from './places.ts'
export { liftableParts } from './causes.ts'
export { comebackCost, liftCosts } from './costs.ts'
