/**
 * In: a board model, a seed, a mixture of accidents. Out: a damaged card with a known truth and what a bench sees of it.
 * Refuses: a board without an address map; any figure of the inference's own in what it makes up.
 */
export { type Pour, pour } from './simulator/flow.ts'
export { groundOf as flowGround } from './simulator/ground.ts'
export { type CellFault, cellMemory } from './simulator/cell-memory.ts'
export { type MarchTest, marchCMinus, matsPlus, runMarch, type TestedMemory } from './simulator/march-tests.ts'
export {
  type AccidentKind,
  accidentKinds,
  middleMixture,
  type Mixture,
  mixtureCalled,
  mixtureNames,
  variedMixture,
} from './simulator/mixture.ts'
export * from './practice/index.ts'
export * from './shop/index.ts'
export { tallyOfCard } from './simulator/read-card.ts'
export { simulateCard } from './simulator/simulate.ts'
export type * from './simulator/types.ts'
export { type Action, type Asker, createAsker, evidenceOfTally, type Known } from './scorecard/ask.ts'
export { isTrueStory, liftsTheSame, trueStories } from './scorecard/matching.ts'
export { costOfKnowing, costOfList, plainLists, type Prices, pricesOf } from './scorecard/rules.ts'
export { type CardScore, knownOf, scoreCard, type ScoreWish } from './scorecard/score-card.ts'
export { type JobScore, startJob } from './scorecard/remedies/bench.ts'
export { type RemedyScore, remedySummary, type RemedySummary, scoreRemedies } from './scorecard/remedies/score.ts'
export { workKnowing, workPlainly } from './scorecard/remedies/workers.ts'
export { type Scorecard, type ScorecardHead, scorecardOf } from './scorecard/scorecard.ts'
export { scorecardPage } from './scorecard/page.ts'
export { type Proposer, type StepsScore, workInSteps } from './scorecard/technician.ts'
export { bootstrap, type Calibration, calibrationOf, type Interval, meanOf, ratioOf } from './scorecard/statistics.ts'
