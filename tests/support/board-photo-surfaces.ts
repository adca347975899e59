/** What parts look like from above in an invented photo: bodies, markings, dies, windings. */
import type { PlacedPart } from '../../src/board/index.ts'

/** Red, green, blue, 0 to 255. */
export type Colour = readonly number[]

export interface Surface {
  /** Colour at a place of the part’s own drawing, in mm from its middle. */
  readonly top: (x: number, y: number) => Colour
  readonly wall: Colour
}

const grey = (value: number): Colour => [value, value, value]

export function surfaceOf(part: PlacedPart): Surface {
  switch (part.kind) {
    case 'core':
      return coreSurface(part)
    case 'memory':
      return markedSurface(part, { body: [52, 53, 56], ink: grey(120), rows: 5, wall: grey(40) })
    case 'power-stage':
      return markedSurface(part, { body: grey(48), ink: grey(112), rows: 3, wall: grey(38) })
    case 'inductor':
      return markedSurface(part, { body: grey(98), ink: grey(200), rows: 1, wall: grey(66) })
    case 'controller':
      return markedSurface(part, { body: grey(44), ink: grey(105), rows: 2, wall: grey(36) })
    case 'capacitor':
      return part.widthMm > 3 ? polymer(part) : chip()
    case 'connector':
      return { top: () => [214, 206, 184], wall: grey(120) }
    default:
      return chip()
  }
}

/** A chip with bright ends. */
const chip = (): Surface => ({ top: () => [150, 126, 100], wall: grey(90) })

const polymer = ({ lengthMm }: PlacedPart): Surface => ({
  top: (_, y) => (y > lengthMm * 0.32 ? [150, 152, 158] : [72, 66, 60]),
  wall: grey(60),
})

/** A substrate with a bright die in its middle and capacitors about it. */
const coreSurface = ({ widthMm, lengthMm }: PlacedPart): Surface => ({
  top: (x, y) => {
    const die = Math.max(Math.abs(x) / widthMm, Math.abs(y) / lengthMm)
    if (die < 0.29) return [118, 124, 134]
    const spot = hash(Math.floor(x / 1.3), Math.floor(y / 1.3), 77)
    return die < 0.44 && spot % 5 === 0 ? [150, 130, 104] : [58, 84, 70]
  },
  wall: [50, 60, 52],
})

interface Marked {
  readonly body: Colour
  readonly ink: Colour
  readonly rows: number
  readonly wall: Colour
}

/** Rows of writing that run along the width, the last of them another on each part; a dot beside the first pin. */
function markedSurface({ widthMm, lengthMm, kind, ref }: PlacedPart, { body, ink, rows, wall }: Marked): Surface {
  const rowMm = (lengthMm * 0.62) / rows
  const strokeMm = Math.min(0.4, widthMm / 22)
  return {
    wall,
    top: (x, y) => {
      if (Math.hypot(x + widthMm * 0.38, y - lengthMm * 0.4) < Math.min(0.5, widthMm * 0.06)) return ink
      if (Math.abs(x) > widthMm * 0.36 || Math.abs(y) > lengthMm * 0.31) return body
      const row = Math.floor((y + lengthMm * 0.31) / rowMm)
      const within = (y + lengthMm * 0.31) / rowMm - row
      if (within < 0.25 || within > 0.8) return body
      const own = row === 0 && rows > 1 ? textHash(ref) : textHash(kind)
      const tall = Math.floor(within * 5)
      return hash(Math.floor(x / strokeMm), row * 7 + tall, own) % 5 < 2 ? ink : body
    },
  }
}

function hash(x: number, y: number, seed: number): number {
  let h = (Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ Math.imul(seed, 0x9e3779b9)) >>> 0
  h = Math.imul(h ^ (h >>> 15), 0x85ebca6b) >>> 0
  return (h ^ (h >>> 13)) >>> 0
}

const textHash = (text: string): number =>
  Array.from({ length: text.length }, (_, i) => text.charCodeAt(i)).reduce((sum, code) => (sum * 31 + code) >>> 0, 7)
