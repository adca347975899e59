/**
 * The words of a Gerber file: data blocks that end with a star, extended ones between percent signs. Source: Ucamco, "The
 * Gerber Layer Format Specification", revision 2024.05, 3.4.
 */
import { type Fault, say } from '../../../base/index.ts'

export interface GerberWord {
  readonly text: string
  readonly line: number
}

export interface WordTakers {
  readonly plain: (word: GerberWord) => void
  /** Words of one extended command, of which a macro has several. */
  readonly extended: (words: readonly GerberWord[]) => void
}

const NEWLINE = 10
const LONGEST_WORD = 1_000_000

/** @returns a fault where the file ends within a word or a word is endless */
export function forEachWord(
  text: string,
  take: WordTakers,
): (Omit<Fault, 'path'> & { readonly line: number }) | undefined {
  let line = 1
  let at = 0
  while (at < text.length) {
    const code = text.charCodeAt(at)
    // a star alone is an empty word
    if (code <= 32 || code === 0xfeff || text[at] === '*') {
      if (code === NEWLINE) line++
      at++
      continue
    }
    const isExtended = text[at] === '%'
    const end = text.indexOf(isExtended ? '%' : '*', at + 1)
    if (end < 0 || end - at > LONGEST_WORD) {
      const found = end < 0 ? say('the end of the file within a command') : say('a command without an end')
      return { line, found, expected: isExtended ? say('a percent sign') : say('a star') }
    }
    if (isExtended) take.extended(wordsOf(text.slice(at + 1, end), line))
    else take.plain({ text: text.slice(at, end).replaceAll(/[\r\n]/g, ''), line })
    line += newlinesIn(text, at, end)
    at = end + 1
  }
  return undefined
}

function wordsOf(block: string, firstLine: number): GerberWord[] {
  let line = firstLine
  return block.split('*').flatMap((part) => {
    const leading = /^\s*/.exec(part)?.[0] ?? ''
    const word = { text: part.trim().replaceAll(/[\r\n]/g, ''), line: line + newlinesIn(leading, 0, leading.length) }
    line += newlinesIn(part, 0, part.length)
    return word.text === '' ? [] : [word]
  })
}

function newlinesIn(text: string, from: number, to: number): number {
  let count = 0
  for (let i = from; i < to; i++) if (text.charCodeAt(i) === NEWLINE) count++
  return count
}
