/** What was found and computed, drawn over the board: error load, reach, where the spill was, lift order. */
import { contours } from 'd3-contour'
import { loopOnBoard, type Point } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import type { LaneTally, Tally } from '../../report/index.ts'
import { labelPoints, type ReachResult, ringsOf } from '../../spill/index.ts'
import type { SuspectsResult } from '../../suspects/index.ts'
import { closedPath, element, label, openPath, type Paper } from './svg.ts'

const INK = '#2b2a27'
const VERMILLION = '#d55e00'
const BLUE = '#0072b2'
const SKY = '#56b4e9'
const PURPLE = '#cc79a7'
const MUTED = '#6e685d'

export const patterns = [
  hatch('hatch-dense', 1),
  hatch('hatch-loose', 2.2),
  `<pattern id="untested" width="1.5" height="1.5" patternUnits="userSpaceOnUse"><circle cx="0.75" cy="0.75" r="0.22" fill="${MUTED}"/></pattern>`,
  `<pattern id="stipple" width="1.4" height="1.4" patternUnits="userSpaceOnUse"><circle cx="0.4" cy="0.4" r="0.3" fill="${PURPLE}"/></pattern>`,
].join('\n')

function hatch(id: string, pitchMm: number): string {
  const line = element('path', { d: `M0 0V${pitchMm}`, stroke: VERMILLION, 'stroke-width': 0.35 })
  return `<pattern id="${id}" width="${pitchMm}" height="${pitchMm}" patternUnits="userSpaceOnUse" patternTransform="rotate(35)">${line}</pattern>`
}

/**
 * Hatch in both regions of every failing lane: dense where a lane has at least a tenth of the worst lane's errors; dots in
 * the memory's regions of lanes that no report tells of.
 */
export function drawLoad(paper: Paper, model: BoardModel, side: Side, tally: Tally | undefined): string {
  return [drawUntested(paper, model, side, tally), drawFailing(paper, model, side, tally)].join('\n')
}

/** Lanes of which no report tells whether they fail. */
export const untestedLanes = (tally: Tally | undefined): LaneTally[] =>
  (tally?.parts ?? [])
    .flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
    .filter((lane) => lane.state === 'untested')

function drawUntested(paper: Paper, model: BoardModel, side: Side, tally: Tally | undefined): string {
  const regions = new Set(untestedLanes(tally).map((lane) => model.laneById.get(lane.id)?.memoryRegion))
  return [...regions]
    .flatMap((id) => (id === undefined ? [] : (model.regionById.get(id) ?? [])))
    .filter((region) => region.side === side)
    .map((region) =>
      element('path', {
        d: closedPath(paper, [region.polygon]),
        class: 'untested',
        fill: 'url(#untested)',
        stroke: MUTED,
        'stroke-width': 0.1,
      }),
    )
    .join('\n')
}

function drawFailing(paper: Paper, model: BoardModel, side: Side, tally: Tally | undefined): string {
  const failing = (tally?.parts ?? [])
    .flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
    .filter((lane) => lane.state === 'fail')
  const worst = Math.max(...failing.map((lane) => lane.errors), 1)
  return failing
    .map((tallied) => {
      const lane = model.laneById.get(tallied.id)
      const regions = [lane?.memoryRegion, lane?.coreRegion].flatMap((id) =>
        id === undefined ? [] : (model.regionById.get(id) ?? []),
      )
      const fill = tallied.errors >= worst / 10 ? 'url(#hatch-dense)' : 'url(#hatch-loose)'
      const corridor = model.corridorByLane.get(tallied.id)
      const strip =
        corridor === undefined || corridor.side !== side
          ? ''
          : element('path', {
              d: openPath(paper, corridor.path),
              fill: 'none',
              stroke: VERMILLION,
              'stroke-width': 0.4,
            })
      const patches = regions
        .filter((region) => region.side === side)
        .map((region) =>
          element('path', { d: closedPath(paper, [region.polygon]), fill, stroke: VERMILLION, 'stroke-width': 0.2 }),
        )
      return strip + patches.join('')
    })
    .join('\n')
}

/** The edge of what was wetted, solid, with rings of effort around it, dashed and labelled in mm: those of the sheet. */
export function drawReach(paper: Paper, side: Side, reach: ReachResult): string {
  const field = reach.fields.find((each) => each.side === side)
  if (field === undefined) return ''
  return ringsOf(field, reach.radiusMm)
    .map((ring) => {
      const [at] = labelPoints(ring)
      if (at === undefined) return ''
      const path = element('path', {
        d: closedPath(paper, ring.loops.map(pointsOf)),
        fill: 'none',
        stroke: BLUE,
        'stroke-width': ring.solid ? 0.5 : 0.25,
        'stroke-dasharray': ring.solid ? undefined : '1.5 1',
      })
      return path + label(paper, at, ring.label, { 'font-size': 2, fill: BLUE })
    })
    .join('\n')
}

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
        : element('path', { d: closedPath(paper, rings), fill: SKY, 'fill-opacity': 0.25, 'fill-rule': 'evenodd' })
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

/** Numbered ink badges at the lift list's parts on this side, joined in order by a dotted line. */
export function drawLift(paper: Paper, model: BoardModel, side: Side, lift: readonly string[]): string {
  const badges = lift.flatMap((ref, i) => {
    const part = model.partByRef.get(ref)
    if (part === undefined || part.side !== side) return []
    return [{ number: i + 1, at: { x: part.box.maxX, y: part.box.maxY } }]
  })
  if (badges.length === 0) return ''
  const line =
    badges.length < 2
      ? ''
      : element('path', {
          d: openPath(
            paper,
            badges.map(({ at }) => at),
          ),
          fill: 'none',
          stroke: INK,
          'stroke-width': 0.3,
          'stroke-dasharray': '0.6 0.8',
        })
  const discs = badges.map(({ number, at }) => {
    const { x, y } = paper.at(at)
    return (
      element('circle', { cx: x, cy: y, r: 2.4, fill: INK }) +
      element(
        'text',
        {
          x,
          y,
          'font-size': 3,
          'font-weight': 700,
          fill: '#fffdf7',
          'text-anchor': 'middle',
          'dominant-baseline': 'central',
        },
        String(number),
      )
    )
  })
  return line + discs.join('')
}
