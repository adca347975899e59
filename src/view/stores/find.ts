/** The find box's index: parts, rails, nets and lanes of a board, searched by what is typed. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { spacedKind } from './words.ts'

export const foundWords: Readonly<Record<Found['kind'], string>> = {
  part: say('part'),
  rail: say('rail'),
  lane: say('lane'),
  net: say('net'),
}

export interface Found {
  readonly kind: 'part' | 'rail' | 'lane' | 'net'
  /** Ref, rail name, lane id or net name: what is selected when it is chosen. */
  readonly id: string
  readonly detail: string
}

const MAX_FOUND = 40

/** Everything on the board that has a name, in the order in which equal matches are listed. */
export function findIndex(board: BoardModel): Found[] {
  const nets = new Map<string, number>()
  for (const part of board.parts)
    for (const pad of part.pads) if (pad.net !== undefined) nets.set(pad.net, (nets.get(pad.net) ?? 0) + 1)
  return [
    ...board.parts.map((part): Found => ({ kind: 'part', id: part.ref, detail: partDetail(part.kind, part.side) })),
    ...board.rails.map(
      (rail): Found => ({
        kind: 'rail',
        id: rail.name,
        detail: say('feeds {length} parts', { length: rail.feeds.length }),
      }),
    ),
    ...board.lanes.map(
      (lane): Found => ({ kind: 'lane', id: lane.id, detail: say('channel {channel}', { channel: lane.channel }) }),
    ),
    ...[...nets].map(([net, count]): Found => ({ kind: 'net', id: net, detail: say('{count} pads', { count }) })),
  ]
}

const partDetail = (kind: string, side: string): string => say('{kind}, {side} side', { kind: spacedKind(kind), side })

/** The best matches first: the whole name, then its beginning, then anywhere in name or detail. */
export function find(index: readonly Found[], typed: string): Found[] {
  const wanted = typed.trim().toLowerCase()
  if (wanted === '') return []
  const ranked: Found[][] = [[], [], [], []]
  for (const entry of index) {
    const rank = matchRank(entry, wanted)
    if (rank !== undefined) ranked[rank]?.push(entry)
  }
  return ranked.flat().slice(0, MAX_FOUND)
}

function matchRank(entry: Found, wanted: string): number | undefined {
  const id = entry.id.toLowerCase()
  if (id === wanted) return 0
  if (id.startsWith(wanted)) return 1
  if (id.includes(wanted)) return 2
  return `${entry.kind} ${entry.detail}`.toLowerCase().includes(wanted) ? 3 : undefined
}
