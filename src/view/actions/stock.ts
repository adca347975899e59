/** Parts of the shop's stock taken for the case on the desk, put back, or used: then they stand among its used parts. */
import { bad, good, type Result, say } from '../../base/index.ts'
import {
  broughtBack,
  type ForCase,
  freeFor,
  giveBack,
  type StockItem,
  stockMoves,
  takeForCase,
  takenFor,
  usedAgain,
  usedUp,
} from '../../case/index.ts'
import type { Desk } from '../stores/desk.ts'
import { editCaseOf } from './edit.ts'
import { MESSAGE_CORNER, sayFaults } from './messages.ts'

type StockDesk = Pick<Desk, 'cases' | 'caseShelf' | 'screen'>

/** The case on the desk as the stock names it; undefined while there is none. */
export function forCase(desk: StockDesk): ForCase | undefined {
  const { id, history } = desk.cases.getState()
  const present = history?.present
  return id === undefined || present === undefined ? undefined : { caseId: id, card: present.card ?? present.title }
}

/** So many pieces, from as many lines of the stock as it takes. Refuses where they are not free any more. */
export async function takePieces(
  desk: StockDesk,
  items: readonly StockItem[],
  count: number,
): Promise<Result<undefined>> {
  const who = forCase(desk)
  if (who === undefined) return bad(noCase)
  let open = count
  for (const item of items) {
    const some = Math.min(open, Math.max(0, freeFor(item, who.caseId) - takenFor(item, who.caseId)))
    if (some === 0) continue
    const done = await desk.caseShelf.stock.change(item.id, (now) => takeForCase(now, who, some))
    if (!done.ok) return done
    open -= some
  }
  return good(undefined)
}

export async function putBack(desk: StockDesk, items: readonly StockItem[]): Promise<Result<undefined>> {
  const who = forCase(desk)
  if (who === undefined) return bad(noCase)
  for (const item of items) {
    if (takenFor(item, who.caseId) === 0) continue
    const done = await desk.caseShelf.stock.change(item.id, (now) => good(giveBack(now, who.caseId)))
    if (!done.ok) return done
  }
  return good(undefined)
}

/** What was taken was used: the count falls, and it stands with its price in what the owner pays. */
export async function spendPieces(desk: StockDesk, items: readonly StockItem[]): Promise<Result<undefined>> {
  const who = forCase(desk)
  if (who === undefined) return bad(noCase)
  for (const { id } of items) {
    let used = 0
    let line: StockItem | undefined
    const done = await desk.caseShelf.stock.change(id, (now) => {
      used = takenFor(now, who.caseId)
      line = now
      return good(used === 0 ? now : usedUp(now, who.caseId))
    })
    if (!done.ok) return done
    if (line === undefined || used === 0) continue
    const { price = 0 } = line
    const what = nameOf(line).slice(0, 200)
    const stock = { line: id, count: used }
    editCaseOf(desk, who.caseId, (c) => {
      const usedParts = [...c.handBack.usedParts, { what, count: used, price, stock }].slice(-MOST_PARTS)
      booked.add(usedParts)
      return { ...c, handBack: { ...c.handBack, usedParts } }
    })
  }
  return good(undefined)
}

const MOST_PARTS = 500

/** Used parts whose pieces left the stock already. */
const booked = new WeakSet<object>()

/**
 * A used part that leaves the bill, by hand or by undo, brings its pieces back, and one that returns takes them again.
 * @returns a function that ends the watch
 */
export function watchForStock(desk: StockDesk): () => void {
  let queue = Promise.resolve()
  return desk.cases.subscribe((now, before) => {
    const [parts, earlier] = [now, before].map(({ history }) => history?.present.handBack.usedParts)
    const who = forCase(desk)
    if (now.id !== before.id || parts === undefined || earlier === undefined || parts === earlier) return
    if (who === undefined || booked.delete(parts)) return
    for (const { line, used } of stockMoves(earlier, parts)) queue = queue.then(() => move(desk, who, line, used))
  })
}

async function move(desk: StockDesk, who: ForCase, line: string, used: number): Promise<void> {
  const done = await desk.caseShelf.stock.change(line, (now) =>
    good(used > 0 ? usedAgain(now, who, used) : broughtBack(now, who, -used)),
  )
  if (!done.ok) sayFaults(desk, MESSAGE_CORNER, say('The stock could not follow'), done.faults)
}

/** `memory 8 Gbit, 180-ball` */
export const nameOf = ({ kind, what, package: named }: Pick<StockItem, 'kind' | 'what' | 'package'>): string =>
  [kind === 'material' ? what : `${kind} ${what}`.trim(), named].filter(Boolean).join(', ')

const noCase = {
  path: say('the desk'),
  found: say('no case'),
  expected: say('an open case'),
  todo: say('Open the case that it is for.'),
} as const
