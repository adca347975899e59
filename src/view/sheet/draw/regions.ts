/** Regions inside of parts, and error load on them as hatch: dense for heavy, loose for light. */
import type { PlacedPart, Region } from '../../../board/index.ts'
import { hatchSegments } from '../pure/hatch.ts'
import { hatchSpacingPx, type LoadView } from '../pure/load.ts'
import type { Scene } from '../pure/scene.ts'
import { boxInPane, fillBody, type Frame, tracePolygon } from './frame.ts'
import { drawUntested } from './untested.ts'
import { boxOf } from '../../../base/index.ts'

const SMALLEST_REGION_PX = 9
const HATCH_ANGLE_DEG = -52

export function drawRegions(frame: Frame, scene: Scene, parts: readonly PlacedPart[]): void {
  const { ctx, theme, scale } = frame
  for (const [kind, fill, stroke] of [
    ['core', theme.wash, theme.outlineSoft],
    ['memory', undefined, theme.hairline],
  ] as const) {
    ctx.beginPath()
    for (const part of parts) {
      if (part.kind !== kind) continue
      for (const region of scene.regionsByPart.get(part.ref) ?? []) {
        if (region.role === 'power' || Math.sqrt(region.areaMm2) * scale < SMALLEST_REGION_PX) continue
        tracePolygon(frame, region.polygon)
      }
    }
    if (fill !== undefined) {
      fillBody(frame, fill)
    }
    ctx.lineJoin = 'round'
    ctx.lineWidth = 1
    ctx.strokeStyle = stroke
    ctx.stroke()
  }
}

export function drawLoad(frame: Frame, scene: Scene, parts: readonly PlacedPart[], load: LoadView): void {
  drawUntested(frame, scene, parts, load)
  for (const part of parts) {
    if (!load.failingParts.has(part.ref) && part.kind !== 'core') continue
    for (const region of scene.regionsByPart.get(part.ref) ?? []) {
      const weight = load.regions.get(region.id)
      if (weight !== undefined) hatchRegion(frame, region, weight)
    }
  }
}

function hatchRegion(frame: Frame, region: Region, weight: number): void {
  const { ctx, theme, transform: t } = frame
  const polygon = region.polygon.map((p) => ({ x: t.a * p.x + t.e, y: t.d * p.y + t.f }))
  const box = boxInPane(frame, boxOf(region.polygon))
  const spacing = Math.min(hatchSpacingPx(weight), Math.max(3, Math.min(box.maxX - box.minX, box.maxY - box.minY) / 2))
  const anchor = polygon[0] ?? { x: 0, y: 0 }
  const radians = (HATCH_ANGLE_DEG * Math.PI) / 180
  const phase = anchor.x * Math.sin(radians) - anchor.y * Math.cos(radians)
  const lines = hatchSegments(polygon, spacing, HATCH_ANGLE_DEG, phase)
  ctx.beginPath()
  for (let i = 0; i < lines.length; i += 4) {
    ctx.moveTo(lines[i] ?? 0, lines[i + 1] ?? 0)
    ctx.lineTo(lines[i + 2] ?? 0, lines[i + 3] ?? 0)
  }
  ctx.lineCap = 'butt'
  ctx.lineWidth = 1.4
  ctx.strokeStyle = theme.load
  ctx.stroke()
  ctx.beginPath()
  tracePolygon(frame, region.polygon)
  ctx.lineWidth = 1.3
  ctx.stroke()
}
