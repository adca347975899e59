/** How hard a text is to read: sentences, words, syllables, and Flesch's figure from them. */

/** Sentences end with a point, question or exclamation mark, or a colon before a new start; abbreviations are not used in records. */
export const sentencesOf = (text: string): string[] =>
  text
    .split(/(?<=[.!?])\s+/)
    .map((sentence) => sentence.trim())
    .filter((sentence) => /\p{L}/u.test(sentence))

export const wordsIn = (text: string): string[] => text.match(/[\p{L}\d]+(?:[’'.,-][\p{L}\d]+)*/gu) ?? []

/** Groups of vowels, less a silent e at the end; at least one. A figure counts as one, as it is seen as one. */
export function syllablesOf(word: string): number {
  const plain = word.toLowerCase().replace(/[^a-z]/g, '')
  const groups = plain.replace(/(?:[^laeiouy]es|[^dt]ed|[^laeiouy]e)$/, (end) => end.slice(0, 1)).match(/[aeiouy]+/g)
  return Math.max(1, groups?.length ?? 0)
}

/** 206.835 − 1.015 · words per sentence − 84.6 · syllables per word (Flesch, J. Applied Psychology 1948, 32: 221). */
export function readingEase(text: string): number {
  const words = wordsIn(text)
  const syllables = words.reduce((sum, word) => sum + syllablesOf(word), 0)
  return 206.835 - 1.015 * (words.length / sentencesOf(text).length) - 84.6 * (syllables / words.length)
}
