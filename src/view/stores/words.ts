/** Numbers and codes in the words of the screen. */
import type { Case } from '../../case/index.ts'
import type { SpillMark } from '../../spill/index.ts'

/**
 * `0.934` becomes `93 %`; small ones keep a digit that says something: `0.2 %`, `under 0.1 %`. Never `0 %` or `100 %`
 * for what is not certain. Number and sign stay on one line.
 */
export function percent(probability: number): string {
  const value = probability * 100
  if (value <= 0) return '0\u00a0%'
  if (value < 0.1) return 'under 0.1\u00a0%'
  if (value > 99.9) return 'over 99.9\u00a0%'
  if (value < 1 || value > 99) return `${value.toFixed(1)}\u00a0%`
  return `${Math.round(value)}\u00a0%`
}

/** Sentences in a row, with numbers kept on one line with their units. */
export const paragraph = (sentences: readonly string[]): string =>
  sentences.join(' ').replace(/(\d) (%|mm|ml|cm²)/g, '$1\u00a0$2')

export const count = (n: number, one: string, many = `${one}s`): string =>
  `${n.toLocaleString('en')} ${n === 1 ? one : many}`

export const millimetres = (mm: number): string => `${Number(mm.toFixed(1))} mm`

export const spacedKind = (kind: string): string => kind.replaceAll('-', ' ')

/** At most `limit` of the names, then how many more. */
export function listed(names: readonly string[], limit = 4): string {
  if (names.length <= limit) return joined(names)
  return `${names.slice(0, limit).join(', ')} and ${names.length - limit} more`
}

export function joined(names: readonly string[]): string {
  if (names.length <= 1) return names[0] ?? ''
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`
}

export function amountWords(amount: SpillMark['amount']): string {
  return 'volumeMl' in amount ? `${amount.volumeMl} ml` : `a smear of ${amount.smearCm2} cm²`
}

export const accidentWords: Record<Case['arrival']['accident'], string> = {
  spill: 'something was spilled',
  flux: 'flux was left behind',
  slip: 'a tool slipped',
  none: 'no accident',
  unknown: 'not known',
}
