/** Regions inside of parts, and error load on them as hatch: dense for heavy, loose for light. */
import type { PlacedPart } from '../../../board/index.ts'
import { failingRegion, type LoadView } from '../../../case/index.ts'
import type { Scene } from '../pure/scene.ts'
import { fillBody, type Frame, tracePolygon } from './frame.ts'
import { paint, viewOf } from './paint.ts'
import { drawUntested } from './untested.ts'

const SMALLEST_REGION_PX = 9

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
  const view = viewOf(frame)
  for (const part of parts) {
    if (!load.failingParts.has(part.ref) && part.kind !== 'core') continue
    for (const region of scene.regionsByPart.get(part.ref) ?? []) {
      const weight = load.regions.get(region.id)
      if (weight !== undefined) paint(frame, failingRegion(view, region, weight))
    }
  }
}
