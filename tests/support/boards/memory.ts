/** Core and memory of an invented card: packages in a ring around the core, their channels and lanes. */
import type { ChannelDescription } from '../../../src/board/index.ts'
import type { Canvas } from './canvas.ts'
import type { CardPlan, Edge } from './plan.ts'

const CORE_REF = 'U1'
const FIRST_MEMORY = 11
const BACK_OFFSET = 20

export interface PlacedMemory {
  readonly refs: readonly string[]
  readonly channels: ChannelDescription[]
}

/** Row A of every package points away from the core, so that the same lanes are near the core on every side. */
const ROTATION: Record<Edge, number> = { top: 0, right: 270, bottom: 180, left: 90 }

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
  const places = memoryPlaces(plan)
  const channels: ChannelDescription[] = []
  const refs: string[] = []
  for (const [i, place] of places.entries()) {
    const front = `U${FIRST_MEMORY + i}`
    putMemory(canvas, plan, front, 'top', place)
    refs.push(front)
    const back = memory.clamshell ? `U${FIRST_MEMORY + BACK_OFFSET + i}` : undefined
    if (back !== undefined) {
      putMemory(canvas, plan, back, 'bottom', turnedOver(place))
      refs.push(back)
    }
    for (const lanes of memory.channels)
      channels.push(
        back === undefined
          ? plainChannel(channels.length, front, lanes)
          : sharedChannel(channels.length, front, back, lanes),
      )
  }
  return { refs, channels }
}

interface Place {
  readonly at: { readonly x: number; readonly y: number }
  readonly rotationDeg: number
}

/** Clockwise from the upper left: top side left to right, right side downwards, bottom right to left, left upwards. */
function memoryPlaces({ core, memory }: CardPlan): Place[] {
  const away = core.sizeMm / 2 + memory.gapMm + memory.lengthMm / 2
  const { x, y } = core.at
  const along: Record<Edge, (offset: number) => { x: number; y: number }> = {
    top: (offset) => ({ x: x + offset, y: y + away }),
    right: (offset) => ({ x: x + away, y: y - offset }),
    bottom: (offset) => ({ x: x - offset, y: y - away }),
    left: (offset) => ({ x: x - away, y: y + offset }),
  }
  const edges: readonly Edge[] = ['top', 'right', 'bottom', 'left']
  return edges.flatMap((edge) =>
    (memory.offsetsMm[edge] ?? []).map((offset) => ({ at: along[edge](offset), rotationDeg: ROTATION[edge] })),
  )
}

/** Mirrored about the front's x axis, so that the byte of the back that is used lies behind the front's unused one. */
const turnedOver = ({ at, rotationDeg }: Place): Place => ({ at, rotationDeg: (rotationDeg + 180) % 360 })

function putMemory(canvas: Canvas, plan: CardPlan, ref: string, side: 'top' | 'bottom', place: Place): void {
  const { memory } = plan
  canvas.put(
    {
      ref,
      kind: 'memory',
      side,
      ...place,
      package: memory.package,
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

const channelId = (index: number): string => `CH${index}`

function plainChannel(index: number, part: string, lanes: readonly string[]): ChannelDescription {
  return { id: channelId(index), part, lanes: lanes.map((name) => ({ name })) }
}

/**
 * Two packages back to back in x8 mode: byte 0 of channel A and byte 1 of channel B of each are used. The first channel
 * has its byte 0 from the front's A and its byte 1 from the back's B, the second the other way round, so that the pair
 * looks like one x16 package (a memory maker's GDDR6 brief, clamshell figure).
 */
function sharedChannel(index: number, front: string, back: string, lanes: readonly string[]): ChannelDescription {
  const [byte0, byte1] = lanes.includes('A0') ? [front, back] : [back, front]
  return {
    id: channelId(index),
    part: front,
    lanes: [
      { name: 'A0', part: byte0 },
      { name: 'B1', part: byte1 },
    ],
  }
}
