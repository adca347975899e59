/** Holes that a liquid can go through: unplated ones, and plated ones that are too wide to fill with solder. */
import { boxOf, type Point, someOf, say } from '../../base/index.ts'
import { distanceOffBoard } from '../check-shape.ts'
import type { BoardDescription } from '../schema.ts'
import type { LooseDrill } from './model.ts'
import { type ImportedPart, tidy, tidyPoint } from './parts.ts'

/** A plated hole of this width is for a screw or a post. Common practice, no source. */
const WIDE_PLATED_MM = 2

type Hole = BoardDescription['holes'][number]

interface Drilled {
  /** Round holes that belong to no part, on the board. */
  readonly loose: readonly LooseDrill[]
  /** Of the edge, and what is milled. */
  readonly cutouts: readonly Hole[]
}

/** Drills of pads, then those of no part, then cut-outs; what lies off the board is left out and said. */
export function holesOf(
  parts: readonly ImportedPart[],
  { loose, cutouts }: Drilled,
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
  return withoutRepeats([...drilled, ...looseHoles(loose, outline, untold), ...cutouts])
}

/** Whether a liquid goes through: what is plated, or may be, is taken to be filled where it is narrow. */
const isOpen = ({ isPlated, diameterMm }: LooseDrill): boolean => isPlated === false || diameterMm >= WIDE_PLATED_MM

function looseHoles(loose: readonly LooseDrill[], outline: readonly Point[], untold: string[]): Hole[] {
  const open = loose.filter(isOpen)
  const holes = open.flatMap(({ path, diameterMm, isPlated }): Hole[] => {
    const [at] = path
    if (at === undefined || diameterMm <= 0 || distanceOffBoard(outline, at) > diameterMm / 2) return []
    return [
      { at: tidyPoint(at), diameterMm: tidy(diameterMm), ...(isPlated === undefined ? {} : { plated: isPlated }) },
    ]
  })
  const off = open.length - holes.length
  if (off > 0)
    untold.push(
      say('{off, plural, one {# drilled hole lies} other {# drilled holes lie}} off the board; left out.', { off }),
    )
  return holes
}

/** What is milled along so much of the board's edge cuts the board out, and is no hole in it. */
const CUTS_OUT_SHARE = 0.5
const ARC_STEPS = 12

/** Slots and milled paths on the board, each piece of a path as a slot with round ends. */
export function milledBy(drills: readonly LooseDrill[], outline: readonly Point[], untold: string[]): Hole[] {
  const paths = drills.filter((drill) => drill.path.length > 1 && isOpen(drill))
  const board = boxOf(outline)
  const cutsOut = ({ path }: LooseDrill): boolean => {
    const box = boxOf(path)
    const isWide = box.maxX - box.minX > CUTS_OUT_SHARE * (board.maxX - board.minX)
    return isWide && box.maxY - box.minY > CUTS_OUT_SHARE * (board.maxY - board.minY)
  }
  if (paths.some(cutsOut)) untold.push(say('What is milled around the board is its edge and no cut-out.'))
  return paths
    .filter((drill) => !cutsOut(drill))
    .flatMap(({ path, diameterMm }) =>
      path.slice(1).flatMap((to, i): Hole[] => {
        const from = path[i]
        return from === undefined ? [] : [{ polygon: slotAround(from, to, diameterMm / 2) }]
      }),
    )
}

/** A strip with half circles at its ends, counter-clockwise. */
function slotAround(from: Point, to: Point, radiusMm: number): Point[] {
  const along = Math.atan2(to.y - from.y, to.x - from.x)
  const half = (middle: Point, start: number): Point[] =>
    Array.from({ length: ARC_STEPS + 1 }, (_, i) => {
      const angle = start + (Math.PI * i) / ARC_STEPS
      return tidyPoint({ x: middle.x + radiusMm * Math.cos(angle), y: middle.y + radiusMm * Math.sin(angle) })
    })
  return [...half(to, along - Math.PI / 2), ...half(from, along + Math.PI / 2)]
}

/** Footprints draw one hole with several pads; an edge may draw one that is drilled. */
function withoutRepeats(holes: readonly Hole[]): Hole[] {
  const seen = new Set<string>()
  return holes.filter((hole) => {
    if ('polygon' in hole) return true
    const key = `${hole.at.x.toFixed(2)} ${hole.at.y.toFixed(2)} ${hole.diameterMm.toFixed(2)}`
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}
