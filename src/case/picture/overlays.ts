/** What was found and computed, drawn over the board: error load, reach, where the spill was, lift order. */
import { contours } from 'd3-contour'
import { loopOnBoard, type Point } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import type { LaneTally, Tally } from '../../report/index.ts'
import { type ReachResult, type Ring, ringsOf } from '../../spill/index.ts'
import type { SuspectsResult } from '../../suspects/index.ts'
import { type Badge, badgeLines, badgeShapes } from '../drawing/badges.ts'
import { type LoadView, loadView } from '../drawing/load.ts'
import { themes } from '../drawing/palette.ts'
import { failingRegion, untestedRegion } from '../drawing/region-shapes.ts'
import { ringShapes } from '../drawing/ring-shapes.ts'
import type { DrawnView } from '../drawing/shape.ts'
import { closedPath, element, openPath, type Paper } from './svg.ts'
import { writeShapes, writeText } from './write-shapes.ts'

/** A drawing on its way onto paper. */
export interface OnPaper {
  readonly paper: Paper
  readonly view: DrawnView
  readonly model: BoardModel
}

/**
 * Hatch in both regions of every failing lane, the denser the more errors; dots in the memory's regions of lanes that no
 * report tells of.
 */
export function drawLoad(on: OnPaper, tally: Tally | undefined): string {
  const load = loadView(on.model, tally?.parts ?? [])
  return [drawStrips(on, load), drawRegions(on, load)].join('\n')
}

/** Lanes of which no report tells whether they fail. */
export const untestedLanes = (tally: Tally | undefined): LaneTally[] =>
  (tally?.parts ?? [])
    .flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
    .filter((lane) => lane.state === 'untested')

function drawStrips({ paper, view, model }: OnPaper, load: LoadView): string {
  return model.corridors
    .filter((corridor) => corridor.side === view.side && load.failingLanes.has(corridor.lane))
    .map(({ path }) =>
      element('path', {
        d: openPath(paper, path),
        fill: 'none',
        stroke: themes.paper.load,
        'stroke-width': STRIP_PX * view.unit,
      }),
    )
    .join('')
}

const STRIP_PX = 2.4

function drawRegions({ view, model }: OnPaper, load: LoadView): string {
  const here = model.regions.filter((region) => region.side === view.side)
  const untested = here.filter(({ id, part }) => load.untested.has(id) && model.partByRef.get(part)?.kind === 'memory')
  const failing = here.flatMap((region) => {
    const weight = load.regions.get(region.id)
    return weight === undefined ? [] : failingRegion(view, region, weight)
  })
  const dots = untested.map((region) =>
    element('g', { class: 'untested' }, writeShapes([untestedRegion(view, region)])),
  )
  return dots.join('') + writeShapes(failing)
}

/** The rings of a reach on the side that is drawn. */
export function ringsHere({ view }: OnPaper, reach: ReachResult): Ring[] {
  const field = reach.fields.find((each) => each.side === view.side)
  return field === undefined ? [] : ringsOf(field, reach.radiusMm)
}

/** The edge of what was wetted, solid, with rings of effort around it, dashed: those of the sheet. */
export const drawReach = ({ view }: OnPaper, rings: readonly Ring[]): string => writeShapes(ringShapes(view, rings))

const pointsOf = (loop: Float32Array): Point[] =>
  Array.from({ length: loop.length / 2 }, (_, i) => ({ x: loop[2 * i] ?? 0, y: loop[2 * i + 1] ?? 0 }))

/** The posterior of where the spill was, as nested washes that hold half and nine tenths of it. */
export function drawField(paper: Paper, side: Side, spill: SuspectsResult['spill']): string {
  if (spill === undefined || spill.side !== side) return ''
  return [0.9, 0.5]
    .map((share) => {
      const level = levelThatHolds(spill.density, share)
      if (level <= 0) return ''
      const shape = contours().size([spill.grid.columns, spill.grid.rows]).contour(Array.from(spill.density), level)
      const rings = shape.coordinates.flat().map((loop) => pointsOf(loopOnBoard(loop, spill.grid)))
      return rings.length === 0
        ? ''
        : element('path', {
            d: closedPath(paper, rings),
            fill: themes.paper.field,
            'fill-opacity': 0.25,
            'fill-rule': 'evenodd',
          })
    })
    .join('\n')
}

/** The density above which the cells together hold `share` of the whole. */
function levelThatHolds(density: Float32Array, share: number): number {
  const falling = density.toSorted().toReversed()
  const total = falling.reduce((sum, value) => sum + value, 0)
  let held = 0
  for (const value of falling) {
    held += value
    if (held >= share * total) return value
  }
  return 0
}

/** Numbered ink badges, joined in order by a dotted line; hollow for parts of the other side, as on the screen. */
export function drawLift({ view, model }: OnPaper, badges: readonly Badge[]): string {
  const drawn = badges.map((badge) => {
    const { shapes, number } = badgeShapes(view, badge)
    return writeShapes(shapes) + writeText(number)
  })
  return writeShapes(badgeLines(view, model, badges)) + drawn.join('')
}
