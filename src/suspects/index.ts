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
export { type CheckEntry, checkById, checkCatalogue, checkWords } from './checks/check-catalogue.ts'
export { type CheckInstance, checkInstances, type LookPlace, lookPlaces } from './checks/check-instances.ts'
export type { ToldOutcome } from './checks/check-telling.ts'
export { type Information, informationOf } from './checks/information.ts'
export type { ChecksInput } from './checks/judge-checks.ts'
export type { RankedCheck, RankedChecks } from './checks/rank-checks.ts'
export { createJudge, type Judge, type JudgeInput } from './judge.ts'
export { bestLiftList, costOf, type LiftAnswer, type LiftQuestion } from './lift/lift-list.ts'
export * from './result.ts'
export { type Harm, harmOf } from './causes/spills.ts'
export type { ReportedSpill } from './sum/card.ts'
export type { Proposal, StepAction } from './steps/propose.ts'
export type { StepValue } from './steps/value.ts'
export type { Remedy, RemedyAction, WrongWith } from './tell/remedy.ts'
export { type ToldStory, toldStories } from './tell/told.ts'
export { type EndingMeans, endingMeans, endingsOf, type WorkEnding } from './remedies/endings.ts'
export { type Cures, learnableCures } from './remedies/figures.ts'
export { type ProposedAction, type ProposedStep, proposedWords } from './remedies/step-words.ts'
export { successOf } from './remedies/success.ts'
export { bestTree, treeFrom } from './remedies/tree.ts'
export type { TreeAction, TreeNode, TreePart, TreeProblem } from './remedies/problem.ts'
export type { AtTheBench } from './remedies/pose.ts'
export { type ProposedPlan, proposeRemedies, type RemedyProposal } from './remedies/proposal.ts'
export {
  bookSections,
  defaultPriceBook,
  type PriceBook,
  type PriceBookInput,
  priceBookSchema,
  shippedPriceBook,
} from './prices/book.ts'
export {
  type BallSet,
  ballSetOf,
  bondMinutes,
  handlingMinutes,
  isBonded,
  liftWork,
  minutesToMoney,
  priceOf,
  reballMaterials,
  reballMinutes,
  refitWork,
  siteMinutes,
} from './prices/work.ts'
export { plainProposal } from './steps/propose.ts'
export { placeSaid, placeWithin, placeWords } from './causes/places.ts'
export { nameOf as causeNoun } from './tell/sentences.ts'
export { liftableParts } from './causes/context.ts'
export {
  comebackCost,
  isReballed,
  liftCost,
  liftCosts,
  liftMinutes,
  paceBy,
  type Prices,
  pricesOf,
  worthLost,
} from './lift/costs.ts'
