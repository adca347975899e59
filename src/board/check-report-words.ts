/** Faults of what reports call the board's things: each name must mean something that the board has. */
import { type Fault, jsonPath, showValue, say } from '../base/index.ts'
import type { BoardDraft } from './draft.ts'
import { laneIdOf, lanePart } from './lanes.ts'

/** Refuses a name that stands for no memory part, channel or lane, and a list that names anything but lanes. */
export function checkReportWords(draft: BoardDraft): Fault[] {
  if (draft.reportWords.length === 0) return []
  const channels = draft.channels.map(({ value }) => value)
  const lanes = new Set(
    channels.flatMap((channel) => channel.lanes.map((lane) => laneIdOf(lanePart(channel, lane), lane))),
  )
  const parts = new Set(
    channels.flatMap((channel) => [channel.part, ...channel.lanes.flatMap(({ part }) => part ?? [])]),
  )
  return draft.reportWords.flatMap(({ index, value }) =>
    Object.entries(value.names ?? {}).flatMap(([name, meaning]) => {
      const known =
        typeof meaning === 'string'
          ? parts.has(meaning) || draft.channelIds.has(meaning) || lanes.has(meaning)
          : meaning.every((id) => lanes.has(id))
      if (known) return []
      return [
        {
          path: jsonPath(['reportWords', index, 'names', name]),
          found: say('{meaning}, which is not on the board', { meaning: showValue(meaning) }),
          expected:
            typeof meaning === 'string'
              ? say('the ref of a memory part, the id of a channel or that of a lane')
              : say('the ids of lanes, such as those of half a package'),
          todo: say('Say again what the name means, or take it out.'),
        },
      ]
    }),
  )
}
