/** The lanes that a name in the hand would be given to: lit up on the memory's side. */
import type { Scene } from '../pure/scene.ts'
import { type Frame, tracePolygon } from './frame.ts'

export function drawAimed(frame: Frame, scene: Scene, lanes: readonly string[]): void {
  const { ctx, theme } = frame
  const regions = new Set(lanes.map((id) => scene.model.laneById.get(id)?.memoryRegion))
  ctx.beginPath()
  for (const id of regions) {
    const region = id === undefined ? undefined : scene.model.regionById.get(id)
    if (region !== undefined && region.side === frame.pane.side) tracePolygon(frame, region.polygon)
  }
  ctx.globalAlpha = 0.45
  ctx.fillStyle = theme.lit
  ctx.fill()
  ctx.globalAlpha = 1
  ctx.lineJoin = 'round'
  ctx.lineWidth = 3
  ctx.strokeStyle = theme.focus
  ctx.stroke()
}
