import { describe, expect, it } from 'vitest'
import { createJudge, type JudgeInput } from '../../src/suspects/index.ts'
import { smallBoard } from './small-board.ts'

/**
 * One package with one lane on a board without anything else, and a die of prior ½ that makes the lane fail with q: by
 * Bayes' rule P(die | lane fails) = ½·(1 − (1 − leak)(1 − q)) / (½·(1 − (1 − leak)(1 − q)) + ½·leak). From the judge's answer
 * the probability that the lane fails given the die follows.
 */
function failsGivenDie(leak: number, q: number, joints: number): number {
  const model = smallBoard({
    memories: [{ ref: 'U2', at: { x: 70, y: 50 }, lanes: ['A0'] }],
    core: false,
    corridors: true,
    commandRegions: false,
    rails: [],
    stages: [],
  })
  const input = (prior: { die: number; corridor: number }): JudgeInput => ({
    findings: {
      lanes: new Map([['U2.A0', 'fail']]),
      signatures: new Map(),
      spills: [],
      areas: [],
      slips: [],
      rails: new Map(),
    },
    assumptions: { prior: { ...prior, joints: 0 }, fails: { die: q, corridor: joints, leak } },
    spills: [],
  })
  const judge = createJudge(model)
  const needs = (prior: { die: number; corridor: number }): number =>
    judge.judge(input(prior)).parts.find(({ ref }) => ref === 'U2')?.probability ?? Number.NaN
  const corridor = joints > 0 ? 1 - 1e-12 : 0
  const posterior = needs({ die: 0.5, corridor })
  const withoutDie = 1 - (1 - leak) * (1 - (joints > 0 ? joints : 0))
  return (posterior * withoutDie) / (1 - posterior)
}

describe('the noisy-OR of one finding against published tables, through the judge', () => {
  /**
   * Fever by cold, flu, malaria with inhibitions 0.6, 0.2, 0.1: Pearl, Probabilistic Reasoning in Intelligent Systems
   * (1988), section 4.3.2; the numbers as in Russell and Norvig, Artificial Intelligence, figure 14.10 (2nd edition):
   * two causes at a time, of which the tracks are there for certain.
   */
  it.each([
    ['flu and malaria', 0.8, 0.9, 0.98],
    ['cold and malaria', 0.4, 0.9, 0.94],
    ['cold and flu', 0.4, 0.8, 0.88],
  ])('%s', (_, first, second, expected) => {
    expect(failsGivenDie(1e-9, first, second)).toBeCloseTo(expected, 6)
  })

  /** Leak 0.1 with two causes of 0.8 and 0.6: worked by hand from 1 − (1 − leak)·Π(1 − p), as leaky noisy-OR is printed in tool manuals. */
  it.each([
    [0.6, 0, 0.64],
    [0.8, 0, 0.82],
    [0.8, 0.6, 0.928],
  ])('with leak 0.1 and causes %d and %d the effect has %d', (first, second, expected) => {
    expect(failsGivenDie(0.1, first, second)).toBeCloseTo(expected, 9)
  })
})
