/** How a substance comes off, in sentences: what is done by hand, what is rinsed, how it dries. One set for plan and screen. */
import { asSentence, minutesWords, say } from '../../base/index.ts'
import type { Cleaning } from './cleaning.ts'

/** From here on an oven is meant; below, the board stands in the open until it is dry. Common practice, no source. */
const OVEN_FROM_C = 35

/** Whether it dries in an oven: from 35 °C on. Below that the board airs in the open. */
export const needsOven = ({ dryC }: Pick<Cleaning, 'dryC'>): boolean => dryC.value >= OVEN_FROM_C

/** What is taken up by hand before anything wet; empty where nothing has to be. */
export const handLines = ({ takeUp }: Cleaning): string[] => (takeUp === undefined ? [] : [asSentence(takeUp.how)])

/** The rinses in their order, and how what they leave is driven out from under bodies. */
export const wetLines = ({ rinses, driveOut }: Cleaning): string[] => [
  ...rinses.map(({ how }) => asSentence(how)),
  driveOut.words,
]

/** How the board dries after this substance, at what temperature in °C and for how long, as one sentence. */
export const dryLine = (cleaning: Cleaning): string => dryWords(cleaning.dryC.value, cleaning.dryMinutes.value)

/** @param minutes at that temperature */
export const dryWords = (dryC: number, minutes: number): string =>
  dryC < OVEN_FROM_C
    ? say('Let it air for {minutes}.', { minutes: minutesWords(minutes) })
    : say('Let the solvent air off until nothing smells, then dry at {dryC} °C for {minutes}.', {
        dryC,
        minutes: minutesWords(minutes),
      })
