/** Where to put a probe for a line: the points of a rail, or a stage with its switch-side inductor. */
import { decimals, distance, type Point, say } from '../base/index.ts'
import type { BoardModel, PlacedPart, Rail, Side } from '../board/index.ts'
import { rule } from './practice.ts'
import type { StagePoint } from './schema.ts'

export interface LinePoint {
  /** As the sheet numbers it, from 1. */
  readonly number: number
  readonly side: Side
  readonly at: Point
  /** `L1`, `J5 pad 3`, `x 12.0, y 4.5 mm`. */
  readonly words: string
}

/** The probe points of a rail, numbered from 1 in the board file's order; places in mm on the board. */
export const railPoints = (rail: Rail): LinePoint[] =>
  rail.points.map(({ side, at, part, pad }, i) => ({ number: i + 1, side, at, words: pointWords(at, part, pad) }))

function pointWords(at: Point, part: string | undefined, pad: string | undefined): string {
  if (part === undefined) return `x ${decimals(at.x, 1)}, y ${decimals(at.y, 1)} mm`
  return pad === undefined ? part : say('{part} pad {pad}', { part, pad })
}

export interface StageInductor {
  readonly ref: string
  /** By a net that stage and inductor share, or only because it is the nearest one. */
  readonly by: 'net' | 'place'
}

/** The inductor that a stage switches: by their nets where the board has them, else the nearest on its side. */
export function inductorOf(model: BoardModel, stage: PlacedPart): StageInductor | undefined {
  const inductors = model.parts.filter(({ kind }) => kind === 'inductor')
  const wired = inductors.filter((part) => part.pads.some(({ net }) => net !== undefined && switchNets(stage).has(net)))
  const joined = nearest(
    wired.filter((part) => sharesFewPads(model, stage, part)),
    stage,
  )
  if (joined !== undefined) return { ref: joined.ref, by: 'net' }
  const beside = nearest(
    inductors.filter((part) => part.side === stage.side && gap(part, stage) <= rule('inductorWithinMm')),
    stage,
  )
  return beside === undefined ? undefined : { ref: beside.ref, by: 'place' }
}

const switchNets = (stage: PlacedPart): Set<string> => new Set(stage.pads.flatMap(({ net }) => net ?? []))

function sharesFewPads(model: BoardModel, stage: PlacedPart, inductor: PlacedPart): boolean {
  const own = switchNets(stage)
  return inductor.pads.some(
    ({ net }) =>
      net !== undefined &&
      own.has(net) &&
      model.parts.filter((part) => part.pads.some((pad) => pad.net === net)).length <= rule('switchNodeParts'),
  )
}

const gap = (a: PlacedPart, b: PlacedPart): number => distance(a.placement.at, b.placement.at)

const nearest = (parts: readonly PlacedPart[], to: PlacedPart): PlacedPart | undefined =>
  parts.toSorted((a, b) => gap(a, to) - gap(b, to))[0]

const kept = new WeakMap<BoardModel, Map<string, readonly LinePoint[]>>()

/**
 * The inductor's switch side first where it is known, then the stage itself. Remembered by board, because boards may have
 * very many pads.
 */
export function stagePoints(model: BoardModel, stage: PlacedPart): readonly LinePoint[] {
  const ofModel = kept.get(model) ?? new Map<string, readonly LinePoint[]>()
  kept.set(model, ofModel)
  const points = ofModel.get(stage.ref) ?? findStagePoints(model, stage)
  ofModel.set(stage.ref, points)
  return points
}

function findStagePoints(model: BoardModel, stage: PlacedPart): LinePoint[] {
  const inductor = inductorOf(model, stage)
  const own = { side: stage.side, at: stage.placement.at }
  const part = inductor === undefined ? undefined : model.partByRef.get(inductor.ref)
  if (inductor === undefined || part === undefined) return [{ number: 1, ...own, words: stage.ref }]
  const words =
    inductor.by === 'net' ? say('{ref}, switch side', { ref: part.ref }) : say('{ref} beside it', { ref: part.ref })
  const shared = part.pads.find(({ net }) => net !== undefined && switchNets(stage).has(net))
  return [
    { number: 1, side: part.side, at: inductor.by === 'net' && shared ? shared.at : part.placement.at, words },
    { number: 2, ...own, words: stage.ref },
  ]
}

/** Pin functions as drawings name them. */
const PINS: Readonly<Record<StagePoint, RegExp>> = {
  input: /^(P?VIN|IN|VI)[_-]?[A-Z0-9]{0,2}$/i,
  switch: /^(SW|LX|PH|PHASE|VSWH)[_-]?[A-Z0-9]{0,2}$/i,
  driver: /^(VDRV|VCCD|P?VCC|VDD|V?5V)[_-]?[A-Z0-9]{0,2}$/i,
  enable: /^(EN|ENABLE|DISB)[_#-]?[A-Z0-9]{0,2}$/i,
  pwm: /^PWM[_-]?[A-Z0-9]{0,2}$/i,
}

/** Where the probes go for a point of a stage: its pad where the board names pins, else the stage itself. */
export function pointPlaces(model: BoardModel, stage: PlacedPart, point: StagePoint): readonly LinePoint[] {
  const atInductor = stagePoints(model, stage)[0]
  const pad = stage.pads.find(({ signal }) => signal !== undefined && PINS[point].test(signal))
  const own: LinePoint = {
    number: 1,
    side: stage.side,
    at: pad?.at ?? stage.placement.at,
    words: pad === undefined ? stage.ref : say('{ref} pad {number}', { ref: stage.ref, number: pad.number }),
  }
  if (atInductor === undefined || (point !== 'input' && point !== 'switch')) return [own]
  const atSwitch = pad === undefined || point === 'input' ? atInductor : own
  return point === 'switch' ? [{ ...atSwitch, number: 1 }] : [own, { ...atSwitch, number: 2 }]
}
