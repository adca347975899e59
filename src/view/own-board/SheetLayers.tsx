/** The layers of the editor's sheet: board, parts, refs, what is held, what is pointed at. */
import { memo, useMemo } from 'react'
import { boxOf, placePoint, type Point } from '../../base/index.ts'
import {
  type BoardDescription,
  type BoardModel,
  type Part,
  partBox,
  type Rail,
  regionsOf,
  type Side,
} from '../../board/index.ts'
import { toScreen, type View } from './camera.ts'
import styles from './sheet.module.css'
import { lineOf, pathOf, shapeOf } from './shapes.ts'

export const BoardLayer = memo(function BoardLayer({ board }: { readonly board: BoardDescription }) {
  const cutouts = board.holes.flatMap((hole) => ('polygon' in hole ? [hole.polygon] : []))
  return (
    <>
      <path className={styles.board} d={[board.outline, ...cutouts].map(pathOf).join('')} />
      {board.holes.map((hole) =>
        'polygon' in hole ? undefined : (
          <circle
            key={`${hole.at.x} ${hole.at.y}`}
            className={styles.hole}
            cx={hole.at.x}
            cy={hole.at.y}
            r={hole.diameterMm / 2}
          />
        ),
      )}
    </>
  )
})

export const LaneLayer = memo(function LaneLayer({ model, side }: { readonly model: BoardModel; readonly side: Side }) {
  return (
    <path
      className={styles.lanes}
      d={model.corridors
        .filter((corridor) => corridor.side === side)
        .map(({ path }) => lineOf(path))
        .join('')}
    />
  )
})

interface PartsLayerProps {
  readonly parts: readonly Part[]
  readonly side: Side
  readonly selected: ReadonlySet<string>
  /** By what the chosen rail has to do with them. */
  readonly ofRail: ReadonlyMap<string, 'feeds' | 'makes'>
  readonly held: boolean
}

/** Those of the other side first and faint, then this side's, the selected on top. */
export const PartsLayer = memo(function PartsLayer({ parts, side, selected, ofRail, held }: PartsLayerProps) {
  const here = parts.filter((part) => part.side === side)
  const there = parts.filter((part) => part.side !== side)
  const first = here.filter(({ ref }) => !selected.has(ref))
  const last = here.filter(({ ref }) => selected.has(ref))
  return (
    <>
      {there.map((part) => (
        <path
          key={part.ref}
          className={styles.behind}
          data-selected={selected.has(part.ref) || undefined}
          d={shapeOf(part).body}
        />
      ))}
      {[...first, ...last].map((part) => (
        <PartPath
          key={part.ref}
          part={part}
          selected={selected.has(part.ref)}
          ofRail={ofRail.get(part.ref)}
          ghost={held && selected.has(part.ref)}
        />
      ))}
    </>
  )
})

interface PartPathProps {
  readonly part: Part
  readonly selected: boolean
  readonly ofRail: 'feeds' | 'makes' | undefined
  readonly ghost: boolean
}

const PartPath = memo(function PartPath({ part, selected, ofRail, ghost }: PartPathProps) {
  const { body, corner } = shapeOf(part)
  return (
    <g
      className={styles.part}
      data-kind={part.kind}
      data-ref={part.ref}
      data-selected={selected || undefined}
      data-rail={ofRail}
      data-ghost={ghost || undefined}
    >
      <path d={body} />
      {corner !== '' && <path className={styles.corner} d={corner} />}
    </g>
  )
})

const SMALLEST_PX = 11
const LARGEST_PX = 17
const WIDTH_OF_LETTER = 0.62

interface RefsLayerProps {
  readonly parts: readonly Part[]
  readonly view: View
  readonly selected: ReadonlySet<string>
  /** What is selected is under the hand: its refs are left out. */
  readonly held: boolean
  /** A part whose regions are named inside of it: its ref stands above. */
  readonly above?: string | undefined
}

/** Refs where they fit into their parts, and always beside a few that are selected. */
export const RefsLayer = memo(function RefsLayer({ parts, view, selected, held, above }: RefsLayerProps) {
  const all = selected.size <= 4
  return (
    <g className={styles.refs} aria-hidden="true">
      {parts.map((part) => {
        if (part.side !== view.side || (held && selected.has(part.ref))) return undefined
        const at = toScreen(view, part.at)
        if (at.x < -40 || at.y < -40 || at.x > view.widthPx + 40 || at.y > view.heightPx + 40) return undefined
        const box = partBox(part)
        const width = (box.maxX - box.minX) * view.pxPerMm
        const height = (box.maxY - box.minY) * view.pxPerMm
        const size = Math.min(LARGEST_PX, height * 0.6, width / (WIDTH_OF_LETTER * part.ref.length))
        const middle = toScreen(view, { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 })
        if (size >= SMALLEST_PX && part.ref !== above)
          return (
            <text
              key={part.ref}
              x={middle.x}
              y={middle.y}
              fontSize={size}
              data-strong={selected.has(part.ref) || undefined}
            >
              {part.ref}
            </text>
          )
        if (!all || !selected.has(part.ref)) return undefined
        return (
          <text key={part.ref} x={middle.x} y={middle.y - height / 2 - 9} fontSize={12} data-strong>
            {part.ref}
          </text>
        )
      })}
    </g>
  )
})

/** Regions of the one part that is selected, with their names where these fit. */
export function RegionsLayer({
  board,
  part,
  view,
}: {
  readonly board: BoardDescription
  readonly part: Part
  readonly view: View
}) {
  const regions = useMemo(() => [...regionsOf(board, part)], [board, part])
  const placement = { at: part.at, rotationDeg: part.rotationDeg, mirrored: part.side === 'bottom' }
  return (
    <g aria-hidden="true">
      {regions.map(([name, polygon]) => {
        const corners = polygon.map((point) => toScreen(view, placePoint(point, placement)))
        const box = boxOf(corners)
        const fits = box.maxX - box.minX > name.length * 7 + 4 && box.maxY - box.minY > 13
        return (
          <g key={name} className={styles.region}>
            <path d={pathOf(corners)} />
            {fits && (
              <text x={(box.minX + box.maxX) / 2} y={(box.minY + box.maxY) / 2} fontSize={11}>
                {name}
              </text>
            )}
          </g>
        )
      })}
    </g>
  )
}

export function PointsLayer({ rail, view }: { readonly rail: Rail; readonly view: View }) {
  return (
    <g className={styles.points} aria-hidden="true">
      {rail.points.map(({ at, side }, i) => {
        const { x, y } = toScreen(view, at)
        return (
          <g key={`${at.x} ${at.y} ${side}`} data-here={side === view.side || undefined}>
            <circle cx={x} cy={y} r={9} />
            <text x={x} y={y} fontSize={11}>
              {i + 1}
            </text>
          </g>
        )
      })}
    </g>
  )
}

const RING_PX = 14

/** A ring about each part and point that a line of the check speaks of. */
export function PointedLayer({
  board,
  refs,
  points,
  view,
}: {
  readonly board: BoardDescription
  readonly refs: readonly string[]
  readonly points: readonly Point[]
  readonly view: View
}) {
  const parts = board.parts.filter(({ ref }) => refs.includes(ref))
  const rings = [
    ...parts.map((part) => {
      const box = partBox(part)
      const across = Math.hypot(box.maxX - box.minX, box.maxY - box.minY)
      return {
        key: part.ref,
        at: { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 },
        radius: (across / 2) * view.pxPerMm + 8,
      }
    }),
    ...(parts.length > 0 ? [] : points.map((at) => ({ key: `${at.x} ${at.y}`, at, radius: RING_PX }))),
  ]
  return (
    <g className={styles.ring} data-testid="pointed">
      {rings.map(({ key, at, radius }) => {
        const { x, y } = toScreen(view, at)
        return <circle key={key} cx={x} cy={y} r={radius} />
      })}
    </g>
  )
}
