/** What each action takes in minutes and money: the figures that next checks, lift list and scorecard use. */
import type { BoardModel } from '../../board/index.ts'
import { checkById, defaultAssumptions } from '../../suspects/index.ts'
import { type Prices, pricesOf } from '../scorecard/rules.ts'
import { MINUTES_A_RUN, MINUTES_TO_PUT_RIGHT } from '../../suspects/index.ts'
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
          return byTheMinute(MINUTES_TO_PUT_RIGHT)
        case 'run':
          return byTheMinute(MINUTES_A_RUN)
        default:
          return NOTHING
      }
    },
  }
}

function minutesOfLift(model: BoardModel, ref: string): number {
  const { minutesPerMemoryLift, minutesPerCoreLift, minutesPerOtherLift } = defaultAssumptions.cost
  const kind = model.partByRef.get(ref)?.kind
  if (kind === 'memory') return minutesPerMemoryLift
  return kind === 'core' ? minutesPerCoreLift : minutesPerOtherLift
}
