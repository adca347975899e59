/** Photos under the drawing, each on its side, within the board's outline. */
import type { BoardModel } from '../../../board/index.ts'
import type { PhotoView } from '../props.ts'
import { boxInPane, type Frame, tracePolygon } from './frame.ts'

export const photosOn = (frame: Frame, photos: readonly PhotoView[]): PhotoView[] =>
  photos.filter((photo) => photo.side === frame.pane.side && photo.shownPct > 0)

/** Bodies are drawn no denser than this where a photo shows in full: their outlines tell them. */
const THINNEST_BODY = 0.06

/** How dense bodies are drawn over these photos, 0 to 1. */
export const bodyAlphaOver = (photos: readonly PhotoView[]): number =>
  Math.max(THINNEST_BODY, 1 - Math.max(0, ...photos.map(({ shownPct }) => shownPct)) / 70)

export function drawUnderlay(frame: Frame, model: BoardModel, photos: readonly PhotoView[]): void {
  if (photos.length === 0) return
  const { ctx, transform: t } = frame
  ctx.save()
  ctx.beginPath()
  tracePolygon(frame, model.outline)
  for (const cutout of model.cutouts) tracePolygon(frame, cutout)
  ctx.clip('evenodd')
  ctx.imageSmoothingEnabled = true
  for (const { image, box, shownPct } of photos) {
    const at = boxInPane(frame, box)
    const width = at.maxX - at.minX
    ctx.save()
    ctx.globalAlpha = shownPct / 100
    ctx.translate(t.a < 0 ? at.maxX : at.minX, at.minY)
    if (t.a < 0) ctx.scale(-1, 1)
    ctx.drawImage(image, 0, 0, width, at.maxY - at.minY)
    ctx.restore()
  }
  ctx.restore()
}
