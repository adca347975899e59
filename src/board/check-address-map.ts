/** Faults of the address map within a board: channels that it names and the board lacks, and its own faults. */
import { type Fault, jsonPath, showValue } from '../base/index.ts'
import { checkAddressing } from './addresses/check.ts'
import type { BoardDraft } from './draft.ts'
import type { AddressMapDescription } from './schema.ts'

export function checkAddressMap(draft: BoardDraft): Fault[] {
  const map = draft.addressMap
  return map === undefined ? [] : [...checkOrder(map, draft), ...checkAddressing(map)]
}

function checkOrder(map: AddressMapDescription, draft: BoardDraft): Fault[] {
  const { order } = map.channel
  const faults: Fault[] = []
  const named = new Set(order)
  for (const [i, id] of order.entries()) {
    if (!draft.channelIds.has(id))
      faults.push({
        path: jsonPath(['addressMap', 'channel', 'order', i]),
        found: `${showValue(id)}, which no channel has`,
        expected: 'the id of a channel',
      })
  }
  for (const id of draft.channelIds)
    if (!named.has(id))
      faults.push({
        path: '$.addressMap.channel.order',
        found: `no channel ${id}`,
        expected: 'every channel of the board',
      })
  return faults
}
