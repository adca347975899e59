/** Parts of the shop's stock taken for the case on the desk, put back, or used: then they stand among its used parts. */
import { bad, good, type Result, say } from '../../base/index.ts'
import { type ForCase, freeFor, giveBack, type StockItem, takeForCase, takenFor, usedUp } from '../../case/index.ts'
import type { Desk } from '../stores/desk.ts'
import { editCaseOf } from './edit.ts'

/** The case on the desk as the stock names it; undefined while there is none. */
export function forCase(desk: Desk): ForCase | undefined {
  const { id, history } = desk.cases.getState()
  const present = history?.present
  return id === undefined || present === undefined ? undefined : { caseId: id, card: present.card ?? present.title }
}

/** So many pieces, from as many lines of the stock as it takes. Refuses where they are not free any more. */
export async function takePieces(desk: Desk, items: readonly StockItem[], count: number): Promise<Result<undefined>> {
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

export async function putBack(desk: Desk, items: readonly StockItem[]): Promise<Result<undefined>> {
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
export async function spendPieces(desk: Desk, items: readonly StockItem[]): Promise<Result<undefined>> {
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
    editCaseOf(desk, who.caseId, (c) => ({
      ...c,
      handBack: { ...c.handBack, usedParts: [...c.handBack.usedParts, { what, count: used, price }].slice(-500) },
    }))
  }
  return good(undefined)
}

/** `memory 8 Gbit, 180-ball` */
export const nameOf = ({ kind, what, package: named }: Pick<StockItem, 'kind' | 'what' | 'package'>): string =>
  [kind === 'material' ? what : `${kind} ${what}`.trim(), named].filter(Boolean).join(', ')

const noCase = {
  path: 'the desk',
  found: say('no case'),
  expected: say('an open case'),
  todo: say('Open the case that it is for.'),
} as const
