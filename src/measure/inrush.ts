/** What a bench supply with its current limited shows at switch-on, and how long that may last. */
import { rule } from './practice.ts'

/**
 * Bulk capacitors of C fill to V through a limit of I in t = C · V / I, because Q = C · V = I · t (any textbook of physics).
 * @param limitA above 0
 * @param inputV of the input rail
 * @returns seconds; C is what stands in `practice.json`
 */
export const inrushSeconds = (limitA: number, inputV: number): number => (rule('bulkFarad') * inputV) / limitA

/** Longer at the limit than so many seconds is a load, not capacitors that fill. */
export const longestInrushSeconds = (): number => rule('longestInrushS')
