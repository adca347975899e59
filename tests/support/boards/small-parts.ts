/** The rest of an invented card: firmware, crystal, fuses, fan headers, resistors about the controllers. */
import type { Canvas, FilePart } from '../../../src/board/index.ts'
import type { CardPlan } from './plan.ts'

interface Small {
  readonly letter: string
  readonly kind: FilePart['kind']
  readonly at: { readonly x: number; readonly y: number }
  readonly body: NonNullable<FilePart['body']>
  readonly value?: string
}

export function putSmallParts(canvas: Canvas, plan: CardPlan): void {
  const single = [...aboutTheCard(plan), ...currentSenses(canvas)]
  for (const { letter, value, ...rest } of [...single, ...resistors(canvas)]) {
    const heated = { side: 'top' as const, heatCount: 1, ...rest }
    canvas.putIfFree(value === undefined ? heated : { ...heated, value }, letter)
  }
}

function aboutTheCard({ widthMm, heightMm }: CardPlan): Small[] {
  const fuse = { widthMm: 6.1, lengthMm: 2.6, heightMm: 2.2 }
  const header = { widthMm: 10, lengthMm: 5, heightMm: 6 }
  const flash = { widthMm: 5, lengthMm: 6, heightMm: 1.75 }
  const crystal = { widthMm: 3.2, lengthMm: 2.5, heightMm: 0.8 }
  return [
    { letter: 'U', kind: 'other', at: { x: 76, y: 18 }, body: flash, value: 'firmware' },
    { letter: 'Y', kind: 'other', at: { x: 66, y: 24 }, body: crystal, value: '27 MHz' },
    { letter: 'F', kind: 'other', at: { x: widthMm - 48, y: heightMm - 8 }, body: fuse, value: 'fuse 20 A' },
    { letter: 'F', kind: 'other', at: { x: widthMm - 48, y: heightMm - 14 }, body: fuse, value: 'fuse 20 A' },
    { letter: 'F', kind: 'other', at: { x: 152, y: 14 }, body: fuse, value: 'fuse 10 A' },
    { letter: 'J', kind: 'connector', at: { x: widthMm - 12, y: heightMm - 24 }, body: header, value: 'fan' },
    { letter: 'J', kind: 'connector', at: { x: widthMm - 12, y: 24 }, body: header, value: 'fan' },
  ]
}

/** One shunt beside each fuse of the 12 V input. */
function currentSenses(canvas: Canvas): Small[] {
  const shunt = { widthMm: 6.3, lengthMm: 3.2, heightMm: 0.7 }
  const stages = canvas.parts.filter((part) => part.kind === 'power-stage').slice(0, 3)
  return stages.map(({ at }) => ({
    letter: 'R',
    kind: 'other',
    at: { x: at.x + 29, y: at.y },
    body: shunt,
    value: '1 mΩ',
  }))
}

/** Two rings of small resistors about each controller. */
function resistors(canvas: Canvas): Small[] {
  const body = { widthMm: 1, lengthMm: 0.5, heightMm: 0.35 }
  const controllers = canvas.parts.filter((part) => part.kind === 'controller')
  return controllers.flatMap(({ at }) =>
    [5.5, 7.5].flatMap((radius) =>
      Array.from({ length: 12 }, (_, i): Small => {
        const angle = (i * Math.PI) / 6
        const x = Math.round((at.x + radius * Math.cos(angle)) * 10) / 10
        const y = Math.round((at.y + radius * Math.sin(angle)) * 10) / 10
        return { letter: 'R', kind: 'other', at: { x, y }, body }
      }),
    ),
  )
}
