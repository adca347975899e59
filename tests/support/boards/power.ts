/** Power of an invented card: stages with their inductors, controllers, connectors, capacitors. */
import {
  type Canvas,
  connectorPart,
  controllerPart,
  INDUCTOR_BODY,
  inductorPart,
  SMALL_STAGE_BODY,
  STAGE_BODY,
  stagePart,
} from '../../../src/board/index.ts'
import type { CardPlan } from './plan.ts'

export interface PlacedPower {
  readonly coreStages: readonly string[]
  readonly memoryStages: readonly string[]
  readonly vppStage: string
  readonly ioStage: string
  readonly controllers: readonly string[]
  readonly inductors: readonly { readonly ref: string; readonly stage: string; readonly at: { x: number; y: number } }[]
  readonly powerConnector: string
  readonly edgeConnector: string
  readonly displayConnectors: readonly string[]
}

export function putPower(canvas: Canvas, plan: CardPlan): PlacedPower {
  const inductors: { ref: string; stage: string; at: { x: number; y: number } }[] = []
  const right = columnOf(canvas, plan, plan.stagesRight, edgeOfRing(plan) + 16, 1, inductors)
  const left = columnOf(canvas, plan, plan.stagesLeft, 52, -1, inductors)
  const memoryStages = left.slice(0, 2)
  return {
    coreStages: [...right, ...left.slice(2)],
    memoryStages,
    vppStage: putStage(canvas, { x: 66, y: plan.heightMm - 6 }, SMALL_STAGE_BODY),
    ioStage: putStage(canvas, { x: 76, y: plan.heightMm - 6 }, SMALL_STAGE_BODY),
    controllers: [
      putController(canvas, { x: edgeOfRing(plan) + 40, y: plan.heightMm / 2 + 8 }, 6),
      putController(canvas, { x: 34, y: plan.heightMm / 2 + 4 }, 5),
    ],
    inductors,
    ...putConnectors(canvas, plan),
  }
}

const edgeOfRing = ({ core, memory }: CardPlan): number => core.at.x + core.sizeMm / 2 + memory.gapMm + memory.lengthMm

/** One column of stages from the bottom up, each with its inductor beside it, away from the core. */
function columnOf(
  canvas: Canvas,
  plan: CardPlan,
  count: number,
  x: number,
  away: 1 | -1,
  inductors: { ref: string; stage: string; at: { x: number; y: number } }[],
): string[] {
  const low = 18
  const step = (plan.heightMm - 8 - low) / Math.max(1, count - 0.5)
  return Array.from({ length: count }, (_, i) => {
    const y = Math.round((low + i * step) * 10) / 10
    const stage = putStage(canvas, { x, y }, STAGE_BODY)
    const at = { x: x + away * 9, y }
    const ref = canvas.put(
      { ...inductorPart(canvas.nextRef('L'), at, INDUCTOR_BODY), heatCount: 1, price: 1.2 },
      INDUCTOR_BODY.widthMm,
      INDUCTOR_BODY.lengthMm,
    )
    inductors.push({ ref, stage, at })
    return stage
  })
}

function putStage(canvas: Canvas, at: { x: number; y: number }, body: typeof STAGE_BODY): string {
  return canvas.put(
    {
      ...stagePart(canvas.nextRef('S'), at, body),
      jointAlloy: 'SAC305',
      moistureLevel: '1',
      maxBodyC: 260,
      heatCount: 1,
      price: body === STAGE_BODY ? 3.5 : 1.8,
    },
    body.widthMm,
    body.lengthMm,
  )
}

function putController(canvas: Canvas, at: { x: number; y: number }, sizeMm: number): string {
  return canvas.put(
    {
      ...controllerPart(canvas.nextRef('U', 2), at, sizeMm),
      jointAlloy: 'SAC305',
      moistureLevel: '3',
      maxBodyC: 260,
      heatCount: 1,
      price: 6,
    },
    sizeMm,
    sizeMm,
  )
}

function putConnectors(
  canvas: Canvas,
  plan: CardPlan,
): Pick<PlacedPower, 'powerConnector' | 'edgeConnector' | 'displayConnectors'> {
  const connector = (at: { x: number; y: number }, widthMm: number, lengthMm: number, heightMm: number): string =>
    canvas.put(
      {
        ...connectorPart(canvas.nextRef('J'), at, { widthMm, lengthMm, heightMm }),
        maxBodyC: 250,
        heatCount: 1,
        price: 4,
      },
      widthMm,
      lengthMm,
    )
  const step = (plan.heightMm - 36) / 3
  const displays = [0, 1, 2, 3].map((i) => connector({ x: 7, y: Math.round(24 + i * step - 2) }, 18, 16, 7.5))
  return {
    displayConnectors: displays,
    powerConnector: connector({ x: plan.widthMm - 28, y: plan.heightMm - 7 }, 20, 12, 11),
    edgeConnector: connector({ x: 101, y: 4 }, 84, 7, 0.1),
  }
}
