/**
 * A little pattern language: fixed text and `{fields}`. No backtracking inside a match, so that no pattern and no line
 * can make it hang: each try walks the line once, and at most 32 places are tried.
 */
import { bad, good, type Result, say } from '../../base/index.ts'
import { trimBlanks } from './text.ts'

type Piece =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'field'; readonly name: string; readonly wide: boolean }

export interface Pattern {
  readonly fields: readonly string[]
  /** The text of each field, or undefined where the line does not fit. */
  match(line: string): ReadonlyMap<string, string> | undefined
}

const MAX_TRIES = 32

/** Compiles a pattern; two fields must have some fixed text or a blank between them. */
export function compilePattern(source: string): Result<Pattern> {
  const pieces = piecesOf(collapseBlanks(trimBlanks(source)))
  if (typeof pieces === 'string') return bad(patternFault(source, pieces))
  const fields = pieces.flatMap((piece) => (piece.kind === 'field' && piece.name !== '_' ? [piece.name] : []))
  if (fields.length === 0) return bad(patternFault(source, say('no field in braces')))
  const twice = fields.find((name, i) => fields.indexOf(name) !== i)
  if (twice !== undefined) return bad(patternFault(source, say("the field '{'{twice}'}' twice", { twice })))
  return good({ fields, match: (line) => matchAnywhere(pieces, collapseBlanks(trimBlanks(line))) })
}

const patternFault = (source: string, found: string) => ({
  path: '$.layout.pattern',
  found: say('{found} in {source}', { found, source: JSON.stringify(source) }),
  expected: say("fixed text with fields such as '{'address'}', with text or a blank between two fields"),
  todo: say('Write the line as it looks and put a field in braces where its numbers stand.'),
})

/** Each run of blanks and tabs as one blank, as patterns match them. */
export const collapseBlanks = (text: string): string => text.replace(/[ \t]+/g, ' ')

function piecesOf(source: string): Piece[] | string {
  const pieces: Piece[] = []
  let at = 0
  while (at < source.length) {
    const open = source.indexOf('{', at)
    if (open < 0) {
      pieces.push({ kind: 'text', text: source.slice(at) })
      break
    }
    const close = source.indexOf('}', open)
    if (close < 0) return say('a brace that is not closed')
    const inside = source.slice(open + 1, close)
    const wide = inside.endsWith('...')
    const name = wide ? inside.slice(0, -3) : inside
    if (!/^[A-Za-z_][A-Za-z0-9_-]*$/.test(name)) return say("the field '{'{name}'}'", { name })
    if (open > at) pieces.push({ kind: 'text', text: source.slice(at, open) })
    else if (pieces.at(-1)?.kind === 'field') return say('two fields with nothing between them')
    pieces.push({ kind: 'field', name, wide })
    at = close + 1
  }
  return pieces
}

function matchAnywhere(pieces: readonly Piece[], line: string): ReadonlyMap<string, string> | undefined {
  const first = pieces[0]
  if (first?.kind !== 'text') return matchFrom(pieces, line, 0)
  let start = line.indexOf(first.text)
  for (let tries = 0; start >= 0 && tries < MAX_TRIES; tries++) {
    const found = matchFrom(pieces, line, start)
    if (found) return found
    start = line.indexOf(first.text, start + 1)
  }
  return undefined
}

function matchFrom(pieces: readonly Piece[], line: string, start: number): ReadonlyMap<string, string> | undefined {
  const found = new Map<string, string>()
  let at = start
  for (const [i, piece] of pieces.entries()) {
    if (piece.kind === 'text') {
      if (!line.startsWith(piece.text, at)) return undefined
      at += piece.text.length
      continue
    }
    const next = pieces[i + 1]
    const end = next?.kind === 'text' ? line.indexOf(next.text, at) : piece.wide ? line.length : endOfToken(line, at)
    if (end <= at) return undefined
    if (piece.name !== '_') found.set(piece.name, line.slice(at, end))
    at = end
  }
  return found
}

function endOfToken(line: string, from: number): number {
  const blank = line.indexOf(' ', from)
  return blank < 0 ? line.length : blank
}
