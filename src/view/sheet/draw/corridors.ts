/** Corridors: a hairline a lane far out, a strip close up; vermillion and thick where the lane fails. */
import type { LoadView } from '../../../case/index.ts'
import type { SideScene } from '../pure/scene.ts'
import { type Frame, traceLine } from './frame.ts'

/** A corridor's true width is worth showing once it is this wide, and so near that neighbours do not run together. */
const STRIP_FROM_PX = 8
const STRIP_FROM_SCALE = 9

export function drawCorridors(frame: Frame, scene: SideScene, load: LoadView | undefined): void {
  const { ctx, shown, theme, scale } = frame
  const visible = scene.corridorIndex.within(shown)
  ctx.lineJoin = 'round'
  ctx.lineCap = 'butt'
  for (const failing of [false, true]) {
    for (const i of visible) {
      const corridor = scene.corridors[i]
      if (corridor === undefined || (load?.failingLanes.has(corridor.lane) ?? false) !== failing) continue
      const colour = failing ? theme.load : theme.corridor
      ctx.beginPath()
      traceLine(frame, corridor.path)
      ctx.strokeStyle = colour
      if (scale >= STRIP_FROM_SCALE && corridor.widthMm * scale >= STRIP_FROM_PX) {
        ctx.globalAlpha = failing ? 0.16 : 0.1
        ctx.lineWidth = corridor.widthMm * scale
        ctx.stroke()
        ctx.globalAlpha = 1
      }
      ctx.lineWidth = failing ? 2.4 : 1.1
      ctx.stroke()
    }
  }
}
