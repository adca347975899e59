/** What a line is held against: a learnt range, the board's own, what is usual, or its siblings. */
import { say } from '../base/index.ts'
import type { LearntRange } from './learn.ts'
import type { LinePoint } from './points.ts'
import { type RailUse, rule, type UsualOhms } from './practice.ts'
import { sayMillivolts, sayRange } from './say.ts'
import type { LineName, Quantity } from './schema.ts'

export interface Reference {
  /**
   * `learnt` from good cards and `board` from the board's file pass or fail a reading; a `hint` is what is common for the
   * voltage and does neither; `siblings` are the other stages of the rail.
   */
  readonly from: 'learnt' | 'board' | 'hint' | 'siblings' | 'none'
  readonly low: number | undefined
  readonly high: number | undefined
  /** `48 to 80 Ω`; empty where there is no range. */
  readonly span: string
  /** Where it is from. */
  readonly source: string
  /** Both as one phrase. */
  readonly words: string
  /** What is usual in the trade, and no more: it warns, and forbids nothing. */
  readonly isHabit: boolean
}

export interface MeasuringLine {
  readonly line: LineName
  readonly quantity: Quantity
  /** The rail that it belongs to; undefined for a stage of no rail. */
  readonly rail: string | undefined
  readonly use: RailUse
  readonly nominalV: number | undefined
  readonly points: readonly LinePoint[]
  readonly reference: Reference
  /** Of good cards while they are too few for a range, or the board's own range where a learnt one stands before it. */
  readonly besides: string | undefined
  /** Where the board's own range of resistance begins. */
  readonly ownLowOhm?: number | undefined
  /** Of a supply: no fuse joins it to its rail. */
  readonly isApart?: boolean | undefined
  /** Of the rail, by its voltage and use. */
  readonly usual: UsualOhms | undefined
}

const without = (from: 'none' | 'siblings', words: string): Reference => ({
  from,
  low: undefined,
  high: undefined,
  span: '',
  source: words,
  words,
  isHabit: false,
})

export const NOTHING = without('none', say('no reference'))

/** The trade’s habits are of packages on the board, of which each leaks a little; what stacks beside a die leak, none tells. */
export const NO_HABIT = without(
  'none',
  say('nothing is usual for supplies of stacks on the core: hold it against a good card of this board'),
)

/** @param rail name of the rail whose stages they are; undefined, or no sibling, leaves nothing to compare with */
export function siblingsReference(rail: string | undefined, siblings: number, quantity: Quantity): Reference {
  if (rail === undefined || siblings < 1) return without('none', say('no sibling to compare it with'))
  const within =
    quantity === 'diode' ? sayMillivolts(rule('siblingsWithinDiodeV')) : `${Math.round(rule('siblingsWithin') * 100)} %`
  return without(
    'siblings',
    say('as the other stages of {rail}, within {within} (common practice, no source)', { rail, within }),
  )
}

/** What good cards say goes before the board's own range, from so many cards on; volts are held to the board. */
export function withLearnt(
  own: Reference,
  learnt: LearntRange | undefined,
  quantity: Quantity,
): Pick<MeasuringLine, 'reference' | 'besides'> {
  if (learnt === undefined) return { reference: own, besides: undefined }
  if (learnt.range === undefined || (quantity === 'volts' && own.from === 'board')) {
    return { reference: own, besides: learnt.words }
  }
  const { range, source, words } = learnt
  const span = sayRange(range.low, range.high, quantity)
  const reference: Reference = { from: 'learnt', ...range, span, source, words, isHabit: false }
  return {
    reference,
    besides: own.from === 'board' ? say('the board’s file says {words}', { words: own.words }) : undefined,
  }
}
