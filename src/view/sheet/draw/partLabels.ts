/** Refs in the middle of parts, lane names in the regions: only where they fit, on a clear ground. */
import { type Box, boxOf } from '../../../base/index.ts'
import type { PlacedPart, Region } from '../../../board/index.ts'
import type { SheetNames } from '../props.ts'
import type { Scene, SideScene } from '../pure/scene.ts'
import { boxInPane, type Frame } from './frame.ts'
import { drawText, textWidth } from './text.ts'

const SMALLEST_TEXT_PX = 11

interface PartLabel {
  readonly part: PlacedPart
  readonly text: string
  readonly size: number
  readonly box: Box
}

/** Refs that fit into their parts at this zoom, with the boxes that they take. */
export function partLabels(frame: Frame, parts: readonly PlacedPart[], names?: SheetNames): PartLabel[] {
  return parts.flatMap((part) => {
    const text = names?.parts.get(part.ref) ?? part.ref
    const box = boxInPane(frame, part.box)
    const width = box.maxX - box.minX
    const height = box.maxY - box.minY
    const size = refSize(part, text, width, height)
    const weight = weightOf(part)
    const taken = textWidth(frame.ctx, text, { size, weight })
    if (size < SMALLEST_TEXT_PX || taken > width - 3 || size > height - 1) return []
    const x = (box.minX + box.maxX) / 2
    const y = (box.minY + box.maxY) / 2
    return [
      { part, text, size, box: { minX: x - taken / 2, maxX: x + taken / 2, minY: y - size / 2, maxY: y + size / 2 } },
    ]
  })
}

function refSize(part: PlacedPart, text: string, width: number, height: number): number {
  const largest = part.kind === 'core' ? 24 : part.kind === 'memory' ? 18 : 13
  const fitting = Math.min(largest, height * 0.6, width / (0.62 * text.length))
  return fitting < SMALLEST_TEXT_PX && fitting > SMALLEST_TEXT_PX - 1.5 ? SMALLEST_TEXT_PX : Math.floor(fitting * 2) / 2
}

const weightOf = (part: PlacedPart): 500 | 700 => (part.kind === 'core' || part.kind === 'memory' ? 700 : 500)

export function drawPartLabels(frame: Frame, scene: Scene, parts: readonly PlacedPart[], names?: SheetNames): void {
  const { ctx, theme } = frame
  drawRegionNames(frame, scene, parts, names)
  for (const { part, text, size, box } of partLabels(frame, parts, names)) {
    const x = (box.minX + box.maxX) / 2
    const y = (box.minY + box.maxY) / 2
    if (part.kind === 'core') {
      drawCoreLabel(frame, part.ref, size, x, y)
      continue
    }
    // A clear ground, not a rim around the letters: that is several times cheaper for hundreds of refs.
    ctx.fillStyle = part.kind === 'memory' ? theme.partFill : theme.bodyFill
    ctx.fillRect(box.minX - 3, box.minY - 1, box.maxX - box.minX + 6, box.maxY - box.minY + 2)
    const weight = weightOf(part)
    drawText(ctx, text, x, y, { size, weight, colour: weight === 700 ? theme.ink : theme.muted, align: 'center' })
  }
}

const KIND_FROM_PX = 18

function drawCoreLabel(frame: Frame, ref: string, size: number, x: number, y: number): void {
  const { ctx, theme } = frame
  const withKind = size >= KIND_FROM_PX
  const style = { align: 'center', halo: theme.bodyFill } as const
  drawText(ctx, ref, x, withKind ? y - 8 : y, { ...style, size, weight: 700, colour: theme.ink })
  if (withKind) drawText(ctx, 'core', x, y + 13, { ...style, size: 14, weight: 400, colour: theme.muted })
}

/** Muted refs of the large parts that lie on the other side. */
export function drawGhostLabels(frame: Frame, otherSide: SideScene): void {
  const ghosts = otherSide.partIndex
    .within(frame.shown)
    .map((i) => otherSide.parts[i])
    .filter((part) => part !== undefined && (part.kind === 'core' || part.kind === 'memory'))
    .filter((part) => part !== undefined)
  for (const { part, box } of partLabels(frame, ghosts))
    drawText(frame.ctx, part.ref, (box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2, {
      size: 12,
      weight: 400,
      colour: frame.theme.muted,
      halo: frame.theme.sheet,
      align: 'center',
    })
}

const NAME_FROM_PX = 20

/** Lane names in the outer corner of each lane's region; in a core only once a region is large. */
function drawRegionNames(frame: Frame, scene: Scene, parts: readonly PlacedPart[], names?: SheetNames): void {
  for (const part of parts) {
    if (part.kind !== 'memory' && part.kind !== 'core') continue
    const middle = boxInPane(frame, part.box)
    const middleX = (middle.minX + middle.maxX) / 2
    const middleY = (middle.minY + middle.maxY) / 2
    for (const region of scene.regionsByPart.get(part.ref) ?? []) {
      if (region.role === 'power') continue
      const box = boxInPane(frame, boxOf(region.polygon))
      if (part.kind === 'core') nameInMiddle(frame, region, box)
      else nameInCorner(frame, laneText(region, names), box, middleX, middleY)
    }
  }
}

const laneText = (region: Region, names?: SheetNames): string =>
  region.lanes.map((id) => names?.lanes.get(id)).find((name) => name !== undefined) ?? region.name

function nameInCorner(frame: Frame, name: string, box: Box, middleX: number, middleY: number): void {
  const { ctx, theme } = frame
  const style = { size: SMALLEST_TEXT_PX, weight: 500 } as const
  const width = textWidth(ctx, name, style)
  if (box.maxX - box.minX < Math.max(NAME_FROM_PX, width + 5) || box.maxY - box.minY < 17) return
  const left = (box.minX + box.maxX) / 2 < middleX
  const upper = (box.minY + box.maxY) / 2 < middleY
  const x = left ? box.minX + 4 : box.maxX - 4
  const y = upper ? box.minY + 9 : box.maxY - 8
  drawText(ctx, name, x, y, { ...style, colour: theme.muted, halo: theme.partFill, align: left ? 'left' : 'right' })
}

/** A core's regions may lie aslant: their area, not their box, says whether a name fits. */
function nameInMiddle(frame: Frame, region: Region, box: Box): void {
  const { ctx, theme, scale } = frame
  const style = { size: SMALLEST_TEXT_PX, weight: 500 } as const
  if (Math.sqrt(region.areaMm2) * scale < textWidth(ctx, region.name, style) * 1.2) return
  drawText(ctx, region.name, (box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2, {
    ...style,
    colour: theme.muted,
    halo: theme.wash,
    align: 'center',
  })
}
