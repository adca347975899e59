/** The orders in which somebody may have numbered the packages of a board. */
import { say } from '../../../base/index.ts'
import type { BoardModel, PlacedPart } from '../../../board/index.ts'

export interface PackageOrder {
  /** `in order of refs`, `clockwise from U11`. */
  readonly title: string
  readonly refs: readonly string[]
}

/** All of them, the likelier first; each sequence of packages once. */
export function packageOrders(model: BoardModel): PackageOrder[] {
  const byRef = model.memories
    .map((part) => part.ref)
    .toSorted((a, b) => a.localeCompare(b, 'en', { numeric: true, sensitivity: 'base' }))
  const channels = [...new Set(channelOrder(model).flatMap((id) => model.channelById.get(id)?.parts ?? []))]
  const clockwise = roundTheCore(model)
  const starts = clockwise.map((_, i) => i).toSorted((a, b) => rank(byRef, clockwise, a) - rank(byRef, clockwise, b))
  const all: PackageOrder[] = [
    { title: say('in order of refs'), refs: byRef },
    ...(channels.length === byRef.length ? [{ title: say('in order of channels'), refs: channels }] : []),
    ...starts.map((at) => ({
      title: say('clockwise from {clockwise}', { clockwise: clockwise[at] }),
      refs: turned(clockwise, at),
    })),
    ...starts.map((at) => ({
      title: say('counter-clockwise from {clockwise}', { clockwise: clockwise[at] }),
      refs: turned(clockwise.toReversed(), clockwise.length - 1 - at),
    })),
    { title: say('in order of refs, backwards'), refs: byRef.toReversed() },
    { title: say('row by row from the top left'), refs: inRows(model) },
    { title: say('column by column from the top left'), refs: inColumns(model) },
  ]
  const seen = new Set<string>()
  return all.filter(({ refs }) => {
    const key = refs.join(' ')
    return seen.has(key) ? false : Boolean(seen.add(key))
  })
}

const rank = (byRef: readonly string[], clockwise: readonly string[], at: number): number =>
  byRef.indexOf(clockwise[at] ?? '')

const turned = (refs: readonly string[], by: number): string[] => [...refs.slice(by), ...refs.slice(0, by)]

const channelOrder = (model: BoardModel): readonly string[] =>
  model.addressMap?.channel.order ?? model.channels.map(({ id }) => id)

/** Seen from the top side, y up: clockwise is falling angle. Of two that lie above each other, the one on top first. */
function roundTheCore(model: BoardModel): string[] {
  const centre = model.core?.placement.at ?? middleOf(model.memories)
  const angle = (part: PlacedPart): number => Math.atan2(part.placement.at.y - centre.y, part.placement.at.x - centre.x)
  return model.memories
    .toSorted((a, b) => angle(b) - angle(a) || Number(a.side === 'bottom') - Number(b.side === 'bottom'))
    .map((part) => part.ref)
}

const middleOf = (parts: readonly PlacedPart[]): { x: number; y: number } => ({
  x: parts.reduce((sum, { placement }) => sum + placement.at.x, 0) / Math.max(1, parts.length),
  y: parts.reduce((sum, { placement }) => sum + placement.at.y, 0) / Math.max(1, parts.length),
})

const side = (part: PlacedPart): number => Number(part.side === 'bottom')

const inRows = ({ memories }: BoardModel): string[] =>
  memories
    .toSorted((a, b) => side(a) - side(b) || b.placement.at.y - a.placement.at.y || a.placement.at.x - b.placement.at.x)
    .map(({ ref }) => ref)

const inColumns = ({ memories }: BoardModel): string[] =>
  memories
    .toSorted((a, b) => side(a) - side(b) || a.placement.at.x - b.placement.at.x || b.placement.at.y - a.placement.at.y)
    .map(({ ref }) => ref)
