/** A guess at how an unknown report is to be read: the recipe, how sure and why, the first rows read that way, other ways. */
import type { BoardModel } from '../board/index.ts'
import { compileAddressMap } from '../board/index.ts'
import { type ColumnLook, lookAtColumn, numbersOf } from './columns.ts'
import { type Cut, cutsOf } from './layouts.ts'
import { compilePlan } from './plan.ts'
import { type PreviewRow, previewRows } from './preview.ts'
import { type Recipe, recipeSchema } from './recipe.ts'
import { assignRoles, type IsMapped, type Roles } from './roles.ts'
import { rowReader } from './row.ts'
import { rowShapes, type SampleLine, sampleLines, type Shape } from './shapes.ts'

export interface RecipeGuess {
  readonly recipe: Recipe
  /** From 0 (nothing found: the recipe is a blank to start from) to 1. */
  readonly confidence: number
  /** Sentences: why it is read that way. */
  readonly why: readonly string[]
  readonly preview: readonly PreviewRow[]
  /** Lines before the first row. */
  readonly bannerLines: number
  readonly alternatives: readonly { readonly recipe: Recipe; readonly why: string }[]
}

/** From this confidence on, the beginning that was looked at is enough; below, rows may come yet. */
export const GOOD_ENOUGH = 0.3

interface Candidate {
  readonly shape: Shape
  readonly cut: Cut
  readonly looks: readonly ColumnLook[]
  readonly roles: Roles
  readonly score: number
}

/** A recipe to start from where nothing can be guessed. */
export const BLANK_RECIPE: Recipe = recipeSchema.parse({
  name: 'by hand',
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
 */
export function guessRecipe(sample: string, model?: BoardModel): RecipeGuess {
  const lines = sampleLines(sample)
  const isMapped = mappedTest(model)
  const candidates = rowShapes(lines)
    .flatMap((shape) => cutsOf(shape, lines).map((cut) => candidateOf(shape, cut, model, isMapped)))
    .filter((candidate) => candidate.score > 0)
    .toSorted((a, b) => b.score - a.score)
  const [best, ...others] = candidates
  if (best === undefined) {
    const why = ['No line of the beginning reads as a row of errors.']
    return {
      recipe: BLANK_RECIPE,
      confidence: 0,
      why,
      preview: previewRows(sample, BLANK_RECIPE),
      bannerLines: 0,
      alternatives: [],
    }
  }
  const recipe = recipeOf(best, lines)
  const preview = previewRows(sample, recipe)
  const first = preview[0]?.line ?? 1
  const heading = best.cut.headingLine === undefined ? [] : [`Line ${best.cut.headingLine} has the headings.`]
  return {
    recipe,
    confidence: Math.min(1, best.roles.confidence),
    why: [...heading, ...best.roles.why],
    preview,
    bannerLines: first - 1,
    alternatives: alternativesOf(best, recipe, others, lines),
  }
}

function mappedTest(model: BoardModel | undefined): IsMapped {
  if (model?.addressMap === undefined) return undefined
  const map = compileAddressMap(model.addressMap)
  if (!map.ok) return undefined
  const { firstAddress, endAddress } = map.value
  return (address) => address >= BigInt(firstAddress) && address < BigInt(endAddress)
}

function candidateOf(shape: Shape, cut: Cut, model: BoardModel | undefined, isMapped: IsMapped): Candidate {
  const looks = agreeOnBase(cut.columns.map((column) => lookAtColumn(column.at, column.texts, column.heading, model)))
  const found = assignRoles(looks, isMapped)
  const roles = model !== undefined && model.addressMap === undefined ? preferLabels(found) : found
  const used = roles.roles.filter((role) => role !== 'ignore').length
  const layoutBonus = cut.layout.kind === 'delimited' ? 1.1 : cut.layout.kind === 'spaced' ? 1.05 : 1
  const enough = roles.roles.includes('address') || used >= 2 ? 1 : 0.3
  return {
    shape,
    cut,
    looks,
    roles,
    score: roles.confidence * used * layoutBonus * enough * Math.log2(1 + shape.count),
  }
}

/** On a board without an address map only labels can be placed. */
function preferLabels(roles: Roles): Roles {
  const labelled = roles.roles.some((role) => role === 'part' || role === 'channel' || role === 'lane')
  if (!labelled) return roles
  return { ...roles, roles: roles.roles.map((role) => (role === 'address' ? 'ignore' : role)) }
}

/** Bare digits are hexadecimal if the columns beside them are: `00001000 DEADBEEF`. */
function agreeOnBase(looks: readonly ColumnLook[]): ColumnLook[] {
  const bareHex = looks.some(
    (look) =>
      look.base === 'hex' && look.baseShown && look.label === undefined && !look.texts.some((text) => /0x/i.test(text)),
  )
  if (!bareHex) return [...looks]
  return looks.map((look) => {
    const width = look.texts[0]?.length ?? 0
    const fixedWidth = width >= 4 && look.texts.every((text) => text.length === width)
    if (look.base !== 'decimal' || look.baseShown || !(fixedWidth || look.role === 'address')) return look
    return { ...look, base: 'hex' as const, values: numbersOf(look.texts, 'hex') }
  })
}

function recipeOf(candidate: Candidate, lines: readonly SampleLine[]): Recipe {
  const columns = candidate.looks.flatMap((look, i) => {
    const role = candidate.roles.roles[i] ?? 'ignore'
    return role === 'ignore' ? [] : [{ role, at: look.at, base: look.base ?? ('auto' as const) }]
  })
  const recipe: Recipe = {
    name: nameOf(candidate),
    layout: candidate.cut.layout,
    columns,
    skipLinesWith: [],
    addressUnitBytes: 1,
  }
  return { ...recipe, skipLinesWith: textsToPassOver(recipe, lines) }
}

function nameOf({ cut, roles }: Candidate): string {
  const used = roles.roles.filter((role) => role !== 'ignore').join(', ')
  return `${used} (${cut.layout.kind})`
}

const MAX_PASSED_OVER = 10
const MAX_LINES_TRIED = 3000

/** Openings of lines between the rows that recur and are plainly prose: `Pass 3 of 10`, `# note`, a repeated heading. */
function textsToPassOver(recipe: Recipe, lines: readonly SampleLine[]): string[] {
  const plan = compilePlan(recipe)
  if (!plan.ok) return []
  const read = rowReader(plan.value)
  const openings = new Map<string, number>()
  let rowSeen = false
  for (const line of lines.slice(0, MAX_LINES_TRIED)) {
    const row = read(line.text)
    if (row.kind === 'row') rowSeen = true
    const opening = /^\s*(#+|\/\/|\*+|-{3,}|={3,}|\[?\p{L}{3,}[\p{L} ]*)/u.exec(line.text)?.[1]
    if (!rowSeen || row.kind !== 'unreadable' || row.looksLikeRow || opening === undefined) continue
    openings.set(opening, (openings.get(opening) ?? 0) + 1)
  }
  return [...openings]
    .filter(([, times]) => times >= 2)
    .map(([opening]) => opening)
    .slice(0, MAX_PASSED_OVER)
}

function alternativesOf(
  best: Candidate,
  recipe: Recipe,
  others: readonly Candidate[],
  lines: readonly SampleLine[],
): RecipeGuess['alternatives'] {
  const alternatives: { recipe: Recipe; why: string }[] = []
  if (best.roles.swappable) {
    const swap = { expected: 'actual', actual: 'expected' } as const
    const columns = recipe.columns.map((column) =>
      column.role === 'expected' || column.role === 'actual' ? { ...column, role: swap[column.role] } : column,
    )
    alternatives.push({ recipe: { ...recipe, columns }, why: 'Expected and actual the other way round.' })
  }
  const unsure = best.looks.filter(
    (look, i) => best.roles.roles[i] === 'address' && !look.baseShown && look.base === 'decimal',
  )
  if (unsure.length > 0) {
    const columns = recipe.columns.map((column) =>
      column.role === 'count' ? column : { ...column, base: 'hex' as const },
    )
    alternatives.push({ recipe: { ...recipe, columns }, why: 'The digits as hexadecimal numbers.' })
  }
  for (const other of others.slice(0, 3)) {
    const why =
      other.shape === best.shape ? 'The same lines, cut in another way.' : 'Other lines of the file as its rows.'
    alternatives.push({ recipe: recipeOf(other, lines), why })
  }
  return alternatives
}
