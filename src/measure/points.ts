/** Where to put a probe for a line: the points of a rail, or a stage with its switch-side inductor. */
import { decimals, distance, type Point, say } from '../base/index.ts'
import type { BoardModel, PlacedPad, PlacedPart, Rail, Side } from '../board/index.ts'
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

interface StageInductor {
  readonly part: PlacedPart
  /** Where both are joined by a net; without one the inductor is only the nearest. */
  readonly switchPad: PlacedPad | undefined
}

/** The inductor that a stage switches: by their nets where the board has them, else the nearest on its side. */
export function inductorOf(model: BoardModel, stage: PlacedPart): StageInductor | undefined {
  const nearestFirst = model.parts
    .filter(({ kind }) => kind === 'inductor')
    .toSorted((a, b) => gap(a, stage) - gap(b, stage))
  for (const part of nearestFirst) {
    const switchPad = switchPadOf(model, stage, part)
    if (switchPad !== undefined) return { part, switchPad }
  }
  const part = nearestFirst.find((each) => each.side === stage.side && gap(each, stage) <= rule('inductorWithinMm'))
  return part === undefined ? undefined : { part, switchPad: undefined }
}

/** On a net of the stage that is neither a rail nor ground: few parts hang on it. */
function switchPadOf(model: BoardModel, stage: PlacedPart, inductor: PlacedPart): PlacedPad | undefined {
  const own = new Set(netsOf(stage))
  const shared = netsOf(inductor).filter((net) => own.has(net))
  const [net] = shared.filter(
    (each) => model.parts.filter((part) => netsOf(part).includes(each)).length <= rule('switchNodeParts'),
  )
  return net === undefined ? undefined : inductor.pads.find((pad) => pad.net === net)
}

const netsOf = ({ pads }: PlacedPart): string[] => pads.flatMap(({ net }) => net ?? [])

const gap = (a: PlacedPart, b: PlacedPart): number => distance(a.placement.at, b.placement.at)

type StagePlaces = readonly [LinePoint, ...LinePoint[]]

const kept = new WeakMap<BoardModel, Map<string, StagePlaces>>()

/**
 * The inductor's switch side first where it is known, then the stage itself. Remembered by board, because boards may have
 * very many pads.
 */
export function stagePoints(model: BoardModel, stage: PlacedPart): StagePlaces {
  const ofModel = kept.get(model) ?? new Map<string, StagePlaces>()
  kept.set(model, ofModel)
  const points = ofModel.get(stage.ref) ?? findStagePoints(model, stage)
  ofModel.set(stage.ref, points)
  return points
}

function findStagePoints(model: BoardModel, stage: PlacedPart): StagePlaces {
  const own = { side: stage.side, at: stage.placement.at, words: stage.ref }
  const inductor = inductorOf(model, stage)
  if (inductor === undefined) return [{ number: 1, ...own }]
  const { part, switchPad } = inductor
  const { ref } = part
  const words = switchPad === undefined ? say('{ref} beside it', { ref }) : say('{ref}, switch side', { ref })
  return [
    { number: 1, side: part.side, at: switchPad?.at ?? part.placement.at, words },
    { number: 2, ...own },
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
  const [atInductor] = stagePoints(model, stage)
  const pad = stage.pads.find(({ signal }) => signal !== undefined && PINS[point].test(signal))
  const own: LinePoint = {
    number: 1,
    side: stage.side,
    at: pad?.at ?? stage.placement.at,
    words: pad === undefined ? stage.ref : say('{ref} pad {number}', { ref: stage.ref, number: pad.number }),
  }
  if (point === 'input') return [own, { ...atInductor, number: 2 }]
  return [point === 'switch' && pad === undefined ? atInductor : own]
}
