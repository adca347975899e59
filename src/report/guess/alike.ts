/** Whether two reports seem to be written by the same program: their beginnings share a line, numbers apart. */

const LINES_COMPARED = 30
const FEWEST_LETTERS = 12

/** @param one the beginning of a report, decoded; some kilobytes are enough */
export function beginAlike(one: string, other: string): boolean {
  const known = new Set(tellingLines(one))
  return tellingLines(other).some((line) => known.has(line))
}

/** Lines with enough words to tell a program by, with every number made the same. */
const tellingLines = (text: string): string[] =>
  text
    .split(/\r\n?|\n/)
    .slice(0, LINES_COMPARED)
    .map((line) => line.replace(/0x[\da-f]+|\d+/gi, '#').trim())
    .filter((line) => line.replace(/[^\p{L}]/gu, '').length >= FEWEST_LETTERS)
