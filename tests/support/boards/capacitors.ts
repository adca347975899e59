/** Capacitors of an invented card: hundreds of small ones about core and memory, bulk ones beside the inductors. */
import type { Canvas, FilePart } from '../../../src/board/index.ts'
import type { CardPlan } from './plan.ts'
import type { PlacedPower } from './power.ts'

const SMALL = { widthMm: 1, lengthMm: 0.5, heightMm: 0.5 }
const MIDDLE = { widthMm: 1.6, lengthMm: 0.8, heightMm: 0.8 }
const BULK = { widthMm: 4.3, lengthMm: 7.3, heightMm: 2.8 }

export interface PlacedCapacitors {
  readonly core: readonly string[]
  readonly memory: readonly string[]
  readonly input: readonly string[]
}

export function putCapacitors(canvas: Canvas, plan: CardPlan, power: PlacedPower): PlacedCapacitors {
  return {
    core: [...underCore(canvas, plan), ...besideCore(canvas, plan), ...bulk(canvas, power, -1)],
    memory: aroundMemory(canvas),
    input: bulk(canvas, power, 1),
  }
}

type Site = Omit<FilePart, 'ref'>

function capacitor(side: 'top' | 'bottom', x: number, y: number, body: typeof SMALL, rotationDeg = 0): Site {
  const at = { x: Math.round(x * 100) / 100, y: Math.round(y * 100) / 100 }
  const turned = rotationDeg === 0 ? {} : { rotationDeg }
  return { kind: 'capacitor', side, at, ...turned, body, heatCount: side === 'top' ? 1 : 2 }
}

const putAll = (canvas: Canvas, sites: readonly Site[]): string[] =>
  sites.flatMap((site) => canvas.putIfFree(site, 'C') ?? [])

/** A field on the bottom, under the middle of the core. */
function underCore(canvas: Canvas, { core }: CardPlan): string[] {
  const reach = core.sizeMm * 0.3
  const sites: Site[] = []
  for (let y = -reach; y <= reach; y += 1.6)
    for (let x = -reach; x <= reach; x += 2) sites.push(capacitor('bottom', core.at.x + x, core.at.y + y, SMALL))
  return putAll(canvas, sites)
}

/** Two rows on the top along the sides of the core. */
function besideCore(canvas: Canvas, { core }: CardPlan): string[] {
  const sites: Site[] = []
  for (const row of [1.6, 3.2]) {
    const away = core.sizeMm / 2 + row
    for (let along = -core.sizeMm / 2 + 1; along <= core.sizeMm / 2 - 1; along += 2.6) {
      sites.push(capacitor('top', core.at.x + along, core.at.y + away, MIDDLE, 90))
      sites.push(capacitor('top', core.at.x + along, core.at.y - away, MIDDLE, 90))
      sites.push(capacitor('top', core.at.x + away, core.at.y + along, MIDDLE))
      sites.push(capacitor('top', core.at.x - away, core.at.y + along, MIDDLE))
    }
  }
  return putAll(canvas, sites)
}

/** Along the short edges of each package on its own side, and beneath it on the other. */
function aroundMemory(canvas: Canvas): string[] {
  const memories = canvas.parts.filter((part) => part.kind === 'memory')
  const sites = memories.flatMap(({ side, at, rotationDeg }) => {
    const turned = (rotationDeg ?? 0) % 180 !== 0
    const opposite = side === 'top' ? 'bottom' : 'top'
    const near = [-4.5, -2.7, -0.9, 0.9, 2.7, 4.5].flatMap((along) =>
      [-8, 8].map((away) => siteAt(side, at, along, away, turned)),
    )
    const under = [-3.6, -1.2, 1.2, 3.6].flatMap((along) =>
      [-4.5, -1.5, 1.5, 4.5].map((away) => siteAt(opposite, at, along, away, turned)),
    )
    return [...near, ...under]
  })
  return putAll(canvas, sites)
}

function siteAt(
  side: 'top' | 'bottom',
  at: { x: number; y: number },
  along: number,
  away: number,
  turned: boolean,
): Site {
  return turned
    ? capacitor(side, at.x + away, at.y + along, SMALL, 90)
    : capacitor(side, at.x + along, at.y + away, SMALL)
}

/** One beside each inductor (1: beyond it, -1: on the bottom beneath it). */
function bulk(canvas: Canvas, { inductors }: PlacedPower, where: 1 | -1): string[] {
  const sites = inductors.map(({ at }) =>
    where === 1 ? capacitor('top', at.x + (at.x > 100 ? 8 : -8), at.y, BULK) : capacitor('bottom', at.x, at.y, BULK),
  )
  return putAll(canvas, sites)
}
