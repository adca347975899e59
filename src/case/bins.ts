/** Where a lifted part lies until it goes back: bin, how its pin one points, what state it is in. */
import { z } from 'zod'
import { say } from '../base/index.ts'
import { partStateWords, pinOneWords } from './kind-words.ts'

/** Where pin one points as the part lies in its bin, marking up. */
export const pinOnes = ['upper left', 'upper right', 'lower left', 'lower right'] as const
export const partStates = ['good', 'not sure', 'bad'] as const

export const binSchema = z.strictObject({
  ref: z.string().min(1).max(120),
  bin: z.string().max(80).default(''),
  pinOne: z.enum([...pinOnes, 'not noted']).default('not noted'),
  state: z.enum([...partStates, 'not noted']).default('not noted'),
})
export type Bin = z.infer<typeof binSchema>

/** `bin A2, pin one upper left, good`; empty where nothing was noted. */
export const binWords = ({ bin, pinOne, state }: Bin): string =>
  [
    ...(bin === '' ? [] : [say('bin {bin}', { bin })]),
    ...(pinOne === 'not noted' ? [] : [say('pin one {pinOne}', { pinOne: pinOneWords[pinOne] })]),
    ...(state === 'not noted' ? [] : [partStateWords[state]]),
  ].join(', ')
