/** Small things about text that both readers share: colour codes, blanks, lines. */

/** Characters of a line that are looked at; what goes beyond is cut off for showing. */
export const MAX_SHOWN_LINE = 200

/** Lines of the beginning of a report that a guess looks at. */
export const MAX_SAMPLE_LINES = 200_000

const ESCAPE = String.fromCharCode(27)
// ECMA-48 control sequences (`ESC [ … final byte`), operating-system commands up to BEL or ST, and two-character escapes.
const COLOUR_CODES = new RegExp(
  `${ESCAPE}(?:\\[[0-?]*[ -/]*[@-~]|\\][^${String.fromCharCode(7)}${ESCAPE}]*(?:${String.fromCharCode(7)}|${ESCAPE}\\\\)?|[@-Z\\\\^_])`,
  'g',
)

/** The text without terminal colour codes (ECMA-48, fifth edition, section 5.4). */
export function stripColourCodes(text: string): string {
  return text.includes(ESCAPE) ? text.replace(COLOUR_CODES, '') : text
}

/** Cuts blanks (space and tab, nothing else, so that bytes and text agree) from both ends. */
export function trimBlanks(text: string): string {
  let from = 0
  let to = text.length
  while (from < to && isBlank(text.charCodeAt(from))) from++
  while (to > from && isBlank(text.charCodeAt(to - 1))) to--
  return from === 0 && to === text.length ? text : text.slice(from, to)
}

/** Blank or tab, by its character code; a no-break space is none. */
export const isBlank = (code: number): boolean => code === 32 || code === 9

/** The first lines of a text, at most `most`; a line ends at LF, CR LF or a lone CR. The last piece is a line if it holds anything. */
export function firstLines(text: string, most: number): string[] {
  const lines: string[] = []
  let from = 0
  while (from < text.length && lines.length < most) {
    let to = from
    while (to < text.length && text.charCodeAt(to) !== 10 && text.charCodeAt(to) !== 13) to++
    lines.push(text.slice(from, to))
    from = to + (text.charCodeAt(to) === 13 && text.charCodeAt(to + 1) === 10 ? 2 : 1)
  }
  return lines
}

/** A line as it may be shown: without colour codes and control characters, at most 200 characters. */
export function showLine(line: string): string {
  const cut = line.length > 4 * MAX_SHOWN_LINE ? line.slice(0, 4 * MAX_SHOWN_LINE) : line
  const clean = stripColourCodes(cut).replace(/\p{Cc}/gu, ' ')
  return clean.length > MAX_SHOWN_LINE || line.length > cut.length ? `${clean.slice(0, MAX_SHOWN_LINE - 1)}…` : clean
}
