/** Holes that a liquid can go through: unplated ones, and plated ones that are too wide to fill with solder. */
import { type Point, someOf, say } from '../../base/index.ts'
import { distanceOffBoard } from '../check-shape.ts'
import type { BoardDescription } from '../schema.ts'
import { type ImportedPart, tidyPoint } from './parts.ts'

/** A plated hole of this width is for a screw or a post. Common practice, no source. */
const WIDE_PLATED_MM = 2

type Hole = BoardDescription['holes'][number]

/** Drills of pads, then the cut-outs of the edge; what lies off the board is left out and said. */
export function holesOf(
  parts: readonly ImportedPart[],
  cutouts: readonly Hole[],
  outline: readonly Point[],
  untold: string[],
): Hole[] {
  const off: string[] = []
  const slots: string[] = []
  const drilled = parts.flatMap((part) =>
    part.pads.flatMap(({ raw, at }): Hole[] => {
      const { drill } = raw
      const plated = raw.type !== 'np_thru_hole'
      const diameterMm = drill === undefined ? 0 : Math.min(drill.widthMm, drill.lengthMm)
      if (diameterMm <= 0 || (plated && diameterMm < WIDE_PLATED_MM)) return []
      if (distanceOffBoard(outline, at) > diameterMm / 2) {
        off.push(part.part.ref)
        return []
      }
      if (drill !== undefined && drill.widthMm !== drill.lengthMm) slots.push(part.part.ref)
      return [{ at: tidyPoint(at), diameterMm, plated }]
    }),
  )
  if (off.length > 0)
    untold.push(say('Holes off the board are left out: of {someOf}.', { someOf: someOf([...new Set(off)]) }))
  if (slots.length > 0)
    untold.push(
      say('Slots are taken as round holes of their smaller width: of {someOf}.', {
        someOf: someOf([...new Set(slots)]),
      }),
    )
  return [...withoutRepeats(drilled), ...cutouts]
}

/** Footprints draw one hole with several pads. */
function withoutRepeats(holes: readonly Hole[]): Hole[] {
  const seen = new Set<string>()
  return holes.filter((hole) => {
    if ('polygon' in hole) return true
    const key = `${hole.at.x.toFixed(3)} ${hole.at.y.toFixed(3)} ${hole.diameterMm}`
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}
