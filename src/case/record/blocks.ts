/** Short ways to write the blocks of a record. */
import type { RecordBlock, RecordColumn, RecordSection } from './document.ts'

/** A paragraph of plain text; whoever prints the record escapes it. */
export const paragraph = (text: string): RecordBlock => ({ kind: 'paragraph', text })

/** A list, or no block at all where it has no items. */
export const list = (items: readonly string[]): RecordBlock[] => (items.length === 0 ? [] : [{ kind: 'list', items }])

/** Pairs whose value is empty say so. */
export const facts = (caption: string, pairs: readonly (readonly [string, string])[]): RecordBlock => ({
  kind: 'facts',
  caption,
  facts: pairs.map(([name, value]) => ({ name, value: value === '' ? 'not noted' : value })),
})

/** Somebody's words, a block; nothing where nothing was said. */
export const quote = (by: string, text: string): RecordBlock[] =>
  text.trim() === '' ? [] : [{ kind: 'quote', by, text: text.trim() }]

/** @param columns a name that ends in `#` heads a column of numbers */
export function table(
  caption: string,
  columns: readonly string[],
  rows: readonly (readonly string[])[],
  sum?: readonly string[],
): RecordBlock {
  const heads: RecordColumn[] = columns.map((name) =>
    name.endsWith('#') ? { name: name.slice(0, -1), number: true } : { name },
  )
  return { kind: 'table', caption, columns: heads, rows, ...(sum === undefined ? {} : { sum }) }
}

/** A block of cautions, or none where there are no sentences; `at` says where they are met. */
export const cautions = (sentences: readonly string[], at?: string): RecordBlock[] =>
  sentences.length === 0 ? [] : [{ kind: 'cautions', ...(at === undefined ? {} : { at }), sentences }]

/** A section whose blocks may come one by one or as lists. */
export const section = (
  title: string,
  ...blocks: readonly (RecordBlock | readonly RecordBlock[])[]
): RecordSection => ({
  title,
  blocks: blocks.flat(),
})
