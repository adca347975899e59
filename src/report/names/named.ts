/** Lines that name parts, channels or lanes in running text: each name, and what the line says of it. */
import type { LabelCells } from './labels.ts'
import { roleOfHeading } from './headings.ts'
import type { NameBook, NameHit } from './names.ts'
import { verdictOf, type Verdict } from '../text/quantity.ts'
import { type Token, tokensOf } from '../text/tokens.ts'

/** What a line says of one place. */
export interface Statement {
  readonly labels: LabelCells
  /** Fields by name: `errors`, `tested`, `number 1` … */
  readonly fields: ReadonlyMap<string, string>
  readonly verdict: Verdict | undefined
}

export interface NamedLine {
  readonly statements: readonly Statement[]
  /** Names stand in it, but nothing is said of them: it heads what follows. */
  readonly isHead: boolean
  /** It names a lane of which it says nothing, beside others of which it does. */
  readonly isBroken: boolean
}

const NOTHING: NamedLine = { statements: [], isHead: false, isBroken: false }
const NO_LABELS: LabelCells = { part: undefined, channel: undefined, lane: undefined }

/** A reader of one text, line by line: what a heading names holds for the lines under it. */
export function namedReader(book: NameBook): (line: string) => NamedLine {
  let heads: { readonly indent: number; readonly labels: LabelCells; readonly bare: boolean }[] = []
  return (line) => {
    const tokens = tokensOf(line)
    if (tokens.length === 0) return NOTHING
    const indent = tokens[0]?.from ?? 0
    const context = heads.findLast((head) => head.bare || head.indent < indent)?.labels ?? NO_LABELS
    const { statements, open, isBroken } = statementsOf(book, tokens, context)
    if (statements.length === 0 && open === undefined) return NOTHING
    const isHead = statements.length === 0
    const labels = open ?? statements[0]?.labels ?? NO_LABELS
    const isWhole = book.place(labels) !== undefined
    if (isWhole && (isHead || heads.length === 0 || !sameLabels(labels, context))) {
      heads = [
        ...heads.filter((head) => head.indent < indent && !(isHead && head.bare)),
        { indent, labels, bare: isHead },
      ]
    }
    return { statements, isHead, isBroken: isBroken && !isHead }
  }
}

const sameLabels = (a: LabelCells, b: LabelCells): boolean =>
  a.part === b.part && a.channel === b.channel && a.lane === b.lane

interface Group {
  labels: LabelCells
  readonly fields: Map<string, string>
  plain: number
  verdict: Verdict | undefined
}

function statementsOf(
  book: NameBook,
  tokens: readonly Token[],
  context: LabelCells,
): { statements: Statement[]; open: LabelCells | undefined; isBroken: boolean } {
  const statements: Statement[] = []
  let group: Group | undefined
  /** Said before the first name: `12 errors on U13`. */
  const before: Group = { labels: NO_LABELS, fields: new Map(), plain: 0, verdict: undefined }
  let i = 0
  /** Just behind the last name: what a name is made of tells nothing of the numbers behind it. */
  let floor = 0
  /** A lane is named, and another one before anything was said of it. */
  let isBroken = false
  while (i < tokens.length) {
    const hit = book.at(tokens, i)
    if (hit !== undefined && (hit.whole || makesSense(book, group, context, hit))) {
      if (group !== undefined && hasSaid(group)) statements.push(group)
      const scope: LabelCells | undefined = group?.labels
      const fresh = group === undefined || hasSaid(group)
      const labels = labelsWith(book, fresh, scope, context, hit)
      if (!fresh && scope?.lane !== undefined && labels.lane !== scope.lane) isBroken = true
      group =
        fresh || group === undefined
          ? { labels, fields: new Map(), plain: 0, verdict: undefined }
          : { ...group, labels }
      i = hit.to
      floor = hit.to
      continue
    }
    i = takeToken(group ?? before, tokens, i, floor)
  }
  if (group === undefined) return { statements: [], open: undefined, isBroken: false }
  if (!hasSaid(group) && statements.length === 0 && hasSaid(before)) group = { ...before, labels: group.labels }
  else if (before.verdict !== undefined && group.verdict === undefined) group.verdict = before.verdict
  // `0 errors in U11, 12 errors in U13`: what belongs to which can't be told.
  if (statements.length > 0 && !hasSaid(group)) isBroken = true
  if (
    before.fields.has('errors') &&
    (statements.length > 0 || group.fields.has('errors')) &&
    !isBorrowed(group, before)
  )
    isBroken = true
  if (hasSaid(group)) statements.push(group)
  return { statements, open: statements.length > 0 ? undefined : group.labels, isBroken }
}

/** What stood before the only name was given to it. */
const isBorrowed = (group: Group, before: Group): boolean => group.fields === before.fields

const hasSaid = (group: Group): boolean => group.fields.size > 0 || group.verdict !== undefined

/** A lane's own name counts only where it means something beside what is named before it. */
function makesSense(book: NameBook, group: Group | undefined, context: LabelCells, hit: NameHit): boolean {
  return book.place(labelsWith(book, true, group?.labels, context, hit)) !== undefined
}

function labelsWith(
  book: NameBook,
  fresh: boolean,
  scope: LabelCells | undefined,
  context: LabelCells,
  hit: NameHit,
): LabelCells {
  const own = { ...NO_LABELS, [hit.role]: hit.label }
  if (hit.whole && (fresh || scope === undefined)) {
    const inside = joined(context, hit)
    return hit.role !== 'part' && book.place(own)?.by === 'order' && book.place(inside) !== undefined ? inside : own
  }
  for (const outer of [scope, withoutLane(scope), context, withoutLane(context)]) {
    if (outer === undefined) continue
    const together = joined(outer, hit)
    if (book.place(together) !== undefined) return together
  }
  return hit.whole ? own : joined(scope ?? context, hit)
}

const withoutLane = (labels: LabelCells | undefined): LabelCells | undefined =>
  labels === undefined ? undefined : { ...labels, lane: undefined }

const joined = (outer: LabelCells, hit: NameHit): LabelCells => ({ ...outer, [hit.role]: hit.label })

/** Takes what one token says of the group; returns where to go on. */
function takeToken(group: Group, tokens: readonly Token[], at: number, floor: number): number {
  const token = tokens[at]
  if (token === undefined) return at + 1
  if (token.kind === 'number') return takeNumber(group, tokens, at, floor)
  if (token.kind === 'hex' && /^0x/i.test(token.text)) return at + 1
  if (token.kind !== 'word' && !/[✓✔✗✘]/.test(token.text)) return at + 1
  const next = tokens[at + 1]
  const negated = /^(?:no|not|zero|without|keine?|sans|sin|aucune?|ningún|nessun)$/iu.test(token.text)
  if (negated && next !== undefined) {
    const verdict = verdictOf(next.text)
    if (verdict === 'fail' || roleOfHeading(next.text) === 'count') group.verdict ??= 'pass'
    else if (verdict === 'pass') group.verdict ??= 'fail'
    else if (/^(?:tested|run|checked|getestet|testé|probado)$/iu.test(next.text)) group.verdict ??= 'untested'
    else return at + 1
    return at + 2
  }
  const isKey = next !== undefined && (next.text === '=' || next.text === ':')
  const verdict = isKey ? undefined : verdictOf(token.text)
  if (verdict !== undefined && !(verdict === 'fail' && isCountWordOf(tokens, at))) group.verdict ??= verdict
  return at + 1
}

/** `errors` beside a number says what the number is, and no verdict. */
function isCountWordOf(tokens: readonly Token[], at: number): boolean {
  const near = [tokens[at - 1], tokens[at + 1], tokens[at + 2]]
  return near.some((token) => token?.kind === 'number') && roleOfHeading(tokens[at]?.text ?? '') === 'count'
}

function takeNumber(group: Group, tokens: readonly Token[], at: number, floor: number): number {
  const token = tokens[at]
  const [next, behind] = [tokens[at + 1], tokens[at + 2]]
  if (token === undefined) return at + 1
  if (behind?.kind === 'number' && (next?.text === '/' || /^(?:of|von|sur|de|di)$/i.test(next?.text ?? ''))) {
    put(group, 'errors', token.text)
    put(group, 'tested', behind.text)
    return at + 3
  }
  const beside = wordBeside(tokens, at, floor)
  const isVerdict = beside !== undefined && verdictOf(beside) !== undefined && roleOfHeading(beside) !== 'count'
  const word = isVerdict ? undefined : beside
  const role = word === undefined ? undefined : roleOfHeading(word)
  if (role === 'count') put(group, 'errors', token.text)
  else if (role === 'tested') put(group, 'tested', token.text)
  else if (role === undefined && (word === undefined || !SOMETHING_ELSE.test(word))) {
    group.plain++
    put(group, `number ${group.plain}`, token.text)
  }
  return at + 1
}

/** Words that tell what a number is, and that it is no count of errors. */
const SOMETHING_ELSE =
  /^(?:pass|passes|loop|loops|iteration|iterations|cycle|run|round|time|temp|temperature|deg|mhz|ghz|volt|watt|seed|thread|block|line|version|build|seconds|minutes|hours|percent|rate|row|rows|bank|col|column|rank|try|attempt|test|id|gpu|slot|size|width|durchgang|lauf|zeit|bits?|dq)$/i

const put = (group: Group, name: string, text: string): void => {
  if (!group.fields.has(name)) group.fields.set(name, text)
}

/** The word that tells what a number is: before a sign, else behind it, else before it. */
function wordBeside(tokens: readonly Token[], at: number, floor: number): string | undefined {
  const [two, one] = [at - 2 >= floor ? tokens[at - 2] : undefined, at - 1 >= floor ? tokens[at - 1] : undefined]
  const [next, second] = [tokens[at + 1], tokens[at + 2]]
  const isSign = one?.text === '=' || one?.text === ':'
  if (isSign && two?.kind === 'word') {
    if (roleOfHeading(two.text) !== undefined || SOMETHING_ELSE.test(two.text)) return two.text
  }
  if (one?.text === '=' || (next !== undefined && /\d/.test(next.text))) return undefined
  if (next?.kind === 'word' && (roleOfHeading(next.text) !== undefined || SOMETHING_ELSE.test(next.text)))
    return next.text
  if (next?.kind === 'word' && second?.kind === 'word' && roleOfHeading(second.text) === 'count') return second.text
  return one?.kind === 'word' ? one.text : undefined
}
