/** What a worker is told and answers; and which card stands behind a number. */
import { seededRandom } from '../../../src/base/index.ts'
import { mixtureCalled, type Mixture, variedMixture } from '../../../src/rehearsal/index.ts'
import type { Options } from './options.ts'

export type Task = Pick<Options, 'seed' | 'mixture' | 'varied' | 'boards' | 'oneShot' | 'remedies'>

export const taskOf = ({ seed, mixture, varied, boards, oneShot, remedies }: Options): Task => ({
  seed,
  mixture,
  varied,
  boards,
  oneShot,
  remedies,
})

export function mixtureOf({ mixture, varied, seed }: Task): Mixture {
  const named = mixtureCalled(mixture)
  if (named === undefined) throw new Error(`no mixture is called ${mixture}`)
  return varied ? variedMixture(named, seededRandom(seed)) : named
}

/** Boards take turns; seeds of different runs do not overlap below a million cards. */
export const boardOfCard = ({ boards }: Task, number: number): string => boards[number % boards.length] ?? ''

export const seedOfCard = ({ seed }: Task, number: number): number => seed * 1_000_000 + number

/** Every so many cards are judged with less evidence too. */
export const isJudgedWithLess = (number: number): boolean => Math.floor(number / 5) % 8 === 0

/** Working on a card three more times is dear. */
export const isWorkedInOtherOrders = (number: number): boolean => Math.floor(number / 5) % 24 === 0
