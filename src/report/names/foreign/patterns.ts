/** Systems behind foreign names: an order of the packages, a first number, so many names a package; proposed, never taken. */
import { say } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'
import { type Coordinates, familiesOf, type Family } from './coordinates.ts'
import { type ForeignNames, lanesOfMeaning, type Meaning, meaningOfLanes } from './meaning.ts'
import { type PackageOrder, packageOrders } from './orders.ts'

export interface NamePattern {
  /** `clockwise from U11, counted from 0, two per package`. */
  readonly title: string
  /** What it makes of every name. */
  readonly names: ForeignNames
}

const MOST_PATTERNS = 24

/**
 * Patterns that give every name a place of its own, the likelier first.
 * @param names all foreign names of a report
 * @param placed what the user has said already: a pattern that says otherwise is left out
 */
export function namePatterns(
  names: readonly string[],
  model: BoardModel,
  placed: ForeignNames = {},
  most = MOST_PATTERNS,
): NamePattern[] {
  const found: NamePattern[] = []
  const seen = new Set<string>()
  const orders = packageOrders(model)
  const ways = familiesOf(names).flatMap((family) => waysOf(family, model).map((way) => ({ family, way })))
  for (const { family, way } of ways) {
    for (const order of orders) {
      if (found.length >= most) return found
      const meant = meantBy(family, way, order, model)
      if (meant === undefined || !agrees(meant, placed, model)) continue
      const key = JSON.stringify(meant)
      if (seen.has(key)) continue
      seen.add(key)
      found.push({ title: `${order.title}, ${way.title}`, names: meant })
    }
  }
  return found
}

/** The names that are left, filled from what the user placed; undefined where no pattern fits, or they fit none in common. */
export function fillNames(names: readonly string[], model: BoardModel, placed: ForeignNames): NamePattern | undefined {
  return namePatterns(names, model, placed, 1)[0]
}

/** How the coordinates of a name tell a package and a share of it. */
interface Way {
  readonly title: string
  /** Number of the package in its order, and which share of how many. */
  readonly place: (at: Coordinates['at']) => { readonly package: number; readonly share: number }
  readonly shares: number
}

function waysOf(family: Family, model: BoardModel): Way[] {
  const packages = model.memories.length
  const column = (i: number): number[] => family.names.map(({ at }) => at[i] ?? 0)
  if (family.depth === 1) return alone(column(0), packages, model)
  const ways: Way[] = []
  for (const outer of family.depth === 2 ? [0, 1] : [0]) {
    const inner = [0, 1, 2].slice(0, family.depth).filter((i) => i !== outer)
    for (const base of basesOf(column(outer), packages)) {
      ways.push(...within(outer, inner, base, column, model))
    }
  }
  return ways
}

/** One number in each name: one, two or four names a package. */
function alone(values: readonly number[], packages: number, model: BoardModel): Way[] {
  const ways: Way[] = []
  for (const shares of [1, 2, 4]) {
    if (!canShare(model, shares)) continue
    const first = Math.min(...values)
    // So few names that each package may have one of its own: they hardly count shares.
    if (shares > 1 && Math.max(...values) - first < packages / 2 && values.length > 2) continue
    for (const base of basesOf(values, packages * shares)) {
      ways.push({
        title: titleOf(base, shares),
        shares,
        place: ([at = 0]) => ({ package: Math.floor((at - base) / shares), share: (at - base) % shares }),
      })
      if (shares === 1) continue
      ways.push({
        title: say('{base}, first one of each', { base: titleOf(base, shares) }),
        shares,
        place: ([at = 0]) => ({ package: (at - base) % packages, share: Math.floor((at - base) / packages) }),
      })
    }
  }
  return ways
}

/** A number for the package, and one or two for what is inside. */
function within(
  outer: number,
  inner: readonly number[],
  base: number,
  column: (i: number) => number[],
  model: BoardModel,
): Way[] {
  const sizes = inner.map((i) => sizeOf(column(i)))
  const firsts = inner.map((i) => Math.min(1, ...column(i)))
  const shares = sizes.reduce((all, size) => all * size, 1)
  if (shares > 4 || !canShare(model, shares)) return []
  const share = (at: Coordinates['at']): number =>
    inner.reduce((sum, i, k) => sum * (sizes[k] ?? 1) + (at[i] ?? 0) - (firsts[k] ?? 0), 0)
  const way = (title: string, turn: (n: number) => number): Way => ({
    title,
    shares,
    place: (at) => ({ package: (at[outer] ?? 0) - base, share: turn(share(at)) }),
  })
  return [
    way(titleOf(base, shares), (n) => n),
    way(say('{base}, the other way round inside', { base: titleOf(base, shares) }), (n) => shares - 1 - n),
  ]
}

const sizeOf = (values: readonly number[]): number =>
  Math.max(...values) - Math.min(1, ...values) < 2 ? 2 : Math.max(...values) - Math.min(1, ...values) < 4 ? 4 : 99

/** Numbers that fill all places count from the smallest; fewer may count from 0 or from 1. */
function basesOf(values: readonly number[], places: number): number[] {
  const [first, last] = [Math.min(...values), Math.max(...values)]
  if (last - first + 1 > places) return []
  if (last - first + 1 === places) return [first]
  const bases = [0, 1].filter((base) => base <= first && last - base < places)
  return bases.length > 0 ? bases : [first]
}

const titleOf = (base: number, shares: number): string =>
  say('counted from {base}{value}', {
    base,
    value: shares === 1 ? '' : shares === 2 ? say(', two per package') : say(', four per package'),
  })

const canShare = (model: BoardModel, shares: number): boolean =>
  model.memories.length > 0 &&
  model.memories.every(({ ref }) => {
    const lanes = lanesOfMeaning(model, ref).length
    return lanes >= shares && lanes % shares === 0
  })

function meantBy(family: Family, way: Way, order: PackageOrder, model: BoardModel): ForeignNames | undefined {
  const meant: Record<string, Meaning> = {}
  const taken = new Set<string>()
  for (const { name, at } of family.names) {
    const { package: number, share } = way.place(at)
    const ref = order.refs[number]
    const key = `${number} ${share}`
    if (ref === undefined || share < 0 || share >= way.shares || taken.has(key)) return undefined
    taken.add(key)
    const lanes = lanesOfMeaning(model, ref)
    const size = lanes.length / way.shares
    meant[name] = meaningOfLanes(model, lanes.slice(share * size, (share + 1) * size))
  }
  return meant
}

const agrees = (meant: ForeignNames, placed: ForeignNames, model: BoardModel): boolean =>
  Object.entries(placed).every(([name, meaning]) => {
    const own = meant[name]
    if (own === undefined) return true
    const [a, b] = [lanesOfMeaning(model, own), lanesOfMeaning(model, meaning)]
    return a.length === b.length && a.every((id) => b.includes(id))
  })
