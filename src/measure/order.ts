/** In which order rails come up, and which of those that were read under power is the first that did not. */
import type { BoardModel, Rail } from '../board/index.ts'
import { lineKey } from './line-key.ts'
import { useOfRail } from './lines.ts'
import { isOfCore } from './practice.ts'
import type { Phase } from './schema.ts'
import { type LineVerdict, lineVerdicts, type Measured } from './verdict.ts'

/** `waits`: not there, and after one that is missing, so that it tells nothing. */
export type RailUp = 'up' | 'low' | 'missing' | 'waits' | 'not-read'

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
 * A rail that feeds the stages of another comes before it: that the board tells. Else by the trade's habit (common practice,
 * no source): input, 5 V, 3.3 V, VPP and the like, core, memory, the rest. That VPP of a memory comes no later than its VDD
 * is JEDEC's rule for DDR4 (JESD79-4, power-up; from memory).
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
  if (nominalV >= 4) return 1
  if (nominalV >= 2.7) return 2
  if (nominalV >= 1.7) return 3
  if (use === 'core') return 4
  if (use === 'second core') return 5
  return use === 'memory' ? 6 : 7
}

/** @returns undefined while no rail was read under power in that phase */
export function bringUpOf(model: BoardModel, measured: Measured, phase: Phase): BringUp | undefined {
  const verdicts = new Map(lineVerdicts(model, measured, 'volts', phase).map((each) => [lineKey(each.line.line), each]))
  const rails = supplyOrder(model).flatMap(({ name }) => verdicts.get(`rail ${name}`) ?? [])
  if (rails.every(({ measurement }) => measurement === undefined)) return undefined
  const order: RailInOrder[] = []
  for (const verdict of rails) {
    const state = stateOf(verdict)
    const isLate = state !== 'up' && state !== 'not-read' && order.some((each) => isOff(each))
    order.push({ rail: verdict.line.line.name, verdict, state: isLate ? 'waits' : state })
  }
  return { order, ...firstOf(order) }
}

function stateOf(each: LineVerdict): RailUp {
  const { measurement, verdict } = each
  if (measurement === undefined) return 'not-read'
  if (verdict.kind === 'no-voltage') return 'missing'
  return verdict.kind === 'below' || isCoreTooLow(each) ? 'low' : 'up'
}

/** Less than a core is given even when it idles; no window fails it otherwise. */
function isCoreTooLow({ line, measurement, verdict }: LineVerdict): boolean {
  const reading = measurement?.reading
  if (!isOfCore(line.use) || verdict.kind !== 'unusual' || reading?.kind !== 'value') return false
  return line.reference.low !== undefined && reading.value < line.reference.low
}

const isOff = ({ state }: RailInOrder): boolean => state === 'missing' || state === 'low'

function firstOf(order: readonly RailInOrder[]): Pick<BringUp, 'first' | 'sentence'> {
  const at = order.findIndex((each) => isOff(each))
  const off = order[at]
  const unread = order.slice(0, at < 0 ? order.length : at).filter(({ state }) => state === 'not-read')
  const names = unread.map(({ rail }) => rail).join(', ')
  if (off === undefined) {
    const rest = unread.length === 0 ? 'Every rail came up.' : `What was read came up; not read: ${names}.`
    return { first: undefined, sentence: rest }
  }
  const said = off.state === 'missing' ? 'did not come up' : 'came up too low'
  if (off.verdict.line.use === 'input') {
    return {
      first: undefined,
      sentence: `Input ${off.rail} ${said}: look at the supply, its limit, the cable and the fuses first. No rail behind it tells anything.`,
    }
  }
  if (unread.length > 0) {
    return { first: undefined, sentence: `${off.rail} ${said}. Read first what comes before it: ${names}.` }
  }
  if (at === 0) {
    return {
      first: undefined,
      sentence: `${off.rail} ${said}, and nothing comes before it: see that the power was on.`,
    }
  }
  const later = order.slice(at + 1).filter(({ state }) => state === 'waits')
  const waiting = later.length === 0 ? '' : ` ${later.map(({ rail }) => rail).join(', ')} may only wait for it.`
  return { first: off, sentence: `${off.rail} is the first that ${said}.${waiting}` }
}
