import { fc, test } from '@fast-check/vitest'
import { describe, expect, it } from 'vitest'
import { informationOf } from '../../src/suspects/index.ts'

/**
 * The published polybox: M1 = A·C, M2 = B·D, M3 = C·E, A1 = M1 + M2 = F, A2 = M2 + M3 = G with A = 3, B = 2, C = 2,
 * D = 3, E = 3; F = 10 is observed where 12 is predicted, G = 12 as predicted. de Kleer and Williams, "Diagnosing
 * multiple faults", Artificial Intelligence 32 (1987), 97-130; the inputs and outputs also in course notes on
 * consistency-based diagnosis. The figures below were enumerated from that description, each component faulty with
 * 0.01 independently: every candidate that does not contradict an observation keeps its prior; the paper gives the
 * conclusion, that X is the best place to probe.
 */
const COMPONENTS = ['M1', 'M2', 'M3', 'A1', 'A2'] as const
type Faulty = ReadonlySet<string>

const sets = (names: readonly string[]): Faulty[] =>
  Array.from({ length: 1 << names.length }, (_, bits) => new Set(names.filter((_name, i) => (bits >> i) & 1)))

const priorOf = (faulty: Faulty, of: number, p: number): number => p ** faulty.size * (1 - p) ** (of - faulty.size)

/** What working components force X, Y and Z to be, from the inputs and from F = 10, G = 12. */
function polyboxValues(faulty: Faulty): { x?: number; y?: number; z?: number } | undefined {
  const known: { x?: number; y?: number; z?: number } = {}
  let contradiction = false
  const set = (name: 'x' | 'y' | 'z', value: number): boolean => {
    const before = known[name]
    if (before !== undefined && before !== value) contradiction = true
    known[name] = value
    return before === undefined
  }
  if (!faulty.has('M1')) set('x', 6)
  if (!faulty.has('M2')) set('y', 6)
  if (!faulty.has('M3')) set('z', 6)
  for (let again = true; again; ) {
    again = false
    if (!faulty.has('A1') && known.x !== undefined) again = set('y', 10 - known.x) || again
    if (!faulty.has('A1') && known.y !== undefined) again = set('x', 10 - known.y) || again
    if (!faulty.has('A2') && known.y !== undefined) again = set('z', 12 - known.y) || again
    if (!faulty.has('A2') && known.z !== undefined) again = set('y', 12 - known.z) || again
  }
  return contradiction ? undefined : known
}

describe('the polybox', () => {
  const candidates = sets(COMPONENTS).flatMap((faulty) => {
    const values = polyboxValues(faulty)
    return values === undefined ? [] : [{ weight: priorOf(faulty, 5, 0.01), values }]
  })

  /** Candidates that predict no value share theirs evenly among the values that others predict. */
  function probe(name: 'x' | 'y' | 'z') {
    const values = [...new Set(candidates.flatMap(({ values: known }) => known[name] ?? []))]
    const joint = candidates.flatMap(({ weight, values: known }) =>
      values.map((value) => weight * (known[name] === undefined ? 1 / values.length : known[name] === value ? 1 : 0)),
    )
    return informationOf(Float64Array.from(joint), values.length)
  }

  it('leaves 27 candidates of the weight 0.02009504', () => {
    expect(candidates).toHaveLength(27)
    expect(candidates.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(0.02009504, 8)
  })

  it('has the entropies that follow from its description before a probe and after each', () => {
    expect(probe('x').entropyBefore).toBeCloseTo(1.359445, 6)
    expect(probe('x').expectedEntropyAfter).toBeCloseTo(0.364589, 6)
    expect(probe('y').expectedEntropyAfter).toBeCloseTo(1.280149, 6)
    expect(probe('z').expectedEntropyAfter).toBeCloseTo(1.314647, 6)
  })

  it('is best probed at X, as the paper concludes', () => {
    expect(probe('x').information).toBeGreaterThan(probe('y').information)
    expect(probe('x').information).toBeGreaterThan(probe('z').information)
  })
})

/**
 * Four inverters in series, input true, output false is observed; p = 0.01 each. Priors 0.960596 (all well) and
 * 0.00970299 (one fault each) are published in a thesis on model-based diagnosis (Delft, p. 58); the entropies were
 * enumerated from its description.
 */
describe('four inverters in series', () => {
  /** @param stuck what a faulty gate gives for an input: its values, equally likely */
  function probes(stuck: (input: number) => readonly number[]) {
    const names = ['1', '2', '3', '4']
    const cells: { state: number; weight: number; values: readonly number[] }[] = []
    for (const [state, faulty] of sets(names).entries()) {
      const walk = (gate: number, value: number, weight: number, values: readonly number[]): void => {
        if (gate === names.length) {
          if (value === 0) cells.push({ state, weight, values })
          return
        }
        const next = faulty.has(names[gate] ?? '') ? stuck(value) : [1 - value]
        for (const given of next) walk(gate + 1, given, weight / next.length, [...values, given])
      }
      walk(0, 1, priorOf(faulty, 4, 0.01), [])
    }
    return [0, 1, 2].map((gate) => {
      const joint = new Float64Array(16 * 2)
      for (const { state, weight, values } of cells) {
        const at = state * 2 + (values[gate] ?? 0)
        joint[at] = (joint[at] ?? 0) + weight
      }
      return informationOf(joint, 2)
    })
  }

  it('halve best in the middle if a faulty gate passes its input on', () => {
    const [first, middle, last] = probes((input) => [input])
    expect(first?.entropyBefore).toBeCloseTo(2.0015, 6)
    expect(first?.expectedEntropyAfter).toBeCloseTo(1.190141, 6)
    expect(middle?.expectedEntropyAfter).toBeCloseTo(1.0015, 6)
    expect(last?.expectedEntropyAfter).toBeCloseTo(1.190141, 6)
  })

  it('halve best in the middle if a faulty gate gives 0 or 1 alike', () => {
    const [first, middle, last] = probes(() => [0, 1])
    expect(first?.entropyBefore).toBeCloseTo(2.122114, 6)
    expect(first?.expectedEntropyAfter).toBeCloseTo(1.318353, 6)
    expect(middle?.expectedEntropyAfter).toBeCloseTo(1.132164, 6)
    expect(last?.expectedEntropyAfter).toBeCloseTo(1.318353, 6)
  })
})

describe('a check worked by hand', () => {
  /**
   * A part is bad (0.3) or fine (0.7). A check finds something with 0.8 where it is bad, with 0.1 where it is fine.
   * P(found) = 0.3·0.8 + 0.7·0.1 = 0.24 + 0.07 = 0.31; P(bad | found) = 0.24 / 0.31 = 24/31;
   * P(bad | not) = 0.06 / 0.69 = 2/23.
   * H(0.3) = -0.3 log2 0.3 - 0.7 log2 0.7 = 0.3·1.736966 + 0.7·0.514573 = 0.521090 + 0.360201 = 0.881291
   * H(24/31) = 0.774194·0.369234 + 0.225806·2.146841 = 0.285859 + 0.484771 = 0.770629
   * H(2/23)  = 0.086957·3.523562 + 0.913043·0.131245 = 0.306397 + 0.119832 = 0.426229
   * after = 0.31·0.770629 + 0.69·0.426229 = 0.238895 + 0.294098 = 0.532993; information = 0.881291 - 0.532993 = 0.348298
   */
  it('comes to 0.3483 bit', () => {
    const { entropyBefore, expectedEntropyAfter, information } = informationOf(
      Float64Array.of(0.24, 0.06, 0.07, 0.63),
      2,
    )
    expect(entropyBefore).toBeCloseTo(0.881291, 5)
    expect(expectedEntropyAfter).toBeCloseTo(0.532993, 5)
    expect(information).toBeCloseTo(0.348298, 5)
  })
})

describe('information', () => {
  const cells = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 12, maxLength: 12 })

  test.prop([cells], { numRuns: 300, seed: 41 })('is never negative, nor more than either entropy', (drawn) => {
    const joint = Float64Array.from(drawn)
    const { entropyBefore, expectedEntropyAfter, information } = informationOf(joint, 3)
    expect(information).toBeGreaterThanOrEqual(0)
    expect(information).toBeLessThanOrEqual(entropyBefore + 1e-12)
    expect(information).toBeLessThanOrEqual(Math.log2(3) + 1e-12)
    expect(entropyBefore - expectedEntropyAfter).toBeCloseTo(information, 10)
  })

  test.prop(
    [fc.tuple(cells, fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 }))],
    {
      numRuns: 100,
      seed: 42,
    },
  )('is none where the outcome does not depend on the state', ([states, outcomes]) => {
    const joint = Float64Array.from(states.flatMap((state) => outcomes.map((outcome) => state * outcome)))
    expect(informationOf(joint, 3).information).toBeCloseTo(0, 12)
  })
})
