/**
 * In: the text of a memory test, or a table entered by hand. Out: rows, a tally down to the bit, signatures.
 * Refuses: silently dropping a row; each one that can't be read or mapped is counted and shown with its line.
 */
export { beginAlike } from './guess/alike.ts'
export { isByName } from './text/cells.ts'
export { coverWhole } from './count/cover.ts'
export { type NameConflict, nameConflicts } from './names/foreign/conflicts.ts'
export type { ForeignName } from './guess/foreign-names.ts'
export {
  keepReading,
  type KeptReading,
  keptReadingSchema,
  keptReadings,
  readingOf,
  readWordsFile,
  withReadings,
  type WordsFile,
  writeWordsFile,
} from './names/foreign/kept.ts'
export {
  type ForeignNames,
  lanesOfMeaning,
  type Meaning,
  meaningOfLanes,
  plainNames,
  sayMeaning,
  sharesOf,
} from './names/foreign/meaning.ts'
export { fillNames, type NamePattern, namePatterns } from './names/foreign/patterns.ts'
export { guessRecipe, type OtherReading, type RecipeGuess, type Sureness } from './guess/guess.ts'
export { laneStates } from './count/lane-states.ts'
export { mergeTallies } from './count/merge.ts'
export { outcomeOf, type ReadOutcome, readOutcomeSchema, whatChanged } from './outcome.ts'
export { type PastedRows, pastedRows } from './hand/paste.ts'
export { type PreviewRow, previewRows } from './guess/preview.ts'
export { previewReport, readReport, type ReadOptions, type ReadReport } from './read.ts'
export type { Receipt } from './guess/receipts.ts'
export { columnRoles } from './column-roles.ts'
export * from './recipe.ts'
export { tallyTable } from './hand/table.ts'
export * from './tally.ts'
export { THRESHOLDS } from './count/thresholds.ts'
