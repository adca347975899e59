/** Edits of what is known of addresses: the map, what it is learnt from, and the order of a lane's data bits. */
import { bad, good, type Result, say } from '../../base/index.ts'
import { laneIdOf, lanePart } from '../lanes.ts'
import type { BoardDescription, LabelledAddress } from '../schema.ts'
import { sorted } from '../compare.ts'
import type { EditOf } from './edits.ts'
import { withFields } from './parts.ts'

const MOST_LABELLED = 20_000

/** The board with another map; the same board where it has that map. */
export const useAddressMap = (board: BoardDescription, { map }: EditOf<'use-address-map'>): BoardDescription =>
  sorted(board.addressMap) === sorted(map) ? board : { ...board, addressMap: map }

/** Adds rows to what is known, each address and label once. Refuses more than 20,000 in all. */
export function labelAddresses(board: BoardDescription, { rows }: EditOf<'label-addresses'>): Result<BoardDescription> {
  const known = board.labelledAddresses ?? []
  const keyOf = ({ address, label }: LabelledAddress): string => `${Number(address)} ${label}`
  const keys = new Set(known.map(keyOf))
  const added = rows.filter((row) => !keys.has(keyOf(row)) && keys.add(keyOf(row)))
  if (added.length === 0) return good(board)
  if (known.length + added.length > MOST_LABELLED)
    return bad({
      path: 'labelledAddresses',
      found: say('{count} labelled addresses', { count: known.length + added.length }),
      expected: say('at most {mostLabelled}', { mostLabelled: MOST_LABELLED }),
      todo: say('A few thousand tell as much; add a part of them.'),
    })
  return good({ ...board, labelledAddresses: [...known, ...added] })
}

/** The board without some of its labelled addresses, by their numbers from 1. */
export function forgetLabels(board: BoardDescription, { lines }: EditOf<'forget-labels'>): BoardDescription {
  const going = new Set(lines)
  const known = board.labelledAddresses ?? []
  const kept = known.filter((_, i) => !going.has(i + 1))
  if (kept.length === known.length) return board
  return kept.length > 0 ? { ...board, labelledAddresses: kept } : withFields(board, { labelledAddresses: null })
}

/** A lane with its data bits in another order. Refuses an id that no lane has. */
export function orderBits(board: BoardDescription, edit: EditOf<'order-bits'>): Result<BoardDescription> {
  let found = false
  const channels = board.memory.channels.map((channel) => ({
    ...channel,
    lanes: channel.lanes.map((lane) => {
      if (laneIdOf(lanePart(channel, lane), lane) !== edit.lane) return lane
      found = true
      return { ...lane, swaps: edit.swaps }
    }),
  }))
  return found
    ? good({ ...board, memory: { ...board.memory, channels } })
    : bad({ path: edit.lane, found: say('no lane of that id'), expected: say('a lane of the board') })
}
