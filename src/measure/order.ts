/** In which order rails come up, and which of those that were read under power is the first that did not. */
import type { BoardModel, Rail } from '../board/index.ts'
import { joined, say } from '../base/index.ts'
import { lineKey, railKey } from './line-key.ts'
import { useOfRail } from './lines.ts'
import { rule } from './practice.ts'
import type { LineVerdict } from './verdict.ts'

export const railUps = ['up', 'low', 'above', 'missing', 'waits', 'not-read'] as const
/**
 * `waits`: not there, and after one that is missing, so that it tells nothing. `not-read` is also one that was read below
 * zero, with the probes swapped.
 */
export type RailUp = (typeof railUps)[number]

export interface RailInOrder {
  readonly rail: string
  readonly state: RailUp
  readonly verdict: LineVerdict
}

export interface BringUp {
  readonly order: readonly RailInOrder[]
  /** The first that did not come up, where every one before it was read and is up; an input is none. */
  readonly first: RailInOrder | undefined
  readonly sentence: string
}

/**
 * A rail that feeds the stages of another comes before it: that the board tells. Else by the trade's habit: input, 5 V,
 * 3.3 V, VPP and the like (the voltages with their reasons stand in `practice.json`), core, memory, the rest.
 */
export function supplyOrder(model: BoardModel): Rail[] {
  const left = [...model.rails]
  const order: Rail[] = []
  while (left.length > 0) {
    const free = left.filter((rail) => !left.some((each) => each !== rail && isFedBy(rail, each)))
    const next = (free.length > 0 ? free : left).toSorted((a, b) => rankOf(model, a) - rankOf(model, b))[0]
    if (next === undefined) break
    order.push(next)
    left.splice(left.indexOf(next), 1)
  }
  return order
}

const isFedBy = ({ stages }: Rail, by: Rail): boolean => stages.some((ref) => by.feeds.includes(ref))

function rankOf(model: BoardModel, rail: Rail): number {
  const { nominalV = 0 } = rail
  const use = useOfRail(model, rail)
  if (use === 'input') return 0
  if (nominalV >= rule('upFirstFromV')) return 1
  if (nominalV >= rule('upSecondFromV')) return 2
  if (nominalV >= rule('upThirdFromV')) return 3
  if (use === 'core') return 4
  if (use === 'second core') return 5
  return use === 'memory' || use === 'stacks' ? 6 : 7
}

/**
 * @param volts verdicts of all lines under power, of one phase
 * @returns undefined while no rail was read under power in that phase, or only with the probes swapped
 */
export function bringUpOf(model: BoardModel, volts: readonly LineVerdict[]): BringUp | undefined {
  const verdicts = new Map(volts.map((each) => [lineKey(each.line.line), each]))
  const rails = supplyOrder(model).flatMap(({ name }) => verdicts.get(railKey(name)) ?? [])
  const order: RailInOrder[] = []
  for (const verdict of rails) {
    const state = stateOf(verdict)
    const isLate = OFF.includes(state) && order.some((each) => isOff(each))
    order.push({ rail: verdict.line.line.name, verdict, state: isLate ? 'waits' : state })
  }
  if (order.every(({ state }) => state === 'not-read')) return undefined
  return { order, ...firstOf(order) }
}

/** By the reading itself, because a hint fails nothing: of a core it spans what any state asks for. */
function stateOf({ line: { reference }, measurement, verdict: { kind } }: LineVerdict): RailUp {
  const reading = measurement?.reading
  if (reading === undefined || kind === 'below-zero') return 'not-read'
  if (kind === 'no-voltage') return 'missing'
  if (kind === 'above') return 'above'
  if (reading.kind !== 'value') return 'up'
  const { low, high } = reference
  if (low !== undefined && reading.value < low) return 'low'
  return high !== undefined && reading.value > high ? 'above' : 'up'
}

const OFF: readonly RailUp[] = ['missing', 'low']
const isOff = ({ state }: RailInOrder): boolean => OFF.includes(state)

function firstOf(order: readonly RailInOrder[]): Pick<BringUp, 'first' | 'sentence'> {
  const high = namesOf(order, 'above')
  const found = firstOff(order, high.length > 0)
  if (high.length === 0) return found
  const look = say(
    '{high} {count, plural, one {reads too high: look at it first.} other {read too high: look at them first.}}',
    { high: joined(high), count: high.length },
  )
  return { ...found, sentence: `${look} ${found.sentence}` }
}

const namesOf = (order: readonly RailInOrder[], state: RailUp): string[] =>
  order.filter((each) => each.state === state).map(({ rail }) => rail)

function firstOff(order: readonly RailInOrder[], isAnyHigh: boolean): Pick<BringUp, 'first' | 'sentence'> {
  const at = order.findIndex((each) => isOff(each))
  const off = order[at]
  const unread = joined(namesOf(order.slice(0, at < 0 ? order.length : at), 'not-read'))
  const without = (sentence: string) => ({ first: undefined, sentence })
  if (off === undefined) {
    if (unread !== '')
      return without(
        isAnyHigh
          ? say('What else was read came up; not read: {unread}.', { unread })
          : say('What was read came up; not read: {unread}.', { unread }),
      )
    return without(isAnyHigh ? say('Every other rail came up.') : say('Every rail came up.'))
  }
  const { rail, state } = off
  if (off.verdict.line.use === 'input') {
    return without(
      say(
        'Input {rail} {state, select, missing {did not come up} other {came up too low}}: look at the supply, its limit, the cable and the fuses first. The rails behind it tell nothing.',
        { rail, state },
      ),
    )
  }
  if (unread !== '')
    return without(
      say(
        '{rail} {state, select, missing {did not come up} other {came up too low}}. Read first what comes before it: {unread}.',
        {
          rail,
          state,
          unread,
        },
      ),
    )
  if (at === 0)
    return without(
      say(
        '{rail} {state, select, missing {did not come up} other {came up too low}}, and nothing comes before it: see that the power was on.',
        { rail, state },
      ),
    )
  const later = joined(namesOf(order.slice(at + 1), 'waits'))
  const waiting = later === '' ? '' : say(' {later} may only wait for it.', { later })
  return {
    first: off,
    sentence: say(
      '{rail} is the first that {state, select, missing {did not come up} other {came up too low}}.{waiting}',
      { rail, state, waiting },
    ),
  }
}
