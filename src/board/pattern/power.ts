/** Power of a card from a pattern: stages with inductors and bulk capacitors, controllers, slot, plug and display connectors. */
import type { Point } from '../../base/index.ts'
import type { Canvas, FilePart } from './canvas.ts'
import {
  BULK_BODY,
  connectorPart,
  controllerPart,
  INDUCTOR_BODY,
  inductorPart,
  SMALL_INDUCTOR_BODY,
  SMALL_STAGE_BODY,
  STAGE_BODY,
  stagePart,
} from './card-parts.ts'
import type { CardLayout } from './layout.ts'
import type { PatternSupply } from './pattern.ts'
import { BULK_AWAY_MM, INDUCTOR_AWAY_MM } from './stage-columns.ts'

/** What stands for one supply. */
export interface PlacedSupply {
  readonly supply: PatternSupply
  readonly stages: readonly string[]
  readonly inductors: readonly string[]
  /** Capacitors on its output. */
  readonly capacitors: readonly string[]
}

export interface PlacedPower {
  readonly supplies: readonly PlacedSupply[]
  /** Capacitors on the 12 V input. */
  readonly inputCapacitors: readonly string[]
  readonly controllers: readonly string[]
  /** Undefined where the board has none. */
  readonly slot: string | undefined
  readonly plug: string | undefined
  readonly displays: readonly string[]
}

interface Site {
  readonly at: Point
  readonly away: 1 | -1
}

/** Connectors first, so that their numbers begin at the slot; then supplies in their order from the first column on. */
export function putPatternPower(canvas: Canvas, layout: CardLayout, supplies: readonly PatternSupply[]): PlacedPower {
  const sites = layout.columns.flatMap(({ x, away, ys }) => ys.map((y): Site => ({ at: { x, y }, away })))
  const inputCapacitors: string[] = []
  const slot = putConnector(canvas, { x: 101, y: 4 }, { widthMm: 84, lengthMm: 7, heightMm: 0.1 })
  const plug = putConnector(
    canvas,
    { x: layout.widthMm - 7.5, y: layout.heightMm - 20 },
    { widthMm: 12, lengthMm: 20, heightMm: 11 },
  )
  const displays = displayPlaces(layout.heightMm).map((at) =>
    putConnector(canvas, at, { widthMm: 18, lengthMm: 16, heightMm: 7.5 }),
  )
  const controllers = [
    putController(canvas, { x: layout.widthMm - 8, y: 27 }, 6),
    putController(canvas, { x: 26, y: Math.round(layout.heightMm / 2) }, 5),
  ]
  let next = 0
  const placed = supplies.map((supply): PlacedSupply => {
    const own = sites.slice(next, next + supply.stages)
    next += supply.stages
    const stood = own.map((site) => putStage(canvas, site, supply.stages > 1))
    inputCapacitors.push(...stood.flatMap(({ input }) => input ?? []))
    return {
      supply,
      stages: stood.map(({ stage }) => stage),
      inductors: stood.map(({ inductor }) => inductor),
      capacitors: stood.flatMap(({ output }) => output ?? []),
    }
  })
  return { supplies: placed, inputCapacitors, controllers, slot, plug, displays }
}

interface StoodStage {
  readonly stage: string
  readonly inductor: string
  readonly input: string | undefined
  readonly output: string | undefined
}

/** A stage, its inductor beside it, a capacitor beyond that for the input and one beneath it for the output. */
function putStage(canvas: Canvas, { at, away }: Site, large: boolean): StoodStage {
  const stageBody = large ? STAGE_BODY : SMALL_STAGE_BODY
  const coilBody = large ? INDUCTOR_BODY : SMALL_INDUCTOR_BODY
  const coilAt = { x: at.x + away * INDUCTOR_AWAY_MM, y: at.y }
  const stage = canvas.put(stagePart(canvas.nextRef('S'), at, stageBody), stageBody.widthMm, stageBody.lengthMm)
  const inductor = canvas.put(inductorPart(canvas.nextRef('L'), coilAt, coilBody), coilBody.widthMm, coilBody.lengthMm)
  return {
    stage,
    inductor,
    input: canvas.putIfFree(bulk('top', { x: coilAt.x + away * BULK_AWAY_MM, y: at.y }), 'C'),
    output: canvas.putIfFree(bulk('bottom', coilAt), 'C'),
  }
}

const bulk = (side: FilePart['side'], at: Point): Omit<FilePart, 'ref'> => ({
  kind: 'capacitor',
  side,
  at: { x: Math.round(at.x * 100) / 100, y: at.y },
  body: BULK_BODY,
})

/** Up to four above one another at the bracket. */
function displayPlaces(heightMm: number): Point[] {
  const room = heightMm - 20
  const count = Math.max(1, Math.min(4, Math.floor(room / 19)))
  const step = room / count
  return Array.from({ length: count }, (_, i) => ({ x: 9.5, y: Math.round(14 + (i + 0.5) * step) }))
}

function putConnector(canvas: Canvas, at: Point, body: NonNullable<FilePart['body']>): string {
  return canvas.put(connectorPart(canvas.nextRef('J'), at, body), body.widthMm, body.lengthMm)
}

const putController = (canvas: Canvas, at: Point, sizeMm: number): string =>
  canvas.put(controllerPart(canvas.nextRef('U', 2), at, sizeMm), sizeMm, sizeMm)
