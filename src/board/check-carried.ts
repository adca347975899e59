/** Faults of memories that stand on the core's substrate: what they stand on, where, and lanes that would leave it. */
import { type Fault, jsonPath, polygonContains, showValue, say } from '../base/index.ts'
import type { BoardDraft } from './draft.ts'
import type { KnownParts } from './known-parts.ts'
import { lanePart } from './lanes.ts'
import { bodyCorners } from './place.ts'
import type { Part } from './schema.ts'

/** How far a stack may stand over the edge of the core's body: rounding. */
const EDGE_SLACK_MM = 0.05

/**
 * A part that is no memory, a carrier that is no core, another side, a body beyond the core's; and core regions and
 * corridors of its lanes, which never reach the board.
 */
export function checkCarried(draft: BoardDraft, known: KnownParts): Fault[] {
  return [
    ...draft.parts.flatMap(({ index, value }) => faultsOf(index, value, draft, known)),
    ...laneFaults(draft, known),
  ]
}

function faultsOf(index: number, part: Part, draft: BoardDraft, known: KnownParts): Fault[] {
  const { ref, carriedBy } = part
  if (carriedBy === undefined) return []
  const path = jsonPath(['parts', index, 'carriedBy'])
  const carrier = known.byRef.get(carriedBy)
  if (part.kind !== 'memory')
    return [
      {
        path,
        found: say('{ref}, of kind {kind}, on a substrate', { ref, kind: part.kind }),
        expected: say('a part of kind memory there'),
      },
    ]
  if (carrier === undefined)
    return draft.refs.has(carriedBy)
      ? []
      : [
          {
            path,
            found: say('{carriedBy}, which no part has', { carriedBy: showValue(carriedBy) }),
            expected: say('the ref of the core'),
          },
        ]
  if (carrier.kind !== 'core')
    return [
      {
        path,
        found: say('{carriedBy}, of kind {kind}', { carriedBy, kind: carrier.kind }),
        expected: say('the ref of the core'),
      },
    ]
  if (carrier.side !== part.side)
    return [
      {
        path,
        found: say('{ref} on the {side}', { ref, side: part.side }),
        expected: say('the side of {carriedBy}: {side}', { carriedBy, side: carrier.side }),
      },
    ]
  return standsWithin(part, carrier, known)
    ? []
    : [
        {
          path: jsonPath(['parts', index, 'at']),
          found: say('{ref} beyond the edge of {carriedBy}', { ref, carriedBy }),
          expected: say('a place on {carriedBy}', { carriedBy }),
        },
      ]
}

function standsWithin(part: Part, carrier: Part, known: KnownParts): boolean {
  const edge = bodyCorners(carrier, known.outlineOf(carrier))
  const corners = bodyCorners(part, known.outlineOf(part))
  const middle = { x: mean(corners.map(({ x }) => x)), y: mean(corners.map(({ y }) => y)) }
  return corners.every(({ x, y }) => {
    const far = Math.hypot(x - middle.x, y - middle.y)
    const share = far > EDGE_SLACK_MM ? 1 - EDGE_SLACK_MM / far : 0
    return polygonContains(edge, { x: middle.x + (x - middle.x) * share, y: middle.y + (y - middle.y) * share })
  })
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

function laneFaults(draft: BoardDraft, known: KnownParts): Fault[] {
  return draft.channels.flatMap(({ index, value: channel }) =>
    channel.lanes.flatMap((lane, i) => {
      const part = known.byRef.get(lanePart(channel, lane))
      if (part?.carriedBy === undefined) return []
      const within = say('nothing: {ref} stands on {carriedBy}, and its lanes never reach the board', {
        ref: part.ref,
        carriedBy: part.carriedBy,
      })
      return (['coreRegion', 'corridor'] as const).flatMap((field) =>
        lane[field] === undefined
          ? []
          : [
              {
                path: jsonPath(['memory', 'channels', index, 'lanes', i, field]),
                found: field === 'corridor' ? say('a path') : showValue(lane[field]),
                expected: within,
              },
            ],
      )
    }),
  )
}
