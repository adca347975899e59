/** Which of the readings is right, and whether that is sure: each is tried on the whole beginning and held to what must be true. */
import { asSentence, numberWords, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Candidate } from './candidates.ts'
import { misreadName } from './foreign-misread.ts'
import { doubtsOf, toldOtherwise } from './doubts.ts'
import { LIMITS } from './likelihoods.ts'
import type { NameBook } from '../names/names.ts'
import type { Recipe } from '../recipe.ts'
import { roleSaid } from '../role-words.ts'
import type { SampleLine } from '../text/shapes.ts'
import { lineTeller, type LineTeller } from './suspicious.ts'
import { blamedParts, type Trial, tryRecipe } from './trial.ts'

export interface Tried {
  readonly candidate: Candidate
  readonly trial: Trial
  readonly score: number
  readonly doubts: readonly string[]
}

export interface Judged {
  readonly best: Tried
  readonly sure: 'sure' | 'unsure' | 'unknown'
  readonly why: readonly string[]
  /** Other readings that blame other lanes, the likelier first. */
  readonly others: readonly Tried[]
  readonly ranked: readonly Tried[]
}

const MOST_TRIED = 14
const LINES_BEFORE = 300
const FEWEST_ROWS_OF_A_TABLE = 3
/** Share of the best reading's score from which on another one is shown. */
const WORTH_SHOWING = 0.25
/** Below this the best reading is no reading. */
const TOO_POOR = 0.12

/**
 * The best reading with its rivals, each tried on all the given lines; undefined where none could be tried. It is
 * unsure as soon as a doubt or a rival of nearly its score stands, and unknown where it places too little.
 */
export function judge(
  candidates: readonly Candidate[],
  model: BoardModel,
  book: NameBook,
  lines: readonly SampleLine[],
  cutLine?: number,
): Judged | undefined {
  const teller = lineTeller(book, cutLine)
  const tried = chosen(candidates)
    .flatMap((candidate) => tryCandidate(candidate, candidate.recipe, model, book, lines, teller, cutLine) ?? [])
    .toSorted((a, b) => b.score - a.score)
  const [first] = tried
  if (first === undefined) return undefined
  const best = withTables(finer(undoubted(first, tried), tried), tried, model, book, lines, teller, cutLine)
  const ranked = [best, ...tried.filter((one) => one !== best && one !== first)]
  const others = different(best, ranked)
  const rivals = others.filter(
    (other) =>
      !isPartOf(other, best) &&
      other.score >= LIMITS.rival.value * best.score &&
      other.doubts.length <= best.doubts.length,
  )
  const doubts = [
    ...best.doubts,
    ...rivals.slice(0, 1).map((rival) =>
      say('read another way ({name}) it blames {tally}', {
        name: rival.candidate.recipe.name,
        tally: blamedParts(rival.trial.tally).join(', ') || say('nothing'),
      }),
    ),
  ]
  const poor = best.candidate.roles.confidence * sharePlaced(best.trial) < TOO_POOR
  const sure = poor ? 'unknown' : doubts.length === 0 ? 'sure' : 'unsure'
  return {
    best,
    sure,
    why: [factOf(best, model), ...doubts.map(asSentence)],
    others: others.filter((other) => other.score > WORTH_SHOWING * best.score).slice(0, 3),
    ranked,
  }
}

/** Of a list of bits one reading may take the first alone. */
const listsBits = ({ trial }: Tried): boolean => trial.recipe.columns.some(({ role }) => role === 'bits')

/** It reads some of the same rows, and blames nothing else: no other reading, only less of one. */
function isPartOf(other: Tried, best: Tried): boolean {
  const lines = new Set(best.trial.rows.map((row) => row.line))
  const failing = new Set(best.trial.failing)
  const rolesOf = ({ trial }: Tried): string =>
    [...new Set(trial.recipe.columns.map(({ role }) => role))].toSorted().join()
  return (
    rolesOf(other) === rolesOf(best) &&
    (other.trial.rows.length < best.trial.rows.length || listsBits(best)) &&
    other.trial.rows.every((row) => lines.has(row.line)) &&
    other.trial.failing.every((id) => failing.has(id))
  )
}

/** The likeliest by their cells alone, each recipe once. */
function chosen(candidates: readonly Candidate[]): Candidate[] {
  const byRecipe = new Map<string, Candidate>()
  for (const candidate of candidates) {
    const { name: _, ...recipe } = candidate.recipe
    const key = JSON.stringify(recipe)
    if (!byRecipe.has(key)) byRecipe.set(key, candidate)
  }
  const cheap = (one: Candidate): number => one.roles.confidence * one.used * one.weight * Math.log2(1 + one.count)
  return [...byRecipe.values()].toSorted((a, b) => cheap(b) - cheap(a)).slice(0, MOST_TRIED)
}

function tryCandidate(
  candidate: Candidate,
  recipe: Recipe,
  model: BoardModel,
  book: NameBook,
  lines: readonly SampleLine[],
  teller: LineTeller,
  cutLine: number | undefined,
): Tried | undefined {
  const at = lines.findIndex((line) => line.number >= candidate.firstLine)
  const own = lines.slice(Math.max(0, at - LINES_BEFORE)).filter((line) => line.number !== candidate.headingLine)
  const trial = tryRecipe(recipe, model, own)
  if (trial === undefined || trial.rows.length === 0) return undefined
  const left = teller(trial).length
  const isJson = recipe.layout.kind === 'json'
  const lineCount = isJson ? trial.rows.length : new Set(trial.rows.map((row) => row.line)).size
  const explained = lineCount / (lineCount + left)
  const { confidence } = candidate.roles
  const placed = sharePlaced(trial)
  const score =
    confidence *
    candidate.used *
    candidate.weight *
    Math.log2(1 + lineCount) *
    explained ** 2 *
    (0.2 + 0.8 * placed) *
    (isByOrder(trial) ? BY_ORDER : 1)
  const misread = recipe.names === undefined ? undefined : misreadName(trial, model, book, recipe.names)
  const doubts = [
    ...candidate.roles.doubts,
    ...doubtsOf(trial, model, teller),
    ...(mayBeCut(trial, lines, cutLine) ? [say('its only row has no line break behind it, and may be cut')] : []),
    ...(misread === undefined ? [] : [misread]),
  ]
  const isMisread = misread !== undefined || toldOtherwise(trial) !== undefined
  return { candidate, trial, score: isMisread ? MISREAD * score : score, doubts }
}

/** What is left of a reading whose names fit only by their number in the board's order. */
const BY_ORDER = 0.3
/** What is left of a reading that takes a name, or a line, for something else than it says. */
const MISREAD = 0.1
const isByOrder = ({ rows }: Trial): boolean => rows.some((row) => row.place?.by === 'order')

/** The only row stands at the end without a line break, and no word beside shows how long its words are. */
function mayBeCut({ rows, plan }: Trial, lines: readonly SampleLine[], cutLine: number | undefined): boolean {
  const [row] = rows
  if (rows.length !== 1 || row?.line !== cutLine || cutLine !== lines.at(-1)?.number) return false
  if (plan.level === 'labels') return lines.length > 1
  const words = (row?.text.match(/(?:0x)?[0-9a-f]{4,}h?/gi) ?? []).slice(-2)
  return words.length < 2 || words[0]?.length !== words[1]?.length
}

function sharePlaced({ tally }: Trial): number {
  const { read, unmapped } = tally.rows
  return read + unmapped === 0 ? 0 : read / (read + unmapped)
}

/** Where the likeliest is in doubt and another that blames the same lanes is not, that one: it reads more of what is said. */
function undoubted(best: Tried, all: readonly Tried[]): Tried {
  // Rows that name nothing on this board are no reason to look away from them.
  if (best.doubts.length === 0 || best.trial.tally.rows.unmapped > 0) return best
  const placed = placedRows(best.trial)
  const other = all.find(
    (one) =>
      one.doubts.length === 0 &&
      one.score >= UNDOUBTED * best.score &&
      one.trial.plan.level === best.trial.plan.level &&
      (placedRows(one.trial) > placed ||
        (placedRows(one.trial) === placed && sameSet(one.trial.failing, best.trial.failing))),
  )
  return other ?? best
}

const placedRows = (trial: Trial): number =>
  trial.plan.level === 'words' ? trial.tally.rows.read : trial.rows.filter((row) => row.place !== undefined).length

/** Share of the best score that is enough for a reading that nothing speaks against. */
const UNDOUBTED = 0.5

/** Names and addresses in the same rows: where both blame the same parts, the addresses tell more. */
function finer(best: Tried, all: readonly Tried[]): Tried {
  if (best.trial.plan.level === 'words') return best
  const other = all.find(
    (one) =>
      one.trial.plan.level === 'words' && one.candidate.origin === best.candidate.origin && one.doubts.length === 0,
  )
  if (other === undefined || other.trial.plan.bits === 'none') return best
  return sameSet(blamedParts(other.trial.tally), blamedParts(best.trial.tally)) ? other : best
}

const sameSet = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((item) => b.includes(item))

/** Other tables of the same text join in, where they read what the best reading leaves. */
function withTables(
  best: Tried,
  all: readonly Tried[],
  model: BoardModel,
  book: NameBook,
  lines: readonly SampleLine[],
  teller: LineTeller,
  cutLine: number | undefined,
): Tried {
  const left = new Set(teller(best.trial).map((line) => line.number))
  if (left.size === 0 || best.trial.recipe.record !== undefined) return best
  for (const other of all) {
    if (other.trial.plan.level !== best.trial.plan.level || !isLineKind(other) || !isLineKind(best)) continue
    if (other.doubts.length > 0 || other.candidate.count < FEWEST_ROWS_OF_A_TABLE) continue
    if (!other.trial.rows.some((row) => left.has(row.line))) continue
    const { layout, columns } = other.trial.recipe
    const recipe = { ...best.trial.recipe, tables: [...(best.trial.recipe.tables ?? []), { layout, columns }] }
    const together = tryCandidate(best.candidate, recipe, model, book, lines, teller, cutLine)
    if (together === undefined || teller(together.trial).length > left.size / 2) continue
    return withTables(
      together,
      all.filter((one) => one !== other),
      model,
      book,
      lines,
      teller,
      cutLine,
    )
  }
  return best
}

const isLineKind = ({ trial }: Tried): boolean =>
  trial.recipe.record === undefined && trial.recipe.layout.kind !== 'json' && trial.recipe.layout.kind !== 'named'

/** Readings that blame other lanes than the best, each set of lanes once. */
function different(best: Tried, ranked: readonly Tried[]): Tried[] {
  const seen: (readonly string[])[] = [best.trial.failing]
  return ranked.filter((one) => {
    if (seen.some((failing) => sameSet(failing, one.trial.failing))) return false
    seen.push(one.trial.failing)
    return true
  })
}

/** `read as part, lane, count: all 14 names are parts of this board`. */
function factOf({ trial }: Tried, model: BoardModel): string {
  const roles = [...new Set(trial.recipe.columns.map((column) => roleSaid[column.role]))].join(', ')
  const { read, unmapped } = trial.tally.rows
  const all = read + unmapped
  const told =
    unmapped === 0
      ? say('all {all}', { all: numberWords(all) })
      : say('{read} of {all}', { read: numberWords(read), all: numberWords(all) })
  const what =
    trial.plan.level === 'words' ? say('addresses lie in the memory') : say('rows name parts, channels or lanes')
  return say('Read as {roles}: {told} {what} of {name}.', { roles, told, what, name: model.name })
}
