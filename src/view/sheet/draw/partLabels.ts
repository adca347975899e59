/** Refs in the middle of parts, lane names in the regions: only where they fit, on a clear ground. */
import { type Box, boxOf, overlap } from '../../../base/index.ts'
import type { PlacedPart, Region } from '../../../board/index.ts'
import { groundOf, laneLabel, type PartLabel, partLabels, partTexts, SMALLEST_TEXT_PX } from '../../../case/index.ts'
import type { SheetNames } from '../props.ts'
import type { Scene, SideScene } from '../pure/scene.ts'
import { boxInPane, type Frame } from './frame.ts'
import { measureOn, viewOf, write } from './paint.ts'
import { drawText, textWidth } from './text.ts'

export function drawPartLabels(frame: Frame, scene: Scene, parts: readonly PlacedPart[], names?: SheetNames): void {
  const { ctx, theme } = frame
  const view = viewOf(frame)
  const labels = partLabels(view, parts, measureOn(frame), names?.parts)
  drawRegionNames(frame, scene, labels, parts, names)
  for (const label of labels) {
    const { part, box } = label
    const texts = partTexts(view, label)
    if (part.kind === 'core') {
      for (const text of texts) write(frame, text)
      continue
    }
    // A clear ground, not a rim around the letters: that is several times cheaper for hundreds of refs.
    ctx.fillStyle = theme[groundOf(part)]
    const ground = grounded(box)
    ctx.fillRect(ground.minX, ground.minY, ground.maxX - ground.minX, ground.maxY - ground.minY)
    for (const { halo: _, ...text } of texts) write(frame, text)
  }
}

const grounded = ({ minX, minY, maxX, maxY }: Box): Box => ({
  minX: minX - 3,
  minY: minY - 1,
  maxX: maxX + 3,
  maxY: maxY + 1,
})

/** Muted refs of the large parts that lie on the other side. */
export function drawGhostLabels(frame: Frame, otherSide: SideScene): void {
  const ghosts = otherSide.partIndex
    .within(frame.shown)
    .map((i) => otherSide.parts[i])
    .filter((part) => part !== undefined && (part.kind === 'core' || part.kind === 'memory'))
    .filter((part) => part !== undefined)
  for (const { part, box } of partLabels(viewOf(frame), ghosts, measureOn(frame)))
    drawText(frame.ctx, part.ref, (box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2, {
      size: 12,
      weight: 400,
      colour: frame.theme.muted,
      halo: frame.theme.sheet,
      align: 'center',
    })
}

const NAME_FROM_PX = 20

/** Lane names in the outer corner of each lane's region, clear of the part's ref; in a core only once a region is large. */
function drawRegionNames(
  frame: Frame,
  scene: Scene,
  labels: readonly PartLabel[],
  parts: readonly PlacedPart[],
  names?: SheetNames,
): void {
  const refs = new Map(labels.map(({ part, box }) => [part.ref, grounded(box)]))
  for (const part of parts) {
    if (part.kind !== 'memory' && part.kind !== 'core') continue
    const middle = boxInPane(frame, part.box)
    const middleX = (middle.minX + middle.maxX) / 2
    const middleY = (middle.minY + middle.maxY) / 2
    const taken: Box[] = []
    for (const region of scene.regionsByPart.get(part.ref) ?? []) {
      if (region.role === 'power') continue
      const box = boxInPane(frame, boxOf(region.polygon))
      if (part.kind === 'core') nameInMiddle(frame, region, box, taken)
      else nameInCorner(frame, laneText(region, names), box, { middleX, middleY, ref: refs.get(part.ref) })
    }
  }
}

const laneText = (region: Region, names?: SheetNames): string =>
  region.lanes.map((id) => names?.lanes.get(id)).find((name) => name !== undefined) ??
  (region.role === 'lane' ? laneLabel(region.name) : region.name)

interface OfPart {
  readonly middleX: number
  readonly middleY: number
  /** What the ref of the part covers. */
  readonly ref: Box | undefined
}

function nameInCorner(frame: Frame, name: string, box: Box, { middleX, middleY, ref }: OfPart): void {
  const { ctx, theme } = frame
  const style = { size: SMALLEST_TEXT_PX, weight: 500 } as const
  const width = textWidth(ctx, name, style)
  if (box.maxX - box.minX < Math.max(NAME_FROM_PX, width + 5) || box.maxY - box.minY < 17) return
  const left = (box.minX + box.maxX) / 2 < middleX
  const upper = (box.minY + box.maxY) / 2 < middleY
  const x = left ? box.minX + 4 : box.maxX - 4
  const y = upper ? box.minY + 9 : box.maxY - 8
  const half = style.size / 2
  const covers = { minX: left ? x : x - width, maxX: left ? x + width : x, minY: y - half, maxY: y + half }
  if (ref !== undefined && overlap(ref, covers) > 0) return
  drawText(ctx, name, x, y, { ...style, colour: theme.muted, halo: theme.partFill, align: left ? 'left' : 'right' })
}

/** A core's regions may lie aslant: their area, not their box, says whether a name fits, and no name lies on another. */
function nameInMiddle(frame: Frame, region: Region, box: Box, taken: Box[]): void {
  const { ctx, theme, scale } = frame
  const style = { size: SMALLEST_TEXT_PX, weight: 500 } as const
  const width = textWidth(ctx, region.name, style)
  if (Math.sqrt(region.areaMm2) * scale < width * 1.2) return
  const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]
  const name = { minX: x - width / 2, maxX: x + width / 2, minY: y - style.size / 2, maxY: y + style.size / 2 }
  if (taken.some((other) => overlap(name, other) > 0)) return
  taken.push(name)
  drawText(ctx, region.name, x, y, {
    ...style,
    colour: theme.muted,
    halo: theme.wash,
    align: 'center',
  })
}
