/** Numbers, days, money and chances in the words of a record. */
import { dayWords, plainly, say, sayName } from '../../base/index.ts'

/** `2026-11-05T09:30:00Z` becomes `5 November 2026, 09:30 UTC`. */
export const instantWords = (instant: string): string => {
  const [day = '', time = ''] = instant.split('T')
  return time === '' ? dayWords(day) : `${dayWords(day)}, ${time.slice(0, 5)} UTC`
}

/**
 * A chance as a word. The bands are those of the likelihood scale of the IPCC's guidance note on uncertainty
 * (Mastrandrea and others 2010, table 1: very likely from 0.9, likely from 0.66, unlikely under 0.33), from memory.
 */
export function chanceWord(probability: number): string {
  if (probability >= 0.9) return say('very likely')
  if (probability >= 0.66) return say('likely')
  if (probability >= 0.33) return say('about as likely as not')
  return say('possible, but not likely')
}

/**
 * Every leaf of a plain value with the path of names to it: for settings that are printed whole.
 * @param written how its numbers are printed
 */
export function leavesOf(value: unknown, written: (value: number) => string = plainly, path = ''): [string, string][] {
  if (value === undefined || value === null) return []
  if (typeof value === 'object') {
    return Object.entries(value).flatMap(([key, inside]) =>
      leavesOf(
        inside,
        written,
        `${path}${path === '' ? '' : ', '}${/^\d+$/.test(key) ? Number(key) + 1 : sayName(key)}`,
      ),
    )
  }
  if (typeof value === 'number') return [[path, written(value)]]
  return [[path, typeof value === 'string' ? value : value === true ? say('yes') : say('no')]]
}

/** Numbers stay on one line with their units. */
export const held = (text: string): string =>
  text.replace(/(\d) (%|mm²|mm|cm²|ml|mΩ|Ω|kΩ|MΩ|V|A|mV|°C|min|h|s)(?![\p{L}\d])/gu, '$1\u00a0$2')
