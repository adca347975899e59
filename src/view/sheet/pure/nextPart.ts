/** Which part the keyboard goes to next: reading order with Tab, the nearest in a direction with the arrows. */
import type { Point } from '../../../base/index.ts'
import { type BoardModel, orderOfKind, type PlacedPart, type Side } from '../../../board/index.ts'

export type PartStep = 'next' | 'previous' | 'left' | 'right' | 'up' | 'down'

/**
 * @param from ref of the part that has the focus; undefined enters at the first (`next`) or last (`previous`)
 * @param side the shown side; `left` and `right` are as the user sees that side
 * @returns the ref to go to; undefined at the end of the order, or with nothing in that direction
 */
export function nextPart(
  model: BoardModel,
  from: string | undefined,
  direction: PartStep,
  side: Side = 'top',
): string | undefined {
  const parts = readingOrder(model, side)
  const at = parts.findIndex((part) => part.ref === from)
  const here = parts[at]
  if (here === undefined) return (direction === 'previous' ? parts.at(-1) : parts[0])?.ref
  if (direction === 'next') return parts[at + 1]?.ref
  if (direction === 'previous') return parts[at - 1]?.ref
  return nearestTowards(parts, here, direction, side)?.ref
}

/** The core first, then memory, then the rest, each kind by its ref with numbers in number order. */
export function readingOrder(model: BoardModel, side: Side): PlacedPart[] {
  return model.parts
    .filter((part) => part.side === side)
    .toSorted((p, q) => rank(p) - rank(q) || compareRefs(p.ref, q.ref))
}

const rank = (part: PlacedPart): number => orderOfKind(part.kind)

const refCollator = new Intl.Collator('en', { numeric: true })
const compareRefs = (p: string, q: string): number => refCollator.compare(p, q)

function nearestTowards(
  parts: readonly PlacedPart[],
  here: PlacedPart,
  direction: 'left' | 'right' | 'up' | 'down',
  side: Side,
): PlacedPart | undefined {
  const mirror = side === 'bottom' ? -1 : 1
  const ahead: Point =
    direction === 'left' || direction === 'right'
      ? { x: (direction === 'right' ? 1 : -1) * mirror, y: 0 }
      : { x: 0, y: direction === 'up' ? 1 : -1 }
  let best: PlacedPart | undefined
  let bestCost = Infinity
  for (const part of parts) {
    const dx = part.placement.at.x - here.placement.at.x
    const dy = part.placement.at.y - here.placement.at.y
    const forward = dx * ahead.x + dy * ahead.y
    const sideways = Math.abs(dx * ahead.y - dy * ahead.x)
    if (part.ref === here.ref || forward <= 0 || sideways > 2 * forward) continue
    const cost = forward + 2 * sideways
    if (cost < bestCost) {
      best = part
      bestCost = cost
    }
  }
  return best
}
