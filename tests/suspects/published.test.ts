import { describe, expect, it } from 'vitest'
import { fire } from '../../src/suspects/index.ts'

/** Probability that one finding is bad: leak first, then each cause that is there. */
function probabilityBad(leak: number, present: readonly number[]): number {
  const mass = Float64Array.of(1, 0)
  for (const q of [leak, ...present]) fire(mass, { bits: Uint8Array.of(0), q: Float64Array.of(q) })
  return mass[1] ?? Number.NaN
}

describe('the noisy-OR kernel against published tables', () => {
  /**
   * Fever by cold, flu, malaria with inhibitions 0.6, 0.2, 0.1: Pearl, Probabilistic Reasoning in Intelligent Systems
   * (1988), section 4.3.2; the numbers as in Russell and Norvig, Artificial Intelligence, figure 14.10 (2nd edition).
   */
  it.each([
    ['', 0],
    ['malaria', 0.9],
    ['flu', 0.8],
    ['flu malaria', 0.98],
    ['cold', 0.4],
    ['cold malaria', 0.94],
    ['cold flu', 0.88],
    ['cold flu malaria', 0.988],
  ])('fever given [%s] is %d', (present, expected) => {
    const strength: Record<string, number> = { cold: 0.4, flu: 0.8, malaria: 0.9 }
    const qs = present.split(' ').flatMap((name) => strength[name] ?? [])
    expect(probabilityBad(0, qs)).toBeCloseTo(expected, 12)
  })

  /** Leak 0.1 with two causes of 0.8 and 0.6: worked by hand from 1 − (1 − leak)·Π(1 − p), as leaky noisy-OR is printed in tool manuals. */
  it.each([
    [[], 0.1],
    [[0.6], 0.64],
    [[0.8], 0.82],
    [[0.8, 0.6], 0.928],
  ])('with leak 0.1 and causes %j the effect has %d', (present, expected) => {
    expect(probabilityBad(0.1, present)).toBeCloseTo(expected, 12)
  })

  it('two findings that one cause makes bad independently are jointly bad with the product', () => {
    const mass = Float64Array.of(1, 0, 0, 0)
    fire(mass, { bits: Uint8Array.of(0, 1), q: Float64Array.of(0.8, 0.5) })
    expect([...mass]).toEqual([0.2 * 0.5, 0.8 * 0.5, 0.2 * 0.5, 0.8 * 0.5].map((value) => expect.closeTo(value, 12)))
  })
})
