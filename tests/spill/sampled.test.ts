/** The sum over places, amounts, angles and shut gaps, against sampling: everything drawn by chance and marched once each. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import { createReachEngine } from '../../src/spill/index.ts'
import { spillAt, unwrap } from '../support/board-fixture.ts'
import { alongLine, deviationsOf, samplingError, seededSpill, unsteadinessOf } from '../support/spill-sampling.ts'

const boardNamed = (name: string): BoardModel =>
  unwrap(readBoard(readFileSync(new URL(`../../boards/${name}.json`, import.meta.url), 'utf8')))

/** What a probability may be off, beyond what the samples themselves may be off. */
const TOLERANCE = 0.03
const SAMPLES = 250
/** Standard errors that the samples may be off: one in ten thousand is farther out. */
const ERRORS = 4

describe('probabilities are those of single marches', () => {
  test.each(['hitch-12', 'splice-6', 'bowline-8', 'cleat-10', 'sheet-bend-16'])('on %s', (name) => {
    const model = boardNamed(name)
    const engine = createReachEngine(model)
    const random = seededRandom(2027)
    for (let i = 0; i < 2; i++) {
      for (const deviation of deviationsOf(model, engine, seededSpill(model, random), SAMPLES, random)) {
        const { summed, sampled } = deviation
        const allowed = TOLERANCE + ERRORS * samplingError(sampled, SAMPLES)
        expect({ ...deviation, isOff: Math.abs(summed - sampled) > allowed }).toMatchObject({ isOff: false })
      }
    }
  })
})

const STEP_MM = 0.25

describe('a mark that is moved changes probabilities as their true change is, to 0.02 a millimetre', () => {
  test.each([
    // The first is the place of the shipped demonstration.
    ['hitch-12', 155, 96, { downDeg: 270 }],
    ['splice-6', 114, 38, {}],
    ['bowline-8', 146, 62, { downDeg: 180 }],
    ['cleat-10', 112, 86, {}],
    ['sheet-bend-16', 120, 85, { downDeg: 90 }],
  ] as const)('on %s', (name, x, y, more) => {
    const mark = spillAt(x, y, {
      sdMm: 4,
      substance: 'coolant-pg',
      amount: { volumeMl: 0.6 },
      ...more,
    })
    const { worstPerMm, steepestPerMm } = unsteadinessOf(alongLine(mark, boardNamed(name), STEP_MM, 9, 800), STEP_MM)
    expect(worstPerMm).toBeLessThan(0.02)
    expect(steepestPerMm).toBeGreaterThan(0.005)
  })
})
