/** The three pictures that lie on each other in a pane: the board, the fields, and what the hand moves. */
import type { Box } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import { badgeBox, badgesOf, type LoadView, partObstacles, symbolBox } from '../../case/index.ts'
import { drawBadges } from './draw/badges.ts'
import { drawAimed } from './draw/aimed.ts'
import { drawCorridors } from './draw/corridors.ts'
import { type Frame, tracePolygon } from './draw/frame.ts'
import { drawFreeLabels } from './draw/freeLabels.ts'
import { drawGround } from './draw/ground.ts'
import { drawMeasured } from './draw/measured.ts'
import { drawIsotherms } from './draw/isotherms.ts'
import { drawKeyboardFocus, drawLit } from './draw/lit.ts'
import { drawBrush } from './draw/brush.ts'
import { drawMarks } from './draw/marks.ts'
import { drawPadRepairs } from './draw/padRepairs.ts'
import { drawPads } from './draw/pads.ts'
import { measureOn, viewOf } from './draw/paint.ts'
import { drawProof } from './draw/proof.ts'
import { drawGhostLabels, drawPartLabels } from './draw/partLabels.ts'
import { drawDie, drawGhosts, drawParts, visibleParts } from './draw/parts.ts'
import { drawHeatDetails, drawPassExposure, drawPassFootprints, passBadges } from './draw/passes.ts'
import { drawRings, drawWash } from './draw/reach.ts'
import { drawLoad, drawRegions } from './draw/regions.ts'
import { drawShortField, drawShortSymbols } from './draw/short.ts'
import { drawScaleBar, drawSideName, scaleBarBox } from './draw/scaleBar.ts'
import { drawTwoReadings, twoReadingsBoxes } from './draw/twoReadings.ts'
import { bodyAlphaOver, photosOn } from './draw/underlay.ts'
import { type HandState, marksNow } from './handStore.ts'
import type { MarkDraft, PhotoView, SheetProps } from './props.ts'
import { shapeOfDraft } from './pure/stroke.ts'
import type { Isotherm } from './pure/isotherms.ts'
import type { ProofKind } from './pure/proofRegions.ts'
import { type Mark, type Ring } from '../../spill/index.ts'
import type { Scene } from './pure/scene.ts'
import type { WashImage } from './wash.ts'

const otherSide = (side: Side): Side => (side === 'top' ? 'bottom' : 'top')

export interface BoardLayerInput {
  readonly scene: Scene
  readonly load: LoadView | undefined
  readonly proof: ReadonlyMap<string, ProofKind> | undefined
  readonly labels: boolean
  readonly names: SheetProps['names']
  readonly photos: readonly PhotoView[]
}

export function drawBoardLayer(plain: Frame, { scene, load, proof, labels, names, photos }: BoardLayerInput): void {
  const under = photosOn(plain, photos)
  const frame: Frame = under.length === 0 ? plain : { ...plain, bodyAlpha: bodyAlphaOver(under) }
  const side = scene.sides[frame.pane.side]
  const parts = visibleParts(frame, side)
  drawGround(frame, scene.model, under)
  drawGhosts(frame, scene.sides[otherSide(frame.pane.side)])
  drawCorridors(frame, side, load)
  drawParts(frame, parts)
  drawRegions(frame, scene, parts)
  drawPads(frame, side.pads)
  for (const part of parts) if (part.kind === 'core') drawDie(frame, scene, part)
  if (proof !== undefined) drawProof(frame, scene, parts, proof, load)
  else if (load !== undefined) drawLoad(frame, scene, parts, load)
  if (!labels) return
  drawGhostLabels(frame, scene.sides[otherSide(frame.pane.side)])
  drawPartLabels(frame, scene, parts, names)
}

export function drawFieldLayer(
  frame: Frame,
  model: BoardModel,
  wash: WashImage | undefined,
  rings: readonly Ring[],
  isotherms: readonly Isotherm[],
  short: SheetProps['short'],
): void {
  if (short !== undefined) drawShortField(frame, short)
  if (wash !== undefined && wash.side === frame.pane.side) drawWash(frame, wash.image, wash.grid, model.outline)
  if (rings.length === 0 && isotherms.length === 0) return
  const { ctx } = frame
  ctx.save()
  ctx.beginPath()
  tracePolygon(frame, model.outline)
  ctx.clip()
  drawIsotherms(frame, isotherms)
  drawRings(frame, rings)
  ctx.restore()
}

export interface HandLayerInput {
  readonly scene: Scene
  readonly props: SheetProps
  readonly rings: readonly Ring[]
  readonly isotherms: readonly Isotherm[]
  readonly hand: HandState
  /** What of the pane is covered by other things on the sheet. */
  readonly covered: readonly Box[]
}

export function drawHandLayer(frame: Frame, input: HandLayerInput): void {
  const { scene, props, hand, rings } = input
  const { selection, overlays, suspects, model } = props
  const bothShown = props.camera.getState().side === 'both'
  const hovered = hand.hovered ?? props.hovered
  if (hovered !== undefined) drawLit(frame, scene, hovered, 'hovered')
  if (selection !== undefined) drawLit(frame, scene, selection, 'selected')
  if (props.twoReadings !== undefined) drawTwoReadings(frame, scene, props.twoReadings, props.names)
  if (props.aimed !== undefined && props.aimed.length > 0) drawAimed(frame, scene, props.aimed)
  const view = viewOf(frame)
  const bar = scaleBarBox(frame, scene, input.covered, props.names)
  const covered = [...input.covered, bar]
  const lift = overlays.liftOrder && suspects !== undefined ? suspects.lift : []
  const marks = marksNow(props.marks, hand.edited)
  const free = overlays.labels && (lift.length > 0 || marks.length > 0 || rings.length > 0)
  const obstacles = free
    ? [...covered, ...partObstacles(view, visibleParts(frame, scene.sides[view.side]), measureOn(frame))]
    : covered
  const passes = overlays.passes === true ? (props.passes ?? []) : []
  const heat = overlays.heat === true ? props.heat : undefined
  drawPassFootprints(frame, heat === undefined ? passes : [])
  const letters = props.twoReadings === undefined ? [] : twoReadingsBoxes(frame, scene, props.twoReadings)
  const keepOff = [...covered, ...symbolBoxes(frame, marks), ...letters]
  const numbered = passes.length > 0 ? passBadges(frame, model, passes, keepOff) : badgesOf(view, model, lift, keepOff)
  const badges = numbered.filter((badge) => !bothShown || badge.part.side === frame.pane.side)
  if (heat === undefined) drawPassExposure(frame, model, passes)
  else
    drawHeatDetails(frame, model, heat, input.isotherms, [...covered, ...badges.map((badge) => badgeBox(view, badge))])
  if (badges.length > 0) drawBadges(frame, model, badges)
  if (props.padRepairs !== undefined) drawPadRepairs(frame, scene, props.padRepairs)
  drawMarks(frame, marks, selection?.kind === 'mark' ? selection.id : undefined)
  if (hand.drawn !== undefined && hand.drawn.side === frame.pane.side) drawDraft(frame, hand.drawn)
  if (hand.brush !== undefined && hand.brush.side === frame.pane.side)
    drawBrush(frame, { at: hand.brush.at, radiusMm: props.painting?.brushMm ?? hand.brush.radiusMm })
  // A hunt for a short keeps the sheet to itself: names of marks would cover its readings.
  if (props.short !== undefined) drawShortSymbols(frame, props.short)
  else if (overlays.labels)
    drawFreeLabels(frame, {
      marks,
      rings,
      obstacles: [...obstacles, ...badges.map((badge) => badgeBox(view, badge))],
      substanceName: props.substanceName ?? ((id) => id),
    })
  if (hand.measured !== undefined && hand.measured.side === frame.pane.side)
    drawMeasured(frame, hand.measured.from, hand.measured.to)
  const focused = hand.keyboardPart === undefined ? undefined : model.partByRef.get(hand.keyboardPart)
  if (focused !== undefined && focused.side === frame.pane.side) drawKeyboardFocus(frame, focused)
  drawScaleBar(frame, bar)
  if (bothShown) drawSideName(frame)
}

/** What the marks' symbols cover; a dam is a thin line and hides nothing. */
function symbolBoxes(frame: Frame, marks: readonly Mark[]): Box[] {
  return marks
    .filter((mark) => mark.side === frame.pane.side && mark.kind !== 'dam')
    .map((mark) => symbolBox(viewOf(frame), mark))
}

function drawDraft(frame: Frame, draft: MarkDraft): void {
  const { ctx } = frame
  ctx.save()
  ctx.globalAlpha = 0.85
  const mark = draftAsMark(draft)
  if (mark !== undefined) drawMarks(frame, [mark], undefined)
  ctx.restore()
}

function draftAsMark(draft: MarkDraft): Mark | undefined {
  const id = 'drawn'
  switch (draft.kind) {
    case 'dam':
      return { ...draft, id, path: [...draft.path] }
    case 'note':
      return { ...draft, kind: 'note', id, text: '…' }
    case 'spill':
      return {
        ...draft,
        kind: 'spill',
        id,
        sdMm: 0,
        substance: '',
        amount: { volumeMl: 1 },
        amountSdLog: 0,
        pressed: 'unknown',
        pushMm: 0,
        reachesOtherSide: false,
      }
    case 'slip':
      return { kind: 'slip', id, side: draft.side, at: draft.at, radiusMm: draft.radiusMm }
    default:
      return { kind: draft.kind, id, side: draft.side, ...shapeOfDraft(draft) }
  }
}
