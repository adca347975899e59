/** What a mark takes of a substance until somebody says more. */
import type { SpillMark } from '../marks.ts'
import type { Substance } from '../substance/substance.ts'
import { waysOfMoving } from '../substance/ways-of-moving.ts'

type Usual = Pick<SpillMark, 'amount' | 'amountSdLog' | 'pressed' | 'pushMm'>

/** Of an amount that a substance says nothing about. */
const USUAL_SD_LOG = 0.7

/** How much there usually is, and nothing said of how it got there: choosing another substance forgets both. */
export function usualOf(substance: Substance | undefined): Usual {
  const { usualAmount } = waysOfMoving[substance?.moves ?? 'wets']
  const { amount, amountSdLog } = substance?.usual ?? { amount: usualAmount, amountSdLog: USUAL_SD_LOG }
  return { amount, amountSdLog, pressed: 'unknown', pushMm: 0 }
}
