/**
 * In: the text of a memory test, or a table entered by hand. Out: rows, a tally down to the bit, signatures.
 * Refuses: silently dropping a row; each one that can't be read or mapped is counted and shown with its line.
 */
export * from './recipe.ts'
export * from './tally.ts'
