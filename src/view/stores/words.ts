/** Numbers and codes in the words of the screen. */
import { partKindWords } from '../../case/index.ts'
import {
  minutesWords as minutesIn,
  numberWords,
  percent as percentIn,
  percentOf as percentOfIn,
  say,
  sayName,
} from '../../base/index.ts'
import type { SpillMark } from '../../spill/index.ts'

/** Numbers stay on one line with their units. */
const unbroken = (words: string): string =>
  words.replaceAll(/(\d) (?=(?:%|mm|ml|cm²|min|h|s|°C)(?!\p{L}))/gu, '$1\u00a0')

/** Of a chance that is computed. */
export const percent = (probability: number): string => unbroken(percentIn(probability))

/** Of a share that was counted. */
export const percentOf = (hits: number, tries: number): string => unbroken(percentOfIn(hits, tries))

export const minutesWords = (minutes: number): string => unbroken(minutesIn(minutes))

/** Sentences in a row, with numbers kept on one line with their units. */
export const paragraph = (sentences: readonly string[]): string => unbroken(sentences.join(' '))

/** A kind of part in words; any other name of the program with blanks for its hyphens. */
export const spacedKind = (kind: string): string =>
  Object.entries(partKindWords).find(([name]) => name === kind)?.[1] ?? sayName(kind)

export function amountWords(amount: SpillMark['amount']): string {
  return 'volumeMl' in amount
    ? `${numberWords(amount.volumeMl)} ml`
    : say('a smear of {smearCm2} cm²', { smearCm2: numberWords(amount.smearCm2) })
}
