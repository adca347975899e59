/**
 * In: a board model and a game: seed, difficulty, what was done. Out: what is seen of a made-up card, and at the end the
 * truth, the cost beside others, the worth of each piece of evidence.
 * Refuses: telling the truth before the card was handed back; an action that can't be done, in a sentence.
 */
export { difficulties, difficultyCalled, mixtureOfDifficulty } from './difficulties.ts'
export {
  type HandBackWay,
  type KeptPractice,
  keptPractice,
  keptPracticeSchema,
  MOST_ACTIONS,
  MOST_SEED,
  type PracticeAction,
  practiceActionsSchema,
  type PracticeGame,
  practiceGameSchema,
} from './game.ts'
export type { Offer, OfferGroup } from './offers.ts'
export { workplaceSaid } from './place-words.ts'
export { type LogEntry, openPractice, type Practice, practiceOn, type PracticeView, type Proposed } from './practice.ts'
export { type Split, totalOf } from './reckoning.ts'
export type { PracticeEvidence, PracticeResult } from './result.ts'
export type { Rival } from './rivals.ts'
export { createValuer } from './worth.ts'
