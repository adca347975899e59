/** Lines of one shape as a pattern: what is the same in all of them stands as text, what changes is a field. */
import { isOtherHeading, roleOfHeading } from '../names/headings.ts'
import type { Cut, CutColumn, IsName } from './layouts.ts'
import { compilePattern } from '../text/pattern.ts'
import { verdictOf } from '../text/quantity.ts'
import type { SampleLine } from '../text/shapes.ts'
import { type Token, tokensOf } from '../text/tokens.ts'

const MAX_PATTERN = 400

/** One cut, or none where the lines have braces, or too little in common. */
export function patternCut(lines: readonly SampleLine[], isName: IsName): Cut[] | undefined {
  const [first] = lines
  if (first === undefined || /[{}]/.test(first.text)) return undefined
  const tokens = lines.map((line) => merged(line.text, tokensOf(line.text)))
  const width = tokens[0]?.length ?? 0
  const even = tokens.flatMap((own, i) =>
    own.length === width && lines[i] !== undefined ? [{ own, line: lines[i] }] : [],
  )
  if (width === 0 || even.length < lines.length) return undefined
  const varies = (at: number): boolean => new Set(even.map(({ own }) => own[at]?.text)).size > 1
  const bytes = (tokens[0] ?? []).filter(isByte).length
  const isField = (at: number): boolean =>
    (bytes >= BYTES_OF_A_DUMP && isByte(tokens[0]?.[at])) ||
    varies(at) ||
    isValue(tokens[0]?.[at]) ||
    verdictOf(tokens[0]?.[at]?.text ?? '') === 'pass' ||
    isName(tokens[0]?.[at]?.text ?? '')
  const { pattern, fields } = written(first.text, tokens[0] ?? [], isField, (at) =>
    even.some(({ own }) => /\s/.test(own[at]?.text ?? '')),
  )
  const fixed = pattern.replace(/\{[^}]*\}/g, '')
  if (fields.length === 0 || pattern.length > MAX_PATTERN || !isTelling(fixed)) return undefined
  const compiled = compilePattern(pattern)
  if (!compiled.ok) return undefined
  const matches = lines.map((line) => compiled.value.match(line.text))
  if (matches.some((match) => match === undefined)) return undefined
  const columns = fields.map(
    ({ name, token }): CutColumn => ({
      at: name,
      texts: matches.map((match) => match?.get(name) ?? ''),
      heading: wordBeside(first.text, tokens[0] ?? [], token, isField),
    }),
  )
  return [{ layout: { kind: 'pattern', pattern }, columns, headingLine: undefined }]
}

/** So many bytes in a line are a dump, and none of them is a word. */
const BYTES_OF_A_DUMP = 4
const isByte = (token: Token | undefined): boolean => token !== undefined && /^[0-9a-fA-F]{2}$/.test(token.text)

/** Marks alone that part cells leave the line to a table, which has headings. */
const isTelling = (fixed: string): boolean => /\p{L}/u.test(fixed) || (/\S/.test(fixed) && !/[,;|\t]/.test(fixed))

const isValue = (token: Token | undefined): boolean =>
  token !== undefined &&
  (token.kind === 'number' ||
    token.kind === 'hex' ||
    token.kind === 'share' ||
    token.kind === 'measure' ||
    token.kind === 'time')

function written(
  line: string,
  tokens: readonly Token[],
  isField: (at: number) => boolean,
  hasBlanks: (at: number) => boolean,
): { pattern: string; fields: { name: string; token: number }[] } {
  let pattern = ''
  let behind = 0
  const fields: { name: string; token: number }[] = []
  for (const [at, token] of tokens.entries()) {
    pattern += line.slice(behind, token.from)
    behind = token.to
    if (!isField(at)) {
      pattern += token.text
      continue
    }
    const name = `f${fields.length + 1}`
    const wide = hasBlanks(at) || token.kind === 'time'
    pattern += wide ? `{${name}...}` : `{${name}}`
    fields.push({ name, token: at })
  }
  return { pattern: pattern + line.slice(behind), fields }
}

const LIST = /(?:DQ|dq|bits?|D)[\s#[]*\d{1,2}\]?(?:[\s,+&]*(?:DQ|dq|bit|D)?[\s#[]*\d{1,2}\]?)*/g

/** Bytes with single blanks between them, as a dump writes a word. */
const BYTES = /(?:^|\s)[0-9a-fA-F]{2}(?: [0-9a-fA-F]{2}){1,7}(?=\s*(?:[^\s0-9a-fA-F]|\p{L}{3}|$))/gu

/** A list such as `DQ3, DQ11` is one token; so are pieces that nothing stands between. */
function merged(line: string, tokens: readonly Token[]): Token[] {
  const bytes = [...line.matchAll(BYTES)].map((match) => {
    const from = match.index + match[0].length - match[0].trimStart().length
    return { from, to: match.index + match[0].length }
  })
  const lists = [...line.matchAll(LIST)]
    .filter((match) => /[\s,]/.test(match[0].replace(/^[A-Za-z]+\s*/, '')) || /^(?:DQ|bit)/i.test(match[0]))
    .map((match) => ({ from: match.index, to: match.index + match[0].length }))
  const out: Token[] = []
  for (const token of tokens) {
    const list = [...lists, ...bytes].find(({ from, to }) => token.from >= from && token.to <= to)
    const last = out.at(-1)
    if (list === undefined) out.push(token)
    else if (last === undefined || last.from < list.from) {
      out.push({ kind: 'word', text: line.slice(list.from, list.to), from: list.from, to: list.to })
    }
  }
  return out
}

/** The words of the line that tell what a field is: those before it, else one behind it. */
function wordBeside(
  line: string,
  tokens: readonly Token[],
  at: number,
  isField: (at: number) => boolean,
): string | undefined {
  const behind = tokens[at + 1]
  const sign = line.slice(tokens[at - 1]?.from ?? 0, tokens[at]?.from ?? 0)
  const countedBy =
    behind?.kind === 'word' && !/\d/.test(behind.text) && roleOfHeading(behind.text) === 'count'
      ? behind.text
      : undefined
  const isSigned = /[:=]\s*$/.test(sign)
  if (!isSigned && countedBy !== undefined) return countedBy
  for (let i = at - 1; i >= Math.max(0, at - 4); i--) {
    const token = tokens[i]
    if (token === undefined || isValue(token)) return countedBy
    if (isField(i)) continue
    if (token.kind === 'word' || token.text === '@') {
      if (roleOfHeading(token.text) !== undefined || isOtherHeading(token.text)) return token.text
    }
  }
  return countedBy
}
