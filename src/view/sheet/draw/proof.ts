/**
 * What became of lanes after the work, each kind with a drawing of its own: hatch as before where it still fails, crossed
 * hatch and a plus where it is new, a dashed outline with a tick where it is gone, dots where it was not tested again, a
 * question mark where the retest does not tell.
 */
import { boxOf, type Point } from '../../../base/index.ts'
import type { PlacedPart, Region } from '../../../board/index.ts'
import { HATCH_DEG, hatchShape, type LoadView, untestedRegion } from '../../../case/index.ts'
import { toPane } from '../pure/camera.ts'
import { middleOf, type ProofKind } from '../pure/proofRegions.ts'
import type { Scene } from '../pure/scene.ts'
import { boxInPane, type Frame, tracePolygon } from './frame.ts'
import { paint, viewOf } from './paint.ts'
import { drawText } from './text.ts'

const SMALLEST_WITH_SYMBOL_PX = 15
/** Hatch of a failing lane while the error load is not shown. */
const PLAIN_LOAD = 0.5

/** Strokes around (0, 0) within a unit circle, y down; the panel's pictures use the same. */
export const proofStrokes: Readonly<Record<'gone' | 'fresh', readonly (readonly Point[])[]>> = {
  gone: [
    [
      { x: -0.62, y: 0.05 },
      { x: -0.15, y: 0.5 },
      { x: 0.65, y: -0.5 },
    ],
  ],
  fresh: [
    [
      { x: -0.6, y: 0 },
      { x: 0.6, y: 0 },
    ],
    [
      { x: 0, y: -0.6 },
      { x: 0, y: 0.6 },
    ],
  ],
}

export function drawProof(
  frame: Frame,
  scene: Scene,
  parts: readonly PlacedPart[],
  proof: ReadonlyMap<string, ProofKind>,
  load: LoadView | undefined,
): void {
  const shown = parts.flatMap((part) =>
    part.kind === 'core' || part.kind === 'memory' ? (scene.regionsByPart.get(part.ref) ?? []) : [],
  )
  const regions = shown.flatMap((region) => {
    const kind = proof.get(region.id)
    return kind === undefined ? [] : [{ region, kind }]
  })
  for (const { region, kind } of regions) fillRegion(frame, region, kind, load?.regions.get(region.id) ?? PLAIN_LOAD)
  for (const { region, kind } of regions) drawSymbol(frame, region, kind)
}

function fillRegion(frame: Frame, region: Region, kind: ProofKind, load: number): void {
  const { theme } = frame
  const view = viewOf(frame)
  if (kind === 'untested' || kind === 'not-told') {
    paint(frame, [untestedRegion(view, region)])
    return outline(frame, region, theme.outlineSoft, 1, [])
  }
  if (kind === 'gone') return outline(frame, region, theme.cleanText, 1.8, [5, 3])
  paint(frame, [hatchShape(view, region, load)])
  if (kind === 'fresh') paint(frame, [hatchShape(view, region, load, -HATCH_DEG)])
  outline(frame, region, kind === 'fresh' ? theme.loadText : theme.load, kind === 'fresh' ? 2.4 : 1.3, [])
}

function outline(frame: Frame, region: Region, colour: string, width: number, dash: number[]): void {
  const { ctx } = frame
  ctx.beginPath()
  tracePolygon(frame, region.polygon)
  ctx.lineJoin = 'round'
  ctx.setLineDash(dash)
  ctx.lineWidth = width
  ctx.strokeStyle = colour
  ctx.stroke()
  ctx.setLineDash([])
}

function drawSymbol(frame: Frame, region: Region, kind: ProofKind): void {
  if (kind === 'still' || kind === 'untested') return
  const box = boxInPane(frame, boxOf(region.polygon))
  const smaller = Math.min(box.maxX - box.minX, box.maxY - box.minY)
  if (smaller < SMALLEST_WITH_SYMBOL_PX) return
  const { ctx, theme } = frame
  const at = middleOf(region.polygon.map((p) => toPane(frame.transform, p)))
  const radius = Math.min(10, smaller * 0.36)
  ctx.beginPath()
  ctx.arc(at.x, at.y, radius, 0, 2 * Math.PI)
  ctx.fillStyle = theme.sheet
  ctx.fill()
  if (kind === 'not-told') {
    return drawText(ctx, '?', at.x, at.y, {
      size: Math.max(12, radius * 1.7),
      weight: 700,
      colour: theme.ink,
      align: 'center',
    })
  }
  ctx.strokeStyle = kind === 'gone' ? theme.cleanText : theme.loadText
  if (kind === 'fresh') {
    ctx.lineWidth = 1.6
    ctx.stroke()
  }
  ctx.beginPath()
  for (const stroke of proofStrokes[kind]) {
    for (const [i, p] of stroke.entries()) {
      if (i === 0) ctx.moveTo(at.x + p.x * radius, at.y + p.y * radius)
      else ctx.lineTo(at.x + p.x * radius, at.y + p.y * radius)
    }
  }
  ctx.lineCap = 'round'
  ctx.lineJoin = 'round'
  ctx.lineWidth = Math.max(1.8, radius * 0.28)
  ctx.stroke()
  ctx.lineCap = 'butt'
}
