/**
 * How reports of a board were read before, each kind of report by its look: what its names mean, and the recipe that was
 * put right by hand. It lies in the board's description, and can go alone as a small file.
 */
import { z } from 'zod'
import { bad, type Fault, faultsFromZod, good, parseJson, type Result, say } from '../../../base/index.ts'
import { type BoardDescription, type BoardModel, reportWordsSchema } from '../../../board/index.ts'
import { type Recipe, recipeSchema } from '../../recipe.ts'
import { type SampleLine, sampleLines } from '../../text/shapes.ts'
import { nameConflicts } from './conflicts.ts'
import { lookOf, looksAlike } from './look.ts'
import { type ForeignNames, foreignNamesSchema } from './meaning.ts'

/** One kind of report: its look, and what was said about it. */
export const keptReadingSchema = reportWordsSchema.extend({
  names: foreignNamesSchema.optional(),
  recipe: recipeSchema.optional(),
})
export type KeptReading = z.infer<typeof keptReadingSchema>

const wordsFileSchema = z
  .strictObject({
    format: z.literal('liftmap-report-words'),
    version: z.literal(1),
    board: z.string().min(1).max(120).optional().describe('name of the board that the names are of'),
    readings: z.array(keptReadingSchema).max(64),
  })
  .describe('How reports speak of a board, and how they are read')
export type WordsFile = z.infer<typeof wordsFileSchema>

const MOST_KEPT = 64

/** What a board keeps; a recipe that this version can't read is left out, its names stay. */
export function keptReadings({ reportWords = [] }: Pick<BoardDescription, 'reportWords'>): KeptReading[] {
  return reportWords.map(({ recipe, ...words }) => {
    const parsed = recipe === undefined ? undefined : recipeSchema.safeParse(recipe)
    return parsed?.success === true ? { ...words, recipe: parsed.data } : words
  })
}

/** The board with these readings instead of what it kept; the model must be loaded anew from it. */
export function withReadings(description: BoardDescription, readings: readonly KeptReading[]): BoardDescription {
  const { reportWords: _, ...bare } = description
  return readings.length === 0 ? bare : { ...bare, reportWords: readings.map((one) => reportWordsSchema.parse(one)) }
}

/** A reading to keep: @param sample the beginning of the report that it was learned from. */
export function readingOf(
  title: string,
  sample: string,
  told: { readonly names?: ForeignNames | undefined; readonly recipe?: Recipe | undefined },
): KeptReading {
  const names = told.names ?? told.recipe?.names
  const { names: _, ...recipe } = told.recipe ?? {}
  return keptReadingSchema.parse({
    title,
    look: lookOf(sampleLines(sample)),
    ...(names === undefined ? {} : { names }),
    ...(told.recipe === undefined ? {} : { recipe }),
  })
}

/** Adds a reading as the last; one of the same kind of report gives way, and hands on what is not said anew. */
export function keepReading(readings: readonly KeptReading[], reading: KeptReading): KeptReading[] {
  const same = readings.find((one) => one.look[0] === reading.look[0] && sharesMost(one.look, reading.look))
  const others = readings.filter((one) => one !== same)
  return [...others, { ...same, ...reading }].slice(-MOST_KEPT)
}

const sharesMost = (a: readonly string[], b: readonly string[]): boolean =>
  2 * a.filter((look) => b.includes(look)).length >= Math.min(a.length, b.length)

/** Those that were learned from reports that look like this one, the latest first. */
export function readingsFor(lines: readonly SampleLine[], readings: readonly KeptReading[]): KeptReading[] {
  return readings.filter(({ look }) => looksAlike(look, lines)).toReversed()
}

/** The small file: readings as JSON. */
export function writeWordsFile(readings: readonly KeptReading[], board: string | undefined): string {
  const file: WordsFile = {
    format: 'liftmap-report-words',
    version: 1,
    ...(board === undefined ? {} : { board }),
    readings: [...readings],
  }
  return `${JSON.stringify(file, null, 2)}\n`
}

/** Reads the small file, or bare names (`{ "C3 low": "CH6" }`); every name must mean something on the board. */
export function readWordsFile(text: string, model: BoardModel, path = 'file'): Result<WordsFile> {
  const value = parseJson(text, path)
  if (!value.ok) return value
  const bare = foreignNamesSchema.safeParse(value.value)
  const file: unknown =
    bare.success && !('format' in bare.data)
      ? { format: 'liftmap-report-words', version: 1, readings: [{ title: path, look: ['*'], names: bare.data }] }
      : value.value
  const parsed = wordsFileSchema.safeParse(file)
  if (!parsed.success) return bad(...faultsFromZod(parsed.error, file))
  const faults = parsed.data.readings.flatMap((reading, i) => strangersIn(reading, i, model))
  return faults.length > 0 ? bad(...faults) : good(parsed.data)
}

function strangersIn({ names = {}, title }: KeptReading, index: number, model: BoardModel): Fault[] {
  return nameConflicts(names, model)
    .filter(({ isStranger }) => isStranger)
    .map(({ sentence }) => ({
      path: `$.readings[${index}].names`,
      found: say('in {title}: {sentence}', { title: JSON.stringify(title), sentence }),
      expected: say('names of parts, channels and lanes of {name}', { name: model.name }),
      todo: say('These words are of another board: take the file that was written for this one.'),
    }))
}
