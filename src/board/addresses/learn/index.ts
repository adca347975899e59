/**
 * In: addresses with labels, some of them wrong. Out: the functions, the odd factor and what is not known of the map;
 * the order of data bits from failing bits of known balls.
 * Refuses: text that is not lines of address and label; it never refuses labels that contradict each other, but tells.
 */
export { hexOf } from '../hex.ts'
export { describeLearntMap } from './describe.ts'
export { type HeldMap, heldAgainst, mapForBoard } from './for-board.ts'
export { type LabelledText, observationsOf, readLabelledAddresses } from './labelled.ts'
export { dqBallsOf, readFailedBits } from './dq-lane.ts'
export { type DqOrder, type FailedBit, learnDqOrder } from './dq-order.ts'
export { learnAddressMap, type LearntLabel, type LearntMap, type LearntPlace, type NamedPlace } from './learn.ts'
export { sayContradictions, sayFunctions, sayOpen, sayPlaces } from './say.ts'
export { type LabelKind, type Observations, readObservations } from './observations.ts'
export { bitsOf } from './halves.ts'
export type { LearntFunction } from './joined.ts'
