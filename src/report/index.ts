/**
 * In: the text of a memory test, or a table entered by hand. Out: rows, a tally down to the bit, signatures.
 * Refuses: silently dropping a row; each one that can't be read or mapped is counted and shown with its line.
 */
export { beginAlike } from './alike.ts'
export { isByName } from './cells.ts'
export { coverWhole } from './cover.ts'
export { type NameConflict, nameConflicts } from './foreign/conflicts.ts'
export type { ForeignName } from './foreign/find.ts'
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
} from './foreign/kept.ts'
export {
  type ForeignNames,
  lanesOfMeaning,
  type Meaning,
  meaningOfLanes,
  plainNames,
  sayMeaning,
  sharesOf,
} from './foreign/meaning.ts'
export { fillNames, type NamePattern, namePatterns } from './foreign/patterns.ts'
export { guessRecipe, type OtherReading, type RecipeGuess, type Sureness } from './guess.ts'
export { laneStates } from './lanestates.ts'
export { mergeTallies } from './merge.ts'
export { outcomeOf, type ReadOutcome, readOutcomeSchema, whatChanged } from './outcome.ts'
export { type PastedRows, pastedRows } from './paste.ts'
export { type PreviewRow, previewRows } from './preview.ts'
export { previewReport, readReport, type ReadOptions, type ReadReport } from './read.ts'
export type { Receipt } from './receipts.ts'
export { columnRoles } from './column-roles.ts'
export * from './recipe.ts'
export { tallyTable } from './table.ts'
export * from './tally.ts'
export { THRESHOLDS } from './thresholds.ts'
