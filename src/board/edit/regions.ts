/** Regions drawn by hand, where those of the package or the derived ones don't fit the part on the board. */
import { bad, type Fault, good, type Point, type Result, unplacePoint, say } from '../../base/index.ts'
import { placementOf } from '../place.ts'
import type { BoardDescription, LaneDescription, Part } from '../schema.ts'
import type { EditOf } from './edits.ts'
import { laneIdsOn, laneWithId, withLanes } from './lanes.ts'
import { partsNamed, roundMm } from './look-up.ts'
import { withFields } from './parts.ts'

/** Smaller is a slip of the hand. */
const LEAST_MM = 0.2

/**
 * Draws a region as a box that lies along the board, and lets lanes end in it. Refuses an unknown part, a box narrower than
 * 0.2 mm, and lanes that don't end on the part.
 */
export function drawRegion(board: BoardDescription, edit: EditOf<'draw-region'>): Result<BoardDescription> {
  const parts = partsNamed(board, [edit.ref])
  if (!parts.ok) return parts
  const [part] = parts.value
  if (part === undefined) return good(board)
  const faults = [...boxFaults(edit), ...laneFaults(board, part, edit)]
  if (faults.length > 0) return bad(...faults)
  const polygon = boxOn(part, edit.corners)
  const regions = [...(part.regions ?? []).filter(({ name }) => name !== edit.region), { name: edit.region, polygon }]
  const drawn = { ...board, parts: board.parts.map((each) => (each === part ? { ...part, regions } : each)) }
  const going = new Set(edit.lanes.map((id) => laneWithId(board, id)?.lane))
  return good(withLanes(drawn, (lane) => (going.has(lane) ? endingIn(lane, part, edit.region) : lane)))
}

const endingIn = (lane: LaneDescription, { kind }: Part, region: string): LaneDescription =>
  kind === 'core'
    ? withFields(lane, { coreRegion: region, corridor: null })
    : withFields(lane, { memoryRegion: region === lane.name ? null : region, corridor: null })

function boxOn(part: Part, [a, b]: readonly [Point, Point]): Point[] {
  const placement = placementOf(part)
  return [a, { x: b.x, y: a.y }, b, { x: a.x, y: b.y }].map((corner) => {
    const { x, y } = unplacePoint(corner, placement)
    return { x: roundMm(x), y: roundMm(y) }
  })
}

function boxFaults({ ref, region, corners: [a, b] }: EditOf<'draw-region'>): Fault[] {
  const narrow = Math.min(Math.abs(a.x - b.x), Math.abs(a.y - b.y))
  return narrow >= LEAST_MM
    ? []
    : [
        {
          path: `${ref}/${region}`,
          found: say('a box without width'),
          expected: say('at least {leastMm} mm each way', { leastMm: LEAST_MM }),
        },
      ]
}

function laneFaults(board: BoardDescription, part: Part, { lanes }: EditOf<'draw-region'>): Fault[] {
  const own = new Set(laneIdsOn(board, part))
  return lanes
    .filter((id) => !own.has(id))
    .map((id) => ({
      path: id,
      found: say('a lane that does not end on {ref}', { ref: part.ref }),
      expected: say('a lane of the part'),
    }))
}

/**
 * Takes a drawn region away; lanes that were sent to it by name end where they would without. Refuses one that is not
 * drawn.
 */
export function forgetRegion(
  board: BoardDescription,
  { ref, region }: EditOf<'forget-region'>,
): Result<BoardDescription> {
  const parts = partsNamed(board, [ref])
  if (!parts.ok) return parts
  const [part] = parts.value
  const path = `${ref}/${region}`
  if (part?.regions?.some(({ name }) => name === region) !== true)
    return bad({ path, found: say('no drawn region of that name'), expected: say('a region that was drawn') })
  const regions = part.regions.filter(({ name }) => name !== region)
  const next = withFields(part, { regions: regions.length === 0 ? null : regions })
  const left = { ...board, parts: board.parts.map((each) => (each === part ? next : each)) }
  const own = new Set(laneIdsOn(board, part).map((id) => laneWithId(board, id)?.lane))
  return good(withLanes(left, (lane) => (own.has(lane) ? withoutNamed(lane, part, region) : lane)))
}

/** A lane that was sent to the region by name goes back to where it would end without. */
function withoutNamed(lane: LaneDescription, { kind }: Part, region: string): LaneDescription {
  const end = kind === 'core' ? 'coreRegion' : 'memoryRegion'
  return lane[end] === region ? withFields(lane, { [end]: null }) : lane
}
