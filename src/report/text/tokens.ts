/** A line as words, numbers and marks: what a person sees before knowing what the numbers mean. */

export type TokenKind = 'number' | 'hex' | 'time' | 'measure' | 'share' | 'word' | 'mark'

export interface Token {
  readonly kind: TokenKind
  readonly text: string
  readonly from: number
  readonly to: number
}

const TIME = String.raw`(?:\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d(?::\d\d(?:[.,]\d+)?)?Z?)?|\d{1,2}[.\/]\d{1,2}[.\/]\d{4}|\d{1,3}:\d\d:\d\d(?:[.,]\d+)?|\d{1,2}:\d\d(?![\d:]))`
const HEX = String.raw`(?:0[xX][0-9a-fA-F]{1,8}:[0-9a-fA-F]{8}(?![\p{L}\p{N}:])|0[xX][0-9a-fA-F_]+(?![\p{L}\p{N}])|(?=[0-9a-fA-F]*\d)[0-9a-fA-F]+[hH](?![\p{L}\p{N}]))`
const UNIT = String.raw`(?:°\s?[CF]|degC|deg|mV|kHz|MHz|GHz|Hz|MT\/s|[KMGT]i?B(?:\/s)?|bytes|ms|us|ns|µs|sec|secs|seconds|min|mins|minutes|hours|[CsVWA])`
const MEASURE = String.raw`(?:\d+(?:[.,]\d+)?\s?${UNIT}(?![\p{L}\p{N}_]))`
const SHARE = String.raw`(?:\d+(?:[.,]\d+)?\s?%)`
const GROUPED = String.raw`(?:\d{1,3}(?:[,.'’]\d{3})+(?![\p{L}\p{N}_])|\d+\.\d+(?![\p{L}\p{N}_.]))`
const WORD = String.raw`[\p{L}\p{N}_#]+`
const TOKEN = new RegExp(
  `(?<time>${TIME})|(?<hex>${HEX})|(?<measure>${MEASURE})|(?<share>${SHARE})|(?<grouped>${GROUPED})|(?<word>${WORD})|[^\\s]`,
  'gu',
)

/** Each line of a sample is looked at by many readings: what was found is kept while one guess lasts. */
const remembered = new Map<string, readonly Token[]>()
const MOST_REMEMBERED = 8000
const LONGEST_REMEMBERED = 300

/** Lets go of what was kept. */
export const forgetTokens = (): void => remembered.clear()

/** Words and numbers of a line in their order; marks stay apart, blanks go. */
export function tokensOf(line: string): readonly Token[] {
  const known = remembered.get(line)
  if (known !== undefined) return known
  const plain = plainTokens(line)
  if (plain !== undefined) return plain
  const tokens = cutTokens(line)
  if (line.length <= LONGEST_REMEMBERED && remembered.size < MOST_REMEMBERED) remembered.set(line, tokens)
  return tokens
}

function cutTokens(line: string): Token[] {
  const tokens: Token[] = []
  for (const match of line.matchAll(TOKEN)) {
    const text = match[0]
    const from = match.index
    tokens.push({ kind: kindOf(match.groups ?? {}, text), text, from, to: from + text.length })
  }
  return tokens
}

/** A line of nothing but `0x12ab`, commas and blanks, as most rows with addresses are: the pattern would find the same. */
function plainTokens(line: string): Token[] | undefined {
  const tokens: Token[] = []
  let at = 0
  while (at < line.length) {
    const code = line.charCodeAt(at)
    if (code === BLANK || code === TAB) {
      at++
      continue
    }
    const token = plainToken(line, at)
    if (token === undefined) return undefined
    tokens.push(token)
    at = token.to
  }
  return tokens
}

const BLANK = 32
const TAB = 9

function plainToken(line: string, from: number): Token | undefined {
  if (line[from] === ',') return { kind: 'mark', text: ',', from, to: from + 1 }
  if (line[from] !== '0' || line[from + 1] !== 'x') return undefined
  let to = from + 2
  while (isHexDigit(line.charCodeAt(to))) to++
  const isEnded = to === line.length || line[to] === ',' || line[to] === ' ' || line[to] === '\t'
  return to > from + 2 && isEnded ? { kind: 'hex', text: line.slice(from, to), from, to } : undefined
}

const isHexDigit = (code: number): boolean => (code >= 48 && code <= 57) || ((code | 32) >= 97 && (code | 32) <= 102)

function kindOf(groups: Readonly<Record<string, string | undefined>>, text: string): TokenKind {
  if (groups['time'] !== undefined) return 'time'
  if (groups['hex'] !== undefined) return 'hex'
  if (groups['measure'] !== undefined) return 'measure'
  if (groups['share'] !== undefined) return 'share'
  if (groups['grouped'] !== undefined) return 'number'
  if (groups['word'] === undefined) return 'mark'
  if (/^\d+$/.test(text)) return 'number'
  return isBareHex(text) ? 'hex' : 'word'
}

/** Letters a to f alone are a word (`BAD`, `FACE`, `DEAD`) unless there are eight of them or more: then a memory word. */
function isBareHex(text: string): boolean {
  if (!/^[0-9a-fA-F]+$/.test(text)) return false
  return /\d/.test(text) ? text.length >= 2 : text.length >= 8
}
