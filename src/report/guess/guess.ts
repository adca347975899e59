/** How an unknown report is to be read: the recipe, how sure and why, receipts, the first rows read that way, other ways. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type Candidate, candidatesOf, surroundingsOf } from './candidates.ts'
import { type ForeignName, foreignNames } from './foreign-names.ts'
import { type KeptReading, keptReadings, readingsFor } from '../names/foreign/kept.ts'
import { type Mask, maskOf, nameOfBit, recipeOfMask } from '../names/foreign/mask.ts'
import type { ForeignNames } from '../names/foreign/meaning.ts'
import { type Judged, judge } from './judge.ts'
import { nameBook } from '../names/names.ts'
import { compilePlan } from '../rows/recipe-plan.ts'
import { type PreviewRow, previewRows } from './preview.ts'
import { type Receipt, receiptsOf } from './receipts.ts'
import { type Recipe, recipeSchema } from '../recipe.ts'
import { rowReader } from '../rows/row.ts'
import { type SampleLine, sampleLines } from '../text/shapes.ts'
import { forgetTokens } from '../text/tokens.ts'
import { viewsOf } from './structures.ts'
import { blamedParts } from './trial.ts'

/** `sure`: nothing speaks against it; `unsure`: to be decided by the user; `unknown`: nothing reads as rows of errors. */
export type Sureness = 'sure' | 'unsure' | 'unknown'

export interface OtherReading {
  readonly recipe: Recipe
  /** Refs of the parts that it blames. */
  readonly parts: readonly string[]
  readonly why: string
}

export interface RecipeGuess {
  readonly recipe: Recipe
  readonly sure: Sureness
  /** From 0 (nothing found: the recipe is a blank to start from) to 1. */
  readonly confidence: number
  /** Sentences: why it is read that way, and what speaks against it. */
  readonly why: readonly string[]
  /** Some lines of the report beside what they were taken for. */
  readonly receipts: readonly Receipt[]
  readonly preview: readonly PreviewRow[]
  /** Lines before the first row. */
  readonly bannerLines: number
  readonly alternatives: readonly { readonly recipe: Recipe; readonly why: string }[]
  /** Readings that blame other parts. */
  readonly others: readonly OtherReading[]
  /** Names that are not the board's, where the report is not surely read or they were told. */
  readonly foreign: readonly ForeignName[]
  /** What is known of them: told for this reading, or kept by the board for reports that look like this one. */
  readonly names: ForeignNames
  /** How reports that look like this one were read before, the latest first; to be proposed. */
  readonly kept: readonly KeptReading[]
}

/** From this confidence on, the beginning that was looked at is enough; below, rows may come yet. */
export const GOOD_ENOUGH = 0.3

/** A recipe to start from where nothing can be guessed. */
export const BLANK_RECIPE: Recipe = recipeSchema.parse({
  name: say('by hand'),
  layout: { kind: 'delimited', delimiter: ',' },
  columns: [
    { role: 'address', at: 0, base: 'hex' },
    { role: 'expected', at: 1, base: 'hex' },
    { role: 'actual', at: 2, base: 'hex' },
  ],
})

/**
 * Guesses how a report is to be read.
 * @param sample the beginning of the report, decoded; with a long banner it must reach well into the rows
 * @param model the board, whose names and address range help to tell the columns
 * @param names what foreign names mean on this board
 */
export function guessRecipe(sample: string, model?: BoardModel, names?: ForeignNames): RecipeGuess {
  const lines = sampleLines(sample)
  const kept = model === undefined ? [] : readingsFor(lines, keptReadings(model.description))
  const known = names ?? kept.find((one) => one.names !== undefined)?.names
  const guess = guessWith(sample, lines, model, known)
  forgetTokens()
  return { ...guess, names: known ?? {}, kept }
}

function guessWith(
  sample: string,
  lines: readonly SampleLine[],
  model: BoardModel | undefined,
  names: ForeignNames | undefined,
): BareGuess {
  const book = model === undefined ? undefined : nameBook(model, names)
  const around = surroundingsOf(model, book, names)
  const isName = (text: string): boolean => book?.isName(text) ?? false
  const views = viewsOf(lines, isName)
  const mask = model === undefined ? undefined : maskOf(lines, model.memories.length)
  const candidates = [
    ...views.flatMap((view) => candidatesOf(view, around)),
    ...(mask !== undefined && names?.[nameOfBit(0)] !== undefined ? [candidateOfMask(mask)] : []),
  ]
  const named =
    names === undefined ? candidates : candidates.map((one) => ({ ...one, recipe: { ...one.recipe, names } }))
  const judged =
    model === undefined || book === undefined
      ? undefined
      : judge(named, model, book, lines, /[\r\n]$/.test(sample) ? undefined : lines.at(-1)?.number)
  const best = judged?.best.candidate ?? likeliest(named)
  const guess = best === undefined ? nothing(sample, lines) : guessOf(sample, lines, best, judged, model)
  if (model === undefined || (guess.sure === 'sure' && names === undefined)) return guess
  return { ...guess, foreign: foreignNames(lines, model, nameBook(model), judged?.best.trial) }
}

const likeliest = (candidates: readonly Candidate[]): Candidate | undefined =>
  candidates.toSorted((a, b) => b.roles.confidence * b.used * b.weight - a.roles.confidence * a.used * a.weight)[0]

/** Only where it is told what the bits mean. */
const candidateOfMask = (mask: Mask): Candidate => ({
  recipe: recipeOfMask(mask),
  roles: {
    confidence: 1,
    why: [say('The bits of each mask are the packages that were told.')],
    swappable: false,
    doubts: [],
  },
  used: 3,
  weight: 2,
  count: mask.values.length,
  firstLine: mask.values[0]?.line ?? 1,
  headingLine: undefined,
  origin: 'mask',
  bareDecimal: false,
})

type BareGuess = Omit<RecipeGuess, 'names' | 'kept'>

function nothing(sample: string, lines: readonly SampleLine[]): BareGuess {
  const why = [
    lines.length === 0 ? say('There is nothing in it.') : say('No line of the beginning reads as a row of errors.'),
  ]
  return {
    recipe: BLANK_RECIPE,
    sure: 'unknown',
    confidence: 0,
    why,
    receipts: [],
    preview: previewRows(sample, BLANK_RECIPE),
    bannerLines: 0,
    alternatives: [],
    others: [],
    foreign: [],
  }
}

function guessOf(
  sample: string,
  lines: readonly SampleLine[],
  best: Candidate,
  judged: Judged | undefined,
  model: BoardModel | undefined,
): BareGuess {
  const tried = judged?.best.trial.recipe ?? best.recipe
  const recipe = { ...tried, skipLinesWith: textsToPassOver(tried, lines, model) }
  const preview = previewRows(sample, recipe, undefined, model)
  const heading =
    best.headingLine === undefined
      ? []
      : [say('Line {headingLine} has the headings.', { headingLine: best.headingLine })]
  return {
    recipe,
    sure: judged?.sure ?? 'unsure',
    confidence: Math.min(1, best.roles.confidence),
    why: [...(judged?.why ?? []), ...heading, ...best.roles.why],
    receipts: judged === undefined || model === undefined ? [] : receiptsOf(judged.best.trial, model),
    preview,
    bannerLines: (preview[0]?.line ?? 1) - 1,
    alternatives: alternativesOf(best, recipe, judged),
    others: (judged?.others ?? []).map(({ trial, candidate }) => ({
      recipe: trial.recipe,
      parts: blamedParts(trial.tally),
      why: candidate.roles.why.join(' '),
    })),
    foreign: [],
  }
}

const MAX_PASSED_OVER = 10
const MAX_LINES_TRIED = 3000

/** Openings of lines between the rows that recur and are plainly prose: `Pass 3 of 10`, `# note`, a repeated heading. */
function textsToPassOver(recipe: Recipe, lines: readonly SampleLine[], model: BoardModel | undefined): string[] {
  const plan = compilePlan(recipe, model)
  if (!plan.ok || recipe.record !== undefined || recipe.layout.kind === 'json' || recipe.layout.kind === 'named')
    return []
  const read = rowReader(plan.value)
  const openings = new Map<string, number>()
  let rowSeen = false
  for (const line of lines.slice(0, MAX_LINES_TRIED)) {
    const opening = /^\s*(#+|\/\/|\*+|-{3,}|={3,}|\[?\p{L}{3,}[\p{L} ]*)/u.exec(line.text)?.[1]
    // Only heads make the reading of a line depend on those before it.
    if (rowSeen && opening === undefined && plan.value.heads.length === 0) continue
    const row = read(line.text)
    if (row.kind === 'row') rowSeen = true
    if (!rowSeen || row.kind !== 'unreadable' || row.looksLikeRow || opening === undefined) continue
    openings.set(opening, (openings.get(opening) ?? 0) + 1)
  }
  return [...openings]
    .filter(([, times]) => times >= 2)
    .map(([opening]) => opening)
    .slice(0, MAX_PASSED_OVER)
}

function alternativesOf(best: Candidate, recipe: Recipe, judged: Judged | undefined): RecipeGuess['alternatives'] {
  const alternatives: { recipe: Recipe; why: string }[] = []
  if (best.roles.swappable) {
    const swap = { expected: 'actual', actual: 'expected' } as const
    const columns = recipe.columns.map((column) =>
      column.role === 'expected' || column.role === 'actual' ? { ...column, role: swap[column.role] } : column,
    )
    alternatives.push({ recipe: { ...recipe, columns }, why: 'Expected and actual the other way round.' })
  }
  if (best.bareDecimal) {
    const columns = recipe.columns.map((column) =>
      column.role === 'count' ? column : { ...column, base: 'hex' as const },
    )
    alternatives.push({ recipe: { ...recipe, columns }, why: say('The digits as hexadecimal numbers.') })
  }
  for (const { candidate, trial } of judged?.ranked.slice(1, 4) ?? []) {
    const why =
      candidate.origin === best.origin
        ? say('The same cells, taken for something else.')
        : say('Cut in another way, or other lines as rows.')
    alternatives.push({ recipe: trial.recipe, why })
  }
  return alternatives
}
