/** What a mark takes of a substance until somebody says more. */
import type { SpillMark } from './marks.ts'
import type { Substance } from './substance.ts'

type Usual = Pick<SpillMark, 'amount' | 'amountSdLog' | 'pressed' | 'pushMm'>

/** For substances that bring no figures of their own. */
const WET = { amount: { volumeMl: 0.4 }, amountSdLog: 0.7 }
const HELD = { amount: { smearCm2: 1.5 }, amountSdLog: 0.7 }

/** How much there usually is, and nothing said of how it got there: choosing another substance forgets both. */
export function usualOf(substance: Substance | undefined): Usual {
  const { amount, amountSdLog } =
    substance?.usual ?? (substance === undefined || substance.moves === 'wets' ? WET : HELD)
  return { amount, amountSdLog, pressed: 'unknown', pushMm: 0 }
}
