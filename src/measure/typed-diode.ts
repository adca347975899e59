/** A plain number in a field of diode mode: millivolts as most meters show them, or volts with three decimals or more. */
import { say } from '../base/index.ts'
import { rule } from './practice.ts'

export type DiodeNumber = { readonly volt: number } | { readonly todo: string }

/**
 * @param digits as plain decimal, with a point; no unit was typed
 * @returns volts; asks where the figure alone does not settle whether it is volts, millivolts or ohms
 */
export function plainDiodeNumber(digits: string): DiodeNumber {
  const value = Number(digits)
  if (value < 0) return { todo: BELOW_ZERO }
  if (value > rule('diodeMostV') * 1000) {
    return {
      todo: say('No diode mode shows {digits} mV: is it in ohms? Then it goes into the field for ohms.', { digits }),
    }
  }
  const decimals = digits.split('.')[1]?.length ?? 0
  if (value >= rule('diodeMostV') || decimals === 0) return { volt: millivolts(digits) }
  if (decimals >= 3) return { volt: value }
  return { todo: say('Is {digits} in volts or in millivolts? Type {digits} V or {digits} mV.', { digits }) }
}

/** By the text, so that 545.2 is exactly 0.5452. */
const millivolts = (digits: string): number => Number(`${digits}e-3`)

export const BELOW_ZERO = say(
  'Below zero: red goes on ground and black on the point, and the rail may still be charged. Let it drain, then read again.',
)

/** With a unit of its own. @returns a sentence where no diode mode reads so */
export function diodeOutOfReason(volt: number): string | undefined {
  if (volt < 0) return BELOW_ZERO
  return volt > rule('diodeMostV') ? say('No diode mode shows so much: is it a voltage under power?') : undefined
}
