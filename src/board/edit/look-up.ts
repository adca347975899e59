/** Parts and rails of a description by name, or the fault that says which is not there. Lengths in mm. */
import { bad, type Box, boxOf, type Fault, good, type Point, type Result, say } from '../../base/index.ts'
import { packageOutlines } from '../packages.ts'
import { bodyCorners } from '../place.ts'
import type { BoardDescription, Part, Rail } from '../schema.ts'

/** Coordinates are kept to a millionth of a millimetre, so that there and back is where it was. */
export const roundMm = (mm: number): number => Math.round(mm * 1e6) / 1e6 + 0

/** Less than this is no move: what rounding leaves. */
export const NO_MOVE_MM = 3e-6

interface Body {
  readonly corners: readonly Point[]
  readonly box: Box
}

/** A part that an edit leaves alone stays the same object, and is looked at again and again while another is dragged. */
const bodies = new WeakMap<Part, Body>()

function bodyOf(part: Part): Body {
  const known = bodies.get(part)
  if (known !== undefined) return known
  const corners = bodyCorners(part, packageOutlines.get(part.package ?? ''))
  const body = { corners, box: boxOf(corners) }
  bodies.set(part, body)
  return body
}

/** Corners of a part's body on the board in mm, in the order of its own drawing: from its lower left, counter-clockwise. */
export const partCorners = (part: Part): readonly Point[] => bodyOf(part).corners

/** The box of a part's body on the board, in mm. */
export const partBox = (part: Part): Box => bodyOf(part).box

/** The parts of these refs, in the order of the refs; a fault for each ref that no part has. */
export function partsNamed(board: BoardDescription, refs: readonly string[]): Result<readonly Part[]> {
  const byRef = new Map(board.parts.map((part) => [part.ref, part]))
  const faults: Fault[] = []
  const parts = [...new Set(refs)].flatMap((ref) => {
    const part = byRef.get(ref)
    if (part === undefined)
      faults.push({ path: ref, found: say('no part of that ref'), expected: say('a part of the board') })
    return part ?? []
  })
  return faults.length > 0 ? bad(...faults) : good(parts)
}

/** The rail of this name, or the fault that says there is none. */
export function railNamed(board: BoardDescription, name: string): Result<Rail> {
  const rail = board.rails.find((each) => each.name === name)
  return rail === undefined
    ? bad({ path: name, found: say('no rail of that name'), expected: say('a rail of the board') })
    : good(rail)
}

/** The same board with one rail in the place of the one of that name. */
export const withRail = (board: BoardDescription, name: string, rail: Rail): BoardDescription => ({
  ...board,
  rails: board.rails.map((each) => (each.name === name ? rail : each)),
})
