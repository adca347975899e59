/** What of the board a fault of the check speaks of: parts, a rail, points. So that it can be pointed at. */
import { type Point, valueAt, say } from '../../base/index.ts'
import { z } from 'zod'
import { laneIdOf, lanePart } from '../lanes.ts'
import { type BoardDescription, pointSchema } from '../schema.ts'

export interface FaultPlace {
  /** Refs of parts that are on the board. */
  readonly refs: readonly string[]
  readonly rail?: string
  /** Points on the board, in mm. */
  readonly points: readonly Point[]
  /** Such as `part U13` or `rail VMEM`; the path itself where nothing else is known. */
  readonly words: string
}

/** `$.rails[2].feeds[4]` becomes `['rails', 2, 'feeds', 4]`; names in quotes come out as they are. */
function stepsOf(path: string): (string | number)[] {
  const steps: (string | number)[] = []
  for (const [, name, index, quoted] of path.matchAll(/\.([A-Za-z_]\w*)|\[(\d+)\]|\[("(?:[^"\\]|\\.)*")\]/g))
    steps.push(name ?? (index === undefined ? z.string().parse(JSON.parse(quoted ?? '""')) : Number(index)))
  return steps
}

/** @param path of a fault of this very board, as `loadBoard` tells it */
export function placeOfFault(board: BoardDescription, path: string): FaultPlace {
  const steps = stepsOf(path)
  const [first, index] = steps
  if (typeof index === 'number' && first === 'parts') return ofPart(board, index, path)
  if (typeof index === 'number' && first === 'rails') return ofRail(board, index, steps)
  if (typeof index === 'number' && first === 'holes') return ofHole(board, index)
  if (first === 'memory') return ofChannel(board, steps, path)
  if (first === 'addressMap') return { refs: [], points: [], words: say('address map') }
  if (first === 'labelledAddresses') return { refs: [], points: [], words: say('labelled addresses') }
  if (first === 'reportWords') return { refs: [], points: [], words: say('words of reports') }
  if (first === 'outline') return { refs: [], points: board.outline, words: say('outline of the board') }
  return { refs: [], points: [], words: path }
}

function ofPart(board: BoardDescription, index: number, path: string): FaultPlace {
  const part = board.parts[index]
  return part === undefined
    ? { refs: [], points: [], words: path }
    : { refs: [part.ref], points: [part.at], words: say('part {ref}', { ref: part.ref }) }
}

function ofRail(board: BoardDescription, index: number, steps: readonly (string | number)[]): FaultPlace {
  const rail = board.rails[index]
  if (rail === undefined) return { refs: [], points: [], words: say('rail {index}', { index: index + 1 }) }
  const named = valueAt(board, steps)
  const known = new Set(board.parts.map(({ ref }) => ref))
  const point = pointSchema.safeParse(valueAt(board, [...steps.slice(0, 4), 'at']))
  const polygon = z.array(pointSchema).safeParse(valueAt(board, steps))
  return {
    refs: typeof named === 'string' && known.has(named) ? [named] : [],
    rail: rail.name,
    points: point.success ? [point.data] : polygon.success ? polygon.data : [],
    words: say('rail {name}', { name: rail.name }),
  }
}

function ofHole(board: BoardDescription, index: number): FaultPlace {
  const hole = board.holes[index]
  const points = hole === undefined ? [] : 'polygon' in hole ? hole.polygon : [hole.at]
  return { refs: [], points, words: say('hole {index}', { index: index + 1 }) }
}

function ofChannel(board: BoardDescription, steps: readonly (string | number)[], path: string): FaultPlace {
  const [, , index, , laneIndex] = steps
  const channel = typeof index === 'number' ? board.memory.channels[index] : undefined
  if (channel === undefined) return { refs: [], points: [], words: path }
  const lane = typeof laneIndex === 'number' ? channel.lanes[laneIndex] : undefined
  const ref = lane === undefined ? channel.part : lanePart(channel, lane)
  const part = board.parts.find((each) => each.ref === ref)
  return {
    refs: part === undefined ? [] : [ref],
    points: part === undefined ? [] : [part.at],
    words:
      lane === undefined ? say('channel {id}', { id: channel.id }) : say('lane {ref}', { ref: laneIdOf(ref, lane) }),
  }
}
