/** Faults of the address map: those of the map itself, and channels that it and the board do not share. */
import { type Fault, jsonPath, showValue, say } from '../base/index.ts'
import { checkAddressing } from './addresses/check.ts'
import type { BoardDraft } from './draft.ts'

/**
 * Empty where the board has no address map. Channel ids are held against all that stand in the file, also those of
 * channels that did not parse.
 */
export function checkAddressMap(draft: BoardDraft): Fault[] {
  const map = draft.addressMap
  if (map === undefined) return []
  const { order } = map.channel
  const path = ['addressMap', 'channel', 'order']
  const unknown = order.flatMap((id, i) => {
    if (draft.channelIds.has(id)) return []
    const found = say('{id}, which no channel has', { id: showValue(id) })
    return [{ path: jsonPath([...path, i]), found, expected: say('the id of a channel') }]
  })
  const named = new Set(order)
  const missing = [...draft.channelIds]
    .filter((id) => !named.has(id))
    .map((id) => ({
      path: jsonPath(path),
      found: say('no channel {id}', { id }),
      expected: say('every channel of the board'),
    }))
  return [...checkAddressing(map), ...unknown, ...missing]
}
