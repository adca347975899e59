/** What is selected, hovered or under the keyboard, lit up: parts, regions, lanes, rails with their probe points, nets. */
import { say } from '../../../base/index.ts'
import type { BoardModel, PlacedPart } from '../../../board/index.ts'
import { railPoints, stagePoints } from '../../../measure/index.ts'
import type { Selection } from '../props.ts'
import type { Scene } from '../pure/scene.ts'
import { boxInPane, type Frame, traceLine, tracePolygon, traceRounded } from './frame.ts'
import { drawProbePoints } from './probePoints.ts'
import { drawText } from './text.ts'

export type Light = 'selected' | 'hovered'

export function drawLit(frame: Frame, scene: Scene, lit: Selection, light: Light): void {
  switch (lit.kind) {
    case 'part':
      litPart(frame, scene.model.partByRef.get(lit.id), light)
      return litStagePoints(frame, scene.model, lit.id)
    case 'region':
      return litRegion(frame, scene.model, lit.id, light)
    case 'lane':
      return litLane(frame, scene.model, lit.id, light)
    case 'rail':
      return litRail(frame, scene.model, lit.id, light)
    case 'net':
      return litNet(frame, scene, lit.id, light)
    case 'mark':
      return
  }
}

function litPart(frame: Frame, part: PlacedPart | undefined, light: Light): void {
  if (part === undefined) return
  const { ctx, theme, pane } = frame
  const otherSide = part.side !== pane.side
  ctx.beginPath()
  traceRounded(frame, part.outline, 5)
  ctx.lineJoin = 'round'
  ctx.setLineDash(otherSide ? [6, 4] : [])
  if (light === 'selected') {
    ctx.lineWidth = 7
    ctx.globalAlpha = 0.28
    ctx.strokeStyle = theme.focus
    ctx.stroke()
    ctx.globalAlpha = 1
  }
  ctx.lineWidth = light === 'selected' ? 3 : 2.2
  ctx.strokeStyle = light === 'selected' ? theme.focus : theme.ink
  ctx.stroke()
  ctx.setLineDash([])
  nameBeside(frame, part, light)
}

/** Where a power stage is measured. */
function litStagePoints(frame: Frame, model: BoardModel, ref: string): void {
  const part = model.partByRef.get(ref)
  if (part?.kind === 'power-stage') drawProbePoints(frame, stagePoints(model, part))
}

/** The ref of a lit part that is too small to carry it. */
function nameBeside(frame: Frame, part: PlacedPart, light: Light): void {
  const box = boxInPane(frame, part.box)
  const fits = box.maxX - box.minX > 10 * part.ref.length && box.maxY - box.minY > 20
  if (fits && part.side === frame.pane.side) return
  const text = part.side === frame.pane.side ? part.ref : say('{ref}, other side', { ref: part.ref })
  drawText(frame.ctx, text, (box.minX + box.maxX) / 2, box.minY - 13, {
    size: 14,
    weight: light === 'selected' ? 700 : 500,
    colour: frame.theme.ink,
    halo: frame.theme.sheet,
    align: 'center',
  })
}

function litRegion(frame: Frame, model: BoardModel, id: string, light: Light): void {
  const region = model.regionById.get(id)
  if (region === undefined || region.side !== frame.pane.side) return
  const { ctx, theme } = frame
  ctx.beginPath()
  tracePolygon(frame, region.polygon)
  ctx.lineJoin = 'round'
  ctx.lineWidth = light === 'selected' ? 3 : 2
  ctx.strokeStyle = light === 'selected' ? theme.focus : theme.ink
  ctx.stroke()
}

function litLane(frame: Frame, model: BoardModel, id: string, light: Light): void {
  const lane = model.laneById.get(id)
  if (lane === undefined) return
  const { ctx, theme } = frame
  const corridor = model.corridorByLane.get(id)
  if (corridor !== undefined && corridor.side === frame.pane.side) {
    ctx.beginPath()
    traceLine(frame, corridor.path)
    ctx.lineCap = 'round'
    ctx.lineJoin = 'round'
    ctx.lineWidth = 7
    ctx.strokeStyle = theme.sheet
    ctx.stroke()
    ctx.lineWidth = light === 'selected' ? 4 : 3
    ctx.strokeStyle = light === 'selected' ? theme.focus : theme.ink
    ctx.stroke()
  }
  litRegion(frame, model, lane.memoryRegion, light)
  if (lane.coreRegion !== undefined) litRegion(frame, model, lane.coreRegion, light)
}

/** From this size on a part that a rail feeds gets a heavy dashed edge; on small ones dashes would be blots. */
const LARGE_FED_PX = 26

function litRail(frame: Frame, model: BoardModel, name: string, light: Light): void {
  const rail = model.rails.find((one) => one.name === name)
  if (rail === undefined) return
  const { ctx, theme, pane } = frame
  for (const [refs, dash] of [
    [rail.feeds, [9, 4]],
    [rail.stages, []],
  ] as const) {
    ctx.beginPath()
    for (const ref of refs) {
      const part = model.partByRef.get(ref)
      if (part !== undefined && part.side === pane.side) traceRounded(frame, part.outline, 5)
    }
    ctx.fillStyle = theme.lit
    ctx.globalAlpha = light === 'selected' ? 0.22 : 0.12
    ctx.fill()
    ctx.globalAlpha = 1
    ctx.lineWidth = 1
    ctx.strokeStyle = theme.ink
    ctx.stroke()
    ctx.beginPath()
    for (const ref of refs) {
      const part = model.partByRef.get(ref)
      if (part === undefined || part.side !== pane.side) continue
      if (Math.min(part.widthMm, part.lengthMm) * frame.scale >= LARGE_FED_PX) traceRounded(frame, part.outline, 5)
    }
    ctx.setLineDash([...dash])
    ctx.lineWidth = 2.6
    ctx.stroke()
    ctx.setLineDash([])
  }
  drawProbePoints(frame, railPoints(rail))
}

const SMALLEST_LIT_PAD_PX = 3.5

function litNet(frame: Frame, scene: Scene, net: string, light: Light): void {
  const { ctx, theme, pane, transform: t, shown, scale } = frame
  const { pads } = scene.sides[pane.side]
  const visible = pads.within(shown)
  ctx.beginPath()
  for (let k = 0; k < visible.length; k++) {
    const i = visible[k] ?? 0
    if (pads.nets[i] !== net) continue
    const halfWidth = Math.max(SMALLEST_LIT_PAD_PX, (pads.halfWidthMm[i] ?? 0) * scale)
    const halfLength = Math.max(SMALLEST_LIT_PAD_PX, (pads.halfLengthMm[i] ?? 0) * scale)
    const x = t.a * (pads.xMm[i] ?? 0) + t.e
    const y = t.d * (pads.yMm[i] ?? 0) + t.f
    ctx.rect(x - halfWidth, y - halfLength, 2 * halfWidth, 2 * halfLength)
  }
  ctx.fillStyle = theme.lit
  ctx.fill()
  ctx.lineWidth = light === 'selected' ? 1.8 : 1.2
  ctx.strokeStyle = theme.ink
  ctx.stroke()
}

/** The keyboard's place: a blue ring with a gap around the part, told apart from selection by its distance. */
export function drawKeyboardFocus(frame: Frame, part: PlacedPart): void {
  const { ctx, theme } = frame
  const box = boxInPane(frame, part.box)
  const gap = 6
  ctx.beginPath()
  ctx.roundRect(box.minX - gap, box.minY - gap, box.maxX - box.minX + 2 * gap, box.maxY - box.minY + 2 * gap, 8)
  ctx.setLineDash([])
  ctx.lineWidth = 6
  ctx.strokeStyle = theme.sheet
  ctx.stroke()
  ctx.lineWidth = 3
  ctx.strokeStyle = theme.focus
  ctx.stroke()
}
