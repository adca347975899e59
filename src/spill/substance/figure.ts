/** A figure of a substance with its usual range and where it is from. */
import { say } from '../../base/index.ts'
import { z } from 'zod'

export const source = z
  .string()
  .min(1)
  .max(300)
  .describe('where the figure is from; "from memory" where nothing was read')

/** A number between two bounds; refuses a value outside of its own low and high. */
export function figureBetween(minimum: number, maximum: number) {
  const number = z.number().min(minimum).max(maximum)
  return z
    .strictObject({ value: number, low: number.optional(), high: number.optional(), source })
    .refine((figure) => (figure.low ?? figure.value) <= figure.value && figure.value <= (figure.high ?? figure.value), {
      message: say('a value between its low and its high'),
    })
}
