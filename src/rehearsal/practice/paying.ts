/** What each action takes in minutes and money: the figures that next checks, lift list and scorecard use. */
import type { BoardModel } from '../../board/index.ts'
import { checkById, defaultPriceBook, liftMinutes } from '../../suspects/index.ts'
import { type Prices, pricesOf } from '../scorecard/rules.ts'
import type { PracticeAction } from './game.ts'

export interface Paid {
  readonly minutes: number
  /** In the shop's currency; a lift's holds its materials and the risk of losing the part. */
  readonly money: number
}

export interface Till {
  readonly prices: Prices
  /** @param lines that a reading takes at once: a stage is read with its siblings */
  readonly of: (action: PracticeAction, lines?: number) => Paid
}

const NOTHING: Paid = { minutes: 0, money: 0 }

/**
 * Prices of one board by the shipped price book. A check costs its setup and each reading, at least one; handing back
 * and the like cost nothing here.
 */
export function tillOf(model: BoardModel): Till {
  const prices = pricesOf(model)
  const byTheMinute = (minutes: number): Paid => ({ minutes, money: minutes * prices.minute })
  return {
    prices,
    of: (action, lines = 1) => {
      switch (action.kind) {
        case 'check': {
          const { setup = 0, each = 0 } = checkById(action.check)?.minutes ?? {}
          return byTheMinute(setup + each * Math.max(1, lines))
        }
        case 'lift':
          return { minutes: minutesOfLift(model, action.ref), money: prices.liftCost(action.ref) }
        case 'put-right':
          return byTheMinute(defaultPriceBook.minutes.repairAround)
        case 'run':
          return byTheMinute(defaultPriceBook.minutes.run)
        default:
          return NOTHING
      }
    },
  }
}

function minutesOfLift(model: BoardModel, ref: string): number {
  const part = model.partByRef.get(ref)
  return part === undefined ? 0 : liftMinutes(part, { book: defaultPriceBook })
}
