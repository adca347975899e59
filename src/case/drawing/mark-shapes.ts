/** Marks in the order of their weight: areas below, dams and notes, the spill on top; each as shapes. */
import { type Box, boxOf, type Point } from '../../base/index.ts'
import { type AreaMark, boxOfArea, type Mark, type NoteMark, type SpillMark } from '../../spill/index.ts'
import { areaShapes, discRadius, slipShapes } from './area-shapes.ts'
import { boxAround, boxOn, circle, closedSteps, type DrawnView, openSteps, type Shape } from './shape.ts'

const WEIGHT: Readonly<Record<Mark['kind'], number>> = {
  film: 0,
  residue: 0,
  corrosion: 0,
  clean: 1,
  dam: 2,
  slip: 2,
  note: 3,
  spill: 4,
}

/** Those of one side as they are drawn, the lowest first: what is drawn last lies on top and is gripped first. */
export const marksInOrder = (marks: readonly Mark[], side: Mark['side']): Mark[] =>
  marks.filter((mark) => mark.side === side).toSorted((p, q) => WEIGHT[p.kind] - WEIGHT[q.kind])

/** Shapes of one mark in the drawing's unit, lowest first. Does not ask on which side the mark lies. */
export function markShapes(view: DrawnView, mark: Mark): Shape[] {
  switch (mark.kind) {
    case 'spill':
      return spillShapes(view, mark)
    case 'dam':
      return damShapes(view, mark.path)
    case 'slip':
      return slipShapes(view, mark)
    case 'note':
      return noteShapes(view, mark)
    case 'residue':
    case 'film':
    case 'corrosion':
    case 'clean':
      return areaShapes(view, mark)
    default:
      return mark satisfies never
  }
}

export const SPILL_DOT_PX = 10
/** Length of a spill's arrow: it shows a direction, not a distance. */
export const ARROW_PX = 46
const BARB_PX = 9
const BARB_TURN = 0.55

/** A dot to grip, a thin ring for how sure its place is, an arrow for what was down. */
function spillShapes(view: DrawnView, mark: SpillMark): Shape[] {
  const { unit } = view
  const at = view.at(mark.at)
  const sd = mark.sdMm * view.scale
  const ring: Shape = {
    steps: [circle(at, sd)],
    stroke: { colour: 'reachText', width: 1.6 * unit, dash: [1.5 * unit, 4.5 * unit], round: true },
  }
  const dot = [circle(at, SPILL_DOT_PX * unit)]
  return [
    ...(sd > (SPILL_DOT_PX + 3) * unit ? [ring] : []),
    ...(mark.downDeg === undefined ? [] : arrowShapes(view, mark.at, mark.downDeg)),
    { steps: dot, fill: { colour: 'reach' }, stroke: { colour: 'sheet', width: 2.6 * unit } },
    { steps: [circle(at, (SPILL_DOT_PX + 1.8) * unit)], stroke: { colour: 'reach', width: 1.2 * unit } },
  ]
}

/** Where an arrow ends that begins at a point of the board, in mm of the board; `downDeg` counter-clockwise from x. */
export function arrowTip(at: Point, downDeg: number, lengthMm: number): Point {
  const radians = (downDeg * Math.PI) / 180
  return { x: at.x + lengthMm * Math.cos(radians), y: at.y + lengthMm * Math.sin(radians) }
}

function arrowShapes(view: DrawnView, at: Point, downDeg: number): Shape[] {
  const { unit, scale } = view
  const from = view.at(at)
  const tip = view.at(arrowTip(at, downDeg, (ARROW_PX * unit) / scale))
  const angle = Math.atan2(tip.y - from.y, tip.x - from.x)
  const barb = (turn: number): Point => ({
    x: tip.x - BARB_PX * unit * Math.cos(angle + turn),
    y: tip.y - BARB_PX * unit * Math.sin(angle + turn),
  })
  const steps = [...openSteps([from, tip]), ...openSteps([barb(BARB_TURN), tip, barb(-BARB_TURN)])]
  return [
    { steps, stroke: { colour: 'sheet', width: 5.5 * unit, round: true } },
    { steps, stroke: { colour: 'reach', width: 2.6 * unit, round: true } },
  ]
}

/** A wall: a thick line in ink with a light core and rungs, so that it can't be taken for a trace. */
function damShapes({ at, unit }: DrawnView, path: readonly Point[]): Shape[] {
  const steps = openSteps(path.map(at))
  return [
    { steps, stroke: { colour: 'ink', width: 7 * unit, round: true } },
    { steps, stroke: { colour: 'sheet', width: 3.6 * unit, round: true } },
    { steps, stroke: { colour: 'ink', width: 3.6 * unit, dash: [1.4 * unit, 6.6 * unit] } },
  ]
}

const NOTE_PX = 9
const FOLD_PX = 6

/** A slip of paper with a folded corner. */
function noteShapes(view: DrawnView, mark: NoteMark): Shape[] {
  const { unit } = view
  const at = view.at(mark.at)
  const on = (x: number, y: number): Point => ({ x: at.x + x * unit, y: at.y + y * unit })
  const [half, fold] = [NOTE_PX, NOTE_PX - FOLD_PX]
  const edge = closedSteps([on(-half, -half), on(fold, -half), on(half, -fold), on(half, half), on(-half, half)])
  const lines = [
    ...openSteps([on(fold, -half), on(fold, -fold), on(half, -fold)]),
    ...openSteps([on(-5, 0), on(5, 0)]),
    ...openSteps([on(-5, 4), on(2, 4)]),
  ]
  const stroke = { colour: 'ink', width: 1.5 * unit, round: true } as const
  return [
    { steps: edge, fill: { colour: 'caution' }, stroke },
    { steps: lines, stroke },
  ]
}

/** What a mark's symbol covers, in units of the drawing: what its label stands clear of. */
export function symbolBox(view: DrawnView, mark: Mark): Box {
  if (mark.kind === 'dam') return boxOf(mark.path.map(view.at))
  if (isPainted(mark)) return boxOn(view, boxOfArea(mark))
  return boxAround(view.at(mark.at), symbolRadius(view, mark))
}

/** Whether it has a shape of its own, and not that of a circle. */
export const isPainted = (mark: Mark): mark is AreaMark =>
  ('outline' in mark && mark.outline !== undefined) ||
  (mark.kind !== 'dam' && 'path' in mark && mark.path !== undefined)

function symbolRadius(view: DrawnView, mark: Exclude<Mark, { kind: 'dam' }>): number {
  if (mark.kind === 'spill') return (SPILL_DOT_PX + 3) * view.unit
  if (mark.kind === 'note' || mark.kind === 'clean') return 11 * view.unit
  return discRadius(view, mark)
}
