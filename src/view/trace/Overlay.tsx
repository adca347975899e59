/** What lies over a straight photo: the board's edge, parts with their refs, proposals, places of the tool in hand. */
import type { Point } from '../../base/index.ts'
import { type BoardRaster, type TracedPart, toRaster } from '../../trace/index.ts'
import styles from './trace.module.css'
import type { Proposal } from './work.ts'

interface OverlayProps {
  readonly raster: BoardRaster
  readonly outline: readonly Point[]
  readonly parts: readonly TracedPart[]
  readonly proposals: readonly Proposal[]
  readonly refs: ReadonlyMap<string, string>
  readonly selectedId: string | undefined
  readonly toolPoints: readonly Point[]
}

export function Overlay({ raster, outline, parts, proposals, refs, selectedId, toolPoints }: OverlayProps) {
  const at = (point: Point): string => {
    const { x, y } = toRaster(raster, point)
    return `${x.toFixed(1)} ${y.toFixed(1)}`
  }
  return (
    <>
      <path className={styles.edge} d={`M${outline.map(at).join('L')}Z`} />
      {parts.map((part) => (
        <g key={part.id} className={styles.part} data-selected={part.id === selectedId}>
          <path d={bodyPath(part, at)} />
          <text x={toRaster(raster, part.at).x} y={toRaster(raster, part.at).y}>
            {refs.get(part.id)}
          </text>
        </g>
      ))}
      {proposals.map(({ part, struckOut }) => (
        <g key={part.id} className={styles.proposal} data-out={struckOut}>
          <path d={bodyPath(part, at)} />
          {struckOut && <path d={crossPath(part, at)} />}
        </g>
      ))}
      {toolPoints.map((point) => (
        <circle
          key={at(point)}
          className={styles.point}
          cx={toRaster(raster, point).x}
          cy={toRaster(raster, point).y}
          r={8}
        />
      ))}
    </>
  )
}

type Place = (point: Point) => string

const bodyPath = (part: TracedPart, at: Place): string => `M${cornersOf(part).map(at).join('L')}Z`

function crossPath(part: TracedPart, at: Place): string {
  const [a, b, c, d] = cornersOf(part).map(at)
  return `M${a}L${c}M${b}L${d}`
}

function cornersOf({ at, rotationDeg, body }: TracedPart): Point[] {
  const angle = (rotationDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const [x, y] = [body.widthMm / 2, body.lengthMm / 2]
  return [
    { x: -x, y: -y },
    { x, y: -y },
    { x, y },
    { x: -x, y },
  ].map((p) => ({ x: at.x + p.x * cos - p.y * sin, y: at.y + p.x * sin + p.y * cos }))
}
