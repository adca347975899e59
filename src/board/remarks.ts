/** What is odd about a board but no fault: real boards have it, and the user should know. */
import { polygonContains, someOf, say } from '../base/index.ts'
import { standsOnBoard } from './lanes.ts'
import type { BoardModel } from './model.ts'
import { packageOutlines } from './packages.ts'

/** Sentences about a loaded board: parts and probe points off it, lanes that are not known all the way. */
export function boardRemarks(model: BoardModel): string[] {
  return [
    ...partsOffBoard(model),
    ...pointsOffBoard(model),
    ...supplyUnknown(model),
    ...lanesHalfKnown(model),
    ...channelsUnaddressed(model),
    ...channelsGuessed(model),
    ...stacksAlone(model),
  ]
}

/** A stack has bumps for a core's substrate, and no balls of its own. */
function stacksAlone(model: BoardModel): string[] {
  return model.memories
    .filter((part) => standsOnBoard(part) && part.pads.length === 0 && hasBumps(part.description.package))
    .map(({ ref }) => say('{ref} is a stack on no core: its balls on the board are not known.', { ref }))
}

const hasBumps = (name: string | undefined): boolean => packageOutlines.get(name ?? '')?.joints === 'bumps'

function partsOffBoard(model: BoardModel): string[] {
  return model.parts
    .filter(({ outline, placement }) => {
      const corners = [placement.at, ...outline]
      return corners.every((corner) => !polygonContains(model.outline, corner))
    })
    .map(({ ref, placement }) =>
      say('Part {ref} lies off the board, at ({x}, {y}).', { ref, x: placement.at.x, y: placement.at.y }),
    )
}

function pointsOffBoard(model: BoardModel): string[] {
  return model.rails.flatMap((rail) =>
    rail.points
      .filter(({ at }) => !polygonContains(model.outline, at))
      .map(({ at }) =>
        say('A probe point of rail {name} lies off the board, at ({x}, {y}).', { name: rail.name, x: at.x, y: at.y }),
      ),
  )
}

/** Core and memories that no rail feeds, as far as the board tells: whether their supply is short can't be measured. */
export function partsWithoutSupply(model: BoardModel): string[] {
  const fed = new Set(model.rails.flatMap(({ feeds }) => feeds))
  return [...(model.core === undefined ? [] : [model.core]), ...model.memories].flatMap(({ ref }) =>
    fed.has(ref) ? [] : [ref],
  )
}

function supplyUnknown(model: BoardModel): string[] {
  const refs = partsWithoutSupply(model)
  return refs.length === 0
    ? []
    : [say("No rail is known to feed {refs}: power on it can't be judged.", { refs: someOf(refs, 12) })]
}

function lanesHalfKnown(model: BoardModel): string[] {
  const withoutMemory = model.lanes.filter((lane) => !model.regionById.has(lane.memoryRegion))
  const onSubstrate = new Set(model.parts.flatMap((part) => (standsOnBoard(part) ? [] : [part.ref])))
  const withoutCore =
    model.core === undefined
      ? []
      : model.lanes.filter((lane) => !model.corridorByLane.has(lane.id) && !onSubstrate.has(lane.part))
  return [
    ...(model.core === undefined && model.lanes.length > 0
      ? [say('The board has no core: lanes have no core side.')]
      : []),
    ...withoutMemory.map((lane) => say('Lane {id} has no region on {part}.', { id: lane.id, part: lane.part })),
    ...withoutCore.map((lane) => say('Lane {id} has no corridor.', { id: lane.id })),
  ]
}

function channelsUnaddressed(model: BoardModel): string[] {
  return model.addressMap === undefined && model.channels.length > 0
    ? [say('The board has no address map: a report must name lanes, channels or parts itself.')]
    : []
}

function channelsGuessed({ addressMap }: BoardModel): string[] {
  const guessed = addressMap?.channel.orderGuessed ?? []
  return guessed.length === 0
    ? []
    : [
        say('An address tells the package, not which channel of {guessed}: that order is a guess.', {
          guessed: someOf(guessed, 12),
        }),
      ]
}
