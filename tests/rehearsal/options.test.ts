import { describe, expect, it } from 'vitest'
import { readOptions } from './run/options.ts'
import { boardOfCard, mixtureOf, seedOfCard, taskOf } from './run/task.ts'

function options(...args: string[]) {
  const read = readOptions(args)
  if (typeof read === 'string') throw new Error(read)
  return read
}

describe('what can be asked of the scorecard', () => {
  it('is 2,000 cards of all boards from the middle mixture where nothing is said', () => {
    expect(options()).toMatchObject({ cards: 2000, seed: 1, mixture: 'middle', varied: false, oneShot: false })
    expect(options().boards).toHaveLength(5)
  })

  it('is refused in words where it can’t be had', () => {
    expect(readOptions(['--boards', 'nowhere'])).toMatch(/Found board nowhere, expected some of bowline-8/)
    expect(readOptions(['--mixture', 'sour'])).toMatch(/Found mixture sour, expected one of middle/)
    expect(readOptions(['--cards=-3'])).toMatch(/whole numbers above 0/)
    expect(readOptions(['--colour'])).toMatch(/colour/)
  })

  it('gives every card a board, and a seed that no card of another run has', () => {
    const task = taskOf(options('--seed', '7', '--boards', 'splice-6,cleat-10'))
    expect([0, 1, 2].map((number) => boardOfCard(task, number))).toEqual(['splice-6', 'cleat-10', 'splice-6'])
    expect(seedOfCard(task, 3)).toBe(7_000_003)
  })

  it('draws the mixture anew with the seed where it is to vary', () => {
    const weightOf = (seed: string): number => mixtureOf(taskOf(options('--varied', '--seed', seed))).weights.die
    expect(weightOf('3')).toBe(weightOf('3'))
    expect(weightOf('3')).not.toBe(weightOf('4'))
  })
})
