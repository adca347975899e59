/** A recipe says how to read one kind of report text. The zod schema is the one source of its types. */
import { say } from '../base/index.ts'
import { z } from 'zod'
import { type ForeignNames, foreignNamesSchema } from './names/foreign/meaning.ts'

const MAX_COLUMNS = 64

export const columnRoleSchema = z.enum([
  'address',
  'expected',
  'actual',
  'difference',
  'count',
  'part',
  'channel',
  'lane',
  'bit',
  'bits',
  'end',
  'tested',
  'status',
  'packages',
  'ignore',
])
export type ColumnRole = z.infer<typeof columnRoleSchema>

export const numberBaseSchema = z
  .enum(['auto', 'hex', 'decimal', 'prefixed', 'bytes'])
  .describe(
    'auto: hexadecimal after 0x or with a letter a to f or a trailing h, else decimal; prefixed: hexadecimal, and no number without 0x before or h behind it; bytes: two hexadecimal digits a byte, the byte at the lowest address first, blanks between them or not',
  )
export type NumberBase = z.infer<typeof numberBaseSchema>

export const layoutSchema = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('delimited'),
      delimiter: z.string().length(1).describe('one character between two cells'),
      quote: z.string().length(1).optional().describe('encloses a cell that holds the delimiter; doubled inside'),
    })
    .describe('cells with one delimiter between them; blanks around a cell do not count'),
  z
    .strictObject({
      kind: z.literal('spaced'),
      bytesPerWord: z
        .int()
        .min(2)
        .max(8)
        .optional()
        .describe('so many cells of two hexadecimal digits beside each other are one cell'),
    })
    .describe('cells with one or more blanks or tabs between them'),
  z
    .strictObject({ kind: z.literal('fixed'), starts: z.array(z.int().min(0).max(10_000)).min(1).max(MAX_COLUMNS) })
    .describe('cell i runs from character starts[i] (from 0) to the next start; cells may be blank'),
  z
    .strictObject({ kind: z.literal('pairs') })
    .describe('name=value or name:value anywhere in the line; a column’s `at` is the name, in any case'),
  z
    .strictObject({ kind: z.literal('pattern'), pattern: z.string().min(1).max(500) })
    .describe(
      'fixed text with fields in braces, such as `at {address} wrote {expected} read {actual}`; a run of blanks stands for any run of blanks, a field takes the characters up to the next blank or the next fixed text; {_} is a field that is not used, {bits...} takes blanks too',
    ),
  z.strictObject({ kind: z.literal('json') }).describe('objects, alone or in arrays; a column’s `at` is the field'),
  z
    .strictObject({ kind: z.literal('named') })
    .describe(
      'names of the board anywhere in the line and what is said beside each; the fields are `name`, `errors` (the number that errors are told by, or the only one), `number 1`, `number 2` …',
    ),
])
export type Layout = z.infer<typeof layoutSchema>

export const columnSchema = z.strictObject({
  role: columnRoleSchema,
  at: z
    .union([z.int().min(0).max(10_000), z.string().min(1).max(80)])
    .describe('number of the cell, from 0; for `pairs` and `pattern` the name of the field'),
  base: numberBaseSchema.default('auto'),
  of: z
    .string()
    .min(1)
    .max(120)
    .optional()
    .describe('for a count: the part, channel or lane that it belongs to, beside what the row names'),
})
export type Column = z.infer<typeof columnSchema>

export const recordSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('starts'), text: z.string().min(1).max(80) }).describe('one begins with this text'),
  z.strictObject({ kind: z.literal('blank') }).describe('a blank line stands between two'),
  z.strictObject({ kind: z.literal('lines'), count: z.int().min(2).max(64) }).describe('each has so many lines'),
])
export type RecordShape = z.infer<typeof recordSchema>

const rowKindSchema = z.strictObject({ layout: layoutSchema, columns: z.array(columnSchema).min(1).max(MAX_COLUMNS) })

export const recipeSchema = z
  .strictObject({
    name: z.string().min(1).max(120),
    layout: layoutSchema,
    columns: z.array(columnSchema).min(1).max(MAX_COLUMNS),
    skipLinesWith: z
      .array(z.string().min(1).max(200))
      .max(50)
      .default([])
      .describe('a line that holds one of these texts is no row'),
    addressUnitBytes: z
      .int()
      .min(1)
      .max(2 ** 30)
      .default(1)
      .describe('bytes for which one step of the address stands'),
    record: recordSchema.optional().describe('for rows over several lines, read as one line'),
    heads: z
      .array(rowKindSchema)
      .max(8)
      .optional()
      .describe('lines that say something about all rows below them, up to the next such line'),
    tables: z.array(rowKindSchema).max(8).optional().describe('other kinds of rows in the same text'),
    grouping: z.enum([',', '.', "'", ' ']).optional().describe('the mark between thousands of a count'),
    names: foreignNamesSchema.optional(),
  })
  .describe('How to read one kind of report text')
export type RowKind = z.infer<typeof rowKindSchema>
export type Recipe = z.infer<typeof recipeSchema>

/** Names in running text and what is said of them, some of them foreign. */
export const recipeWithNames = (names: ForeignNames): Recipe =>
  recipeSchema.parse({
    name: say('names and what is said of them'),
    layout: { kind: 'named' },
    columns: [
      { role: 'part', at: 'name' },
      { role: 'count', at: 'errors' },
    ],
    names,
  })

/** One line of a table entered by hand: what failed and how often; 0 errors means tested and clean. */
export const tableRowSchema = z
  .strictObject({
    part: z.string().min(1).max(120).optional(),
    channel: z.string().min(1).max(120).optional(),
    lane: z.string().min(1).max(120).optional(),
    bit: z.int().min(0).max(1023).optional().describe('data bit of the lane, or of the channel where no lane is named'),
    errors: z.number().int().min(0).max(Number.MAX_SAFE_INTEGER),
  })
  .refine((row) => row.part !== undefined || row.channel !== undefined || row.lane !== undefined, {
    message: say('a part, a channel or a lane'),
  })
export type TableRow = z.infer<typeof tableRowSchema>
