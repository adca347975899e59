/** What the names of a report could mean: which of them are told, what a press on the sheet gives, patterns for the rest. */
import { type Point, say } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import {
  type ForeignName,
  type ForeignNames,
  lanesOfMeaning,
  type Meaning,
  meaningOfLanes,
  type NamePattern,
  namePatterns,
  sharesOf,
} from '../../report/index.ts'

/** How much of a package one name stands for. */
export type NameShare = 'package' | 'half' | 'lane'

export const shareWords: Readonly<Record<NameShare, string>> = {
  package: say('a package'),
  half: say('half a package'),
  lane: say('a lane'),
}

/** So many names that each can only be a share of a package. */
export function likelyShare(foreign: readonly ForeignName[], model: BoardModel): NameShare {
  const [proposed] = foreign.flatMap(({ proposal }) => (proposal === undefined ? [] : [shareOf(model, proposal)]))
  if (proposed !== undefined) return proposed
  const packages = model.memories.length
  return foreign.length <= packages ? 'package' : foreign.length <= 2 * packages ? 'half' : 'lane'
}

function shareOf(model: BoardModel, meaning: Meaning): NameShare {
  const lanes = lanesOfMeaning(model, meaning)
  const whole = model.lanes.filter((lane) => lane.part === model.laneById.get(lanes[0] ?? '')?.part).length
  if (lanes.length >= whole) return 'package'
  return lanes.length === 1 ? 'lane' : 'half'
}

/** Shares of one size on a package, in the order of its lanes; the whole where it can't be divided so. */
export function sharesOn(model: BoardModel, ref: string, share: NameShare): readonly Meaning[] {
  const lanes = lanesOfMeaning(model, ref)
  if (share === 'package' || lanes.length < 2) return [ref]
  const size = share === 'lane' ? 1 : lanes.length / 2
  if (!Number.isInteger(size)) return [ref]
  return Array.from({ length: lanes.length / size }, (_, i) =>
    meaningOfLanes(model, lanes.slice(i * size, (i + 1) * size)),
  )
}

/** So far beside a package a drop still means it: a finger hides what it points at. */
const BESIDE_MM = 2.5

/** What a name is given that is dropped at a point: the share whose lanes lie nearest, on the package there. */
export function meaningAt(model: BoardModel, at: Point, side: Side, share: NameShare): Meaning | undefined {
  const beside = ({ box }: BoardModel['memories'][number]): number =>
    Math.hypot(Math.max(box.minX - at.x, 0, at.x - box.maxX), Math.max(box.minY - at.y, 0, at.y - box.maxY))
  const part = model.memories
    .filter((one) => one.side === side && beside(one) <= BESIDE_MM)
    .toSorted((a, b) => beside(a) - beside(b))[0]
  if (part === undefined) return undefined
  const shares = sharesOn(model, part.ref, share)
  const away = (meaning: Meaning): number =>
    Math.min(...lanesOfMeaning(model, meaning).map((id) => distanceToLane(model, id, at)))
  return shares.toSorted((a, b) => away(a) - away(b))[0]
}

function distanceToLane(model: BoardModel, id: string, at: Point): number {
  const polygon = model.regionById.get(model.laneById.get(id)?.memoryRegion ?? '')?.polygon ?? []
  const n = Math.max(1, polygon.length)
  const middle = polygon.reduce((sum, p) => ({ x: sum.x + p.x / n, y: sum.y + p.y / n }), { x: 0, y: 0 })
  return Math.hypot(at.x - middle.x, at.y - middle.y)
}

/** The first share of a package that no name has yet: for the keyboard, which can point at packages only. */
export function freeShare(model: BoardModel, ref: string, share: NameShare, told: ForeignNames): Meaning | undefined {
  const taken = new Set(Object.values(told).flatMap((meaning) => lanesOfMeaning(model, meaning)))
  const shares = sharesOn(model, ref, share)
  return shares.find((meaning) => !lanesOfMeaning(model, meaning).some((id) => taken.has(id))) ?? shares[0]
}

export interface NameChoice {
  readonly key: string
  readonly label: string
  readonly meaning: Meaning
}

/** Everything that a name can be given: each package with its halves and lanes. */
export const allChoices = (model: BoardModel): NameChoice[] =>
  model.memories.flatMap(({ ref }) =>
    sharesOf(model, ref).map(({ label, meaning }) => ({ key: JSON.stringify(meaning), label, meaning })),
  )

const PATTERNS_SHOWN = 6

/** What is told of these names, without names of other kinds of reports. */
export const toldOf = (foreign: readonly ForeignName[], names: ForeignNames): ForeignNames =>
  Object.fromEntries(foreign.flatMap(({ name }) => (names[name] === undefined ? [] : [[name, names[name]]])))

export const patternsFor = (
  foreign: readonly ForeignName[],
  model: BoardModel,
  told: ForeignNames,
): readonly NamePattern[] =>
  namePatterns(
    foreign.map(({ name }) => name),
    model,
    told,
    PATTERNS_SHOWN,
  )
