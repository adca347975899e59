/**
 * In: a case file, and a way to open the files that it names. Out: the opened case, its assessment, a picture of the sheet.
 * Refuses: a case with any fault, and one saved by a newer program.
 */
export * from './assess.ts'
export * from './bench-machine.ts'
export * from './bins.ts'
export { hostAnswer } from './bench-machine/evidence.ts'
export { machineFigures } from './bench-machine/figures.ts'
export { FIRMWARE_CAUTION, type MachineRemark, machineRemarks } from './bench-machine/remarks.ts'
export {
  cleanedAfter,
  cleanedOf,
  isSpilledSince,
  isTakenUp,
  isWashed,
  marksCleanedBy,
  wasWashed,
} from './cleaning-done.ts'
export { doubtsOfRepair } from './doubts-of-repair.ts'
export * from './causes-draft.ts'
export * from './cautions.ts'
export { checkCharacter, codeFor, codeWords, type ReadCode, readCode } from './code.ts'
export * from './drawing/index.ts'
export * from './exchange/index.ts'
export { dayAfter } from './day.ts'
export * from './file-kinds.ts'
export * from './findings.ts'
export * from './follow-up.ts'
export * from './good-cards.ts'
export * from './power.ts'
export * from './history.ts'
export * from './image-head.ts'
export { type ConsentKind, consentKinds, consentWords, type Intake, intakeOf, sealStates, sealWords } from './intake.ts'
export * from './invoice/index.ts'
export { CASE_VERSION, migrateCase } from './migrate.ts'
export * from './open.ts'
export * from './own-record.ts'
export * from './pad-repairs.ts'
export { type PadMeaning, padMeaning, padRepairRemarks, pathLengthMm, tornBallsOf } from './pad-repairs/meaning.ts'
export * from './photo-view.ts'
export * from './picture.ts'
export { type Thumbnail, type ThumbnailPart, thumbnailOf } from './picture/thumbnail.ts'
export type { ExposureShelf, HeatQuestion, ReworkWatch } from './plan-heat.ts'
export * from './proof.ts'
export * from './quote/index.ts'
export * from './read.ts'
export * from './record/index.ts'
export * from './rework.ts'
export { type EarlierRun, isUntested, overtakenBy } from './runs.ts'
export * from './schema.ts'
export * from './shop-details.ts'
export * from './shop-record.ts'
export * from './stations.ts'
export {
  arrived,
  broughtBack,
  type Donor,
  donorsOf,
  editedLine,
  type ForCase,
  giveBack,
  removedLine,
  type StockMove,
  stockMoves,
  takeForCase,
  usedAgain,
  usedUp,
} from './stock/change.ts'
export { freeFor, type NeedLine, needOf, type Standing, standingOf, takenFor } from './stock/need.ts'
export * from './stock/schema.ts'
export * from './visit.ts'
export {
  answeredHowWords,
  carriesWords,
  consentKindWords,
  fanWords,
  followUpWords,
  markKindWords,
  outcomeWords,
  padHurtWords,
  partKindWords,
  partStateWords,
  pinOneWords,
  quoteAnswerWords,
  sideWords,
  signatureWords,
  stockKindWords,
  visitWords,
} from './kind-words.ts'
