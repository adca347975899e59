/** Dots over a region of which no run tells anything: neither failing nor clean. */
import type { PlacedPart } from '../../../board/index.ts'
import { type LoadView, untestedRegion } from '../../../case/index.ts'
import type { Scene } from '../pure/scene.ts'
import type { Frame } from './frame.ts'
import { paint, viewOf } from './paint.ts'

/** On the memory side only: the core's own regions would be speckled by every lane that a report leaves out. */
export function drawUntested(frame: Frame, scene: Scene, parts: readonly PlacedPart[], load: LoadView): void {
  const view = viewOf(frame)
  for (const part of parts) {
    if (part.kind !== 'memory') continue
    for (const region of scene.regionsByPart.get(part.ref) ?? [])
      if (load.untested.has(region.id)) paint(frame, [untestedRegion(view, region)])
  }
}
