/** A plan on the wall: what was done is ticked and stays, every step keeps its number, what a finding adds is marked. */
import { describe, expect, test } from 'vitest'
import { type BenchTick, type PassEntry, plannedRows, type PlanStep, standing } from '../../src/plan/index.ts'

const step = (n: number, action: PlanStep['action'], ...refs: string[]): PlanStep => ({
  n,
  action,
  refs,
  minutes: 10,
  cost: 10,
  why: 'Made up.',
  setting: undefined,
  cautions: [],
  exposed: [],
})
const tick = (action: BenchTick['action'], refs: string[], afterPasses = 0): BenchTick => ({
  action,
  refs,
  outcome: 'done',
  minutes: 10,
  afterPasses,
})
const lifted = (ref: string, outcome: PassEntry['outcome'] = 'done', more: Partial<PassEntry> = {}): PassEntry => ({
  action: 'lift',
  refs: [ref],
  outcome,
  measured: [],
  found: [],
  replaced: false,
  ...more,
})

const whole = [
  step(1, 'wash', 'U1'),
  step(2, 'dry', 'U1'),
  step(3, 'lift', 'U1'),
  step(4, 'clean', 'U1'),
  step(5, 'reball', 'U1'),
  step(6, 'refit', 'U1'),
]
const kept = plannedRows(standing([], whole, [], []), [])
const left = (...actions: PlanStep['action'][]): PlanStep[] => actions.map((action, i) => step(i + 1, action, 'U1'))
const numbers = (steps: readonly PlanStep[]): [number, string][] => steps.map(({ n, action }) => [n, action])

describe('a plan that stands', () => {
  test('keeps the numbers of what is left, and what was done with its own', () => {
    const rest = left('lift', 'clean', 'reball', 'refit')
    const { past, open, dropped } = standing(kept, rest, [], [tick('wash', ['U1']), tick('dry', ['U1'])])
    expect(past.map(({ n, action, outcome }) => [n, action, outcome])).toEqual([
      [1, 'wash', 'done'],
      [2, 'dry', 'done'],
    ])
    expect(numbers(open)).toEqual([
      [3, 'lift'],
      [4, 'clean'],
      [5, 'reball'],
      [6, 'refit'],
    ])
    expect(open.some(({ isNew }) => isNew)).toBe(false)
    expect(dropped).toEqual([])
  })
  test('keeps them too where work was done out of order', () => {
    const { past, open } = standing(kept, left('wash', 'lift', 'clean', 'reball', 'refit'), [], [tick('dry', ['U1'])])
    expect(past.map(({ n }) => n)).toEqual([2])
    expect(open.map(({ n }) => n)).toEqual([1, 3, 4, 5, 6])
  })
  test('marks what a finding added, with a number that no step has, and lets what it made needless be seen', () => {
    const log = [lifted('U1', 'done', { found: [{ ref: 'U1', what: ['wet'] }] })]
    const ticks = [tick('wash', ['U1']), tick('dry', ['U1'])]
    const after = [step(1, 'dry', 'U1'), step(2, 'clean', 'U1'), step(3, 'replace', 'U1'), step(4, 'refit', 'U1')]
    const { open, dropped } = standing(kept, after, log, ticks)
    expect(open.map(({ n, action, isNew }) => [n, action, isNew])).toEqual([
      [7, 'dry', true],
      [4, 'clean', false],
      [8, 'replace', true],
      [6, 'refit', false],
    ])
    expect(dropped.map(({ n, action }) => [n, action])).toEqual([[5, 'reball']])
    // and stays so when the next thing is noted
    const next = plannedRows(standing(kept, after, log, ticks), kept)
    const later = standing(next, after.slice(1), log, [...ticks, tick('dry', ['U1'], 1)])
    expect(later.past.map(({ n }) => n)).toEqual([1, 2, 3, 7])
    expect(later.open.map(({ n, isNew }) => [n, isNew])).toEqual([
      [4, false],
      [8, true],
      [6, false],
    ])
  })
  test('does a failed step again under its number', () => {
    const { past, open } = standing(kept, left('lift', 'clean', 'reball', 'refit'), [lifted('U1', 'failed')], [])
    expect(past.map(({ n, outcome }) => [n, outcome])).toEqual([[3, 'failed']])
    expect(open[0]).toMatchObject({ n: 3, action: 'lift' })
  })
  test('is as before once the last entry is taken back', () => {
    const ticks = [tick('wash', ['U1'])]
    const before = standing(kept, left('dry', 'lift', 'clean', 'reball', 'refit'), [], ticks)
    const next = plannedRows(before, kept)
    const back = standing(next, left('wash', 'dry', 'lift', 'clean', 'reball', 'refit'), [], [])
    expect(back.past).toEqual([])
    expect(numbers(back.open)).toEqual(numbers(whole))
    expect(back.open.some(({ isNew }) => isNew)).toBe(false)
  })
  test('knows a part’s step again although the list has grown', () => {
    const { open } = standing(kept, [step(1, 'lift', 'U13'), step(2, 'clean', 'U1', 'U13')], [lifted('U1')], [])
    expect(open.map(({ n, isNew }) => [n, isNew])).toEqual([
      [7, true],
      [4, false],
    ])
  })
})
