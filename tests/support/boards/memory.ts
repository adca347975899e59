/** Core and memory of an invented card: packages in a ring around the core, with what is said of their state and price. */
import {
  type Canvas,
  type ChannelDescription,
  memoryPart,
  ringChannels,
  ringPlaces,
  turnedRound,
} from '../../../src/board/index.ts'
import type { CardPlan } from './plan.ts'

const CORE_REF = 'U1'
const FIRST_MEMORY = 11
const BACK_OFFSET = 20

export interface PlacedMemory {
  readonly refs: readonly string[]
  readonly channels: ChannelDescription[]
}

export function putCoreAndMemory(canvas: Canvas, plan: CardPlan): PlacedMemory {
  const { core, memory } = plan
  canvas.put(
    {
      ref: CORE_REF,
      kind: 'core',
      side: 'top',
      at: core.at,
      package: core.package,
      jointAlloy: 'SAC305',
      moistureLevel: '4',
      maxBodyC: 245,
      bonding: 'none',
      heatCount: 1,
      price: plan.corePrice,
    },
    core.sizeMm,
    core.sizeMm,
  )
  const pairs = ringPlaces({ core, ...memory }).map((place, i) => {
    const front = `U${FIRST_MEMORY + i}`
    putMemory(canvas, plan, front, 'top', place)
    if (!memory.clamshell) return { front }
    const back = `U${FIRST_MEMORY + BACK_OFFSET + i}`
    // so that the byte of the back that is used lies behind the front's unused one
    putMemory(canvas, plan, back, 'bottom', turnedRound(place))
    return { front, back }
  })
  return {
    refs: pairs.flatMap(({ front, back }) => (back === undefined ? [front] : [front, back])),
    channels: ringChannels(memory.package, pairs),
  }
}

function putMemory(
  canvas: Canvas,
  { memory }: CardPlan,
  ref: string,
  side: 'top' | 'bottom',
  place: Parameters<typeof turnedRound>[0],
): void {
  canvas.put(
    {
      ...memoryPart(ref, side, place, memory.package),
      jointAlloy: 'SAC305',
      moistureLevel: '3',
      maxBodyC: 260,
      bonding: 'none',
      heatCount: side === 'top' ? 1 : 2,
      price: memory.priceEach,
    },
    memory.widthMm,
    memory.lengthMm,
  )
}
