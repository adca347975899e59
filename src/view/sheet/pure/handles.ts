/** What of a mark can be gripped: its middle, the rim of an area, the ± ring and the arrow of a spill, the bends of a dam. */
import { distance, type Point } from '../../../base/index.ts'
import { ARROW_PX, arrowTip } from '../../../case/index.ts'
import { areaMovedTo, type Mark, type SpillMark } from '../../../spill/index.ts'

export type Handle =
  | { readonly kind: 'move'; readonly at: Point }
  | { readonly kind: 'radius' | 'sd' | 'down'; readonly at: Point }
  | { readonly kind: 'bend'; readonly at: Point; readonly index: number }

/** @param mirror -1 where the side is shown mirrored, so that side handles stand to the right as seen */
export function handlesOf(mark: Mark, scale: number, mirror: 1 | -1 = 1): Handle[] {
  const rim = (at: Point, mm: number): Point => ({ x: at.x + mirror * mm, y: at.y })
  switch (mark.kind) {
    case 'spill':
      return [
        { kind: 'move', at: mark.at },
        { kind: 'sd', at: rim(mark.at, sdHandleMm(mark.sdMm, scale)) },
        { kind: 'down', at: arrowTip(mark.at, mark.downDeg ?? -90, ARROW_PX / scale) },
      ]
    case 'dam':
      return mark.path.map((at, index) => ({ kind: 'bend', at, index }))
    case 'note':
      return [{ kind: 'move', at: mark.at }]
    default:
      if ('outline' in mark && mark.outline !== undefined) return [{ kind: 'move', at: mark.at }]
      return [
        { kind: 'move', at: mark.at },
        { kind: 'radius', at: rim(mark.at, mark.radiusMm) },
      ]
  }
}

/** The ± ring's handle keeps clear of the spill's own dot. */
const sdHandleMm = (sdMm: number, scale: number): number => Math.max(sdMm, 22 / scale)

/** The handle within reach of the pointer, the nearest one; of two at one place the one that turns or resizes. */
export function pickHandle(handles: readonly Handle[], at: Point, toleranceMm: number): Handle | undefined {
  return handles
    .filter((handle) => distance(handle.at, at) <= toleranceMm)
    .toSorted((p, q) => distance(p.at, at) - distance(q.at, at) || weightOf(p) - weightOf(q))[0]
}

const weightOf = ({ kind }: Handle): number => (kind === 'move' ? 1 : 0)

const roundTo = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6))

/** What a mark becomes when one of its handles is taken to a point of the board. */
export function handledMark(mark: Mark, handle: Handle, to: Point): Mark {
  switch (handle.kind) {
    case 'move':
      return movedMark(mark, to)
    case 'bend':
      if (mark.kind !== 'dam') return mark
      return { ...mark, path: mark.path.map((bend, i) => (i === handle.index ? to : bend)) }
    case 'radius':
      if (!('radiusMm' in mark)) return mark
      return { ...mark, radiusMm: Math.min(500, Math.max(0.2, roundTo(distance(mark.at, to), 0.1))) }
    case 'sd': {
      if (mark.kind !== 'spill') return mark
      const asideMm = distance(mark.at, handle.at) - mark.sdMm
      return { ...mark, sdMm: Math.min(200, Math.max(0, roundTo(distance(mark.at, to) - asideMm, 0.5))) }
    }
    case 'down':
      return mark.kind === 'spill' ? turnedDown(mark, to) : mark
    default:
      return handle satisfies never
  }
}

function turnedDown(mark: SpillMark, to: Point): SpillMark {
  if (distance(mark.at, to) === 0) return mark
  return { ...mark, downDeg: roundTo((Math.atan2(to.y - mark.at.y, to.x - mark.at.x) * 180) / Math.PI, 5) }
}

/** A mark moved so that its anchor (a dam's first bend) comes to lie at a point. */
export function movedMark(mark: Mark, to: Point): Mark {
  if (mark.kind === 'spill' || mark.kind === 'note' || mark.kind === 'slip') return { ...mark, at: to }
  if (mark.kind !== 'dam') return areaMovedTo(mark, to)
  const first = mark.path[0] ?? to
  const dx = to.x - first.x
  const dy = to.y - first.y
  return { ...mark, path: mark.path.map((bend) => ({ x: bend.x + dx, y: bend.y + dy })) }
}

/** What a mark is moved by, in mm of the board: its point, or the first bend of a dam. */
export const anchorOf = (mark: Mark): Point => (mark.kind === 'dam' ? (mark.path[0] ?? { x: 0, y: 0 }) : mark.at)
