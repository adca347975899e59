/** Dots over a region of which no run tells anything: neither failing nor clean. */
import type { Point } from '../../../base/index.ts'
import type { PlacedPart, Region } from '../../../board/index.ts'
import type { LoadView } from '../pure/load.ts'
import { dotsIn } from '../pure/proofRegions.ts'
import type { Scene } from '../pure/scene.ts'
import type { Frame } from './frame.ts'

const DOTS_PX = 6

/** @param polygon in pixels of the pane */
export function drawDots({ ctx, theme }: Frame, polygon: readonly Point[]): void {
  ctx.beginPath()
  for (const { x, y } of dotsIn(polygon, DOTS_PX)) {
    ctx.moveTo(x + 1.1, y)
    ctx.arc(x, y, 1.1, 0, 2 * Math.PI)
  }
  ctx.fillStyle = theme.muted
  ctx.fill()
}

/** On the memory side only: the core's own regions would be speckled by every lane that a report leaves out. */
export function drawUntested(frame: Frame, scene: Scene, parts: readonly PlacedPart[], load: LoadView): void {
  for (const part of parts) {
    if (part.kind !== 'memory') continue
    for (const region of scene.regionsByPart.get(part.ref) ?? []) {
      if (load.untested.has(region.id)) drawDots(frame, inPane(frame, region))
    }
  }
}

export const inPane = ({ transform: t }: Frame, region: Region): Point[] =>
  region.polygon.map((p) => ({ x: t.a * p.x + t.e, y: t.d * p.y + t.f }))
