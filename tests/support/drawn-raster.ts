/** A board drawn by hand, seen straight from above: bodies as turned rectangles of even colour, edges soft by one pixel. */
import type { Point, Random } from '../../src/base/index.ts'
import type { BoardRaster } from '../../src/trace/index.ts'

export interface DrawnBody {
  readonly at: Point
  readonly widthMm: number
  readonly lengthMm: number
  readonly rotationDeg?: number
  /** Grey, or red, green and blue. */
  readonly colour: number | readonly [number, number, number]
}

export interface DrawnBoard {
  readonly widthMm: number
  readonly heightMm: number
  readonly pxPerMm: number
  readonly ground: number | readonly [number, number, number]
  readonly bodies: readonly DrawnBody[]
  /** How much brighter a place is under the lamp, in grey. */
  readonly light?: (at: Point) => number
  readonly noise?: { readonly random: Random; readonly grey: number }
}

/** The raster, its lower left corner at (0, 0); later bodies lie on earlier ones. */
export function drawnRaster({ widthMm, heightMm, pxPerMm, ground, bodies, light, noise }: DrawnBoard): BoardRaster {
  const widthPx = Math.round(widthMm * pxPerMm)
  const heightPx = Math.round(heightMm * pxPerMm)
  const planes = [0, 1, 2].map((channel) => {
    const plane = new Float32Array(widthPx * heightPx).fill(inChannel(ground, channel))
    for (const body of bodies) paint(plane, { widthPx, heightPx, pxPerMm }, body, inChannel(body.colour, channel))
    const seenAt = (i: number): Point => ({
      x: ((i % widthPx) + 0.5) / pxPerMm,
      y: (heightPx - Math.floor(i / widthPx) - 0.5) / pxPerMm,
    })
    return Uint8Array.from(plane, (grey, i) => {
      const lit = light === undefined ? grey : grey + light(seenAt(i))
      return Math.max(
        0,
        Math.min(255, Math.round(noise === undefined ? lit : lit + noise.grey * noise.random.normal())),
      )
    })
  })
  return { widthPx, heightPx, planes, pxPerMm, minXMm: 0, maxYMm: heightPx / pxPerMm }
}

const inChannel = (colour: DrawnBody['colour'], channel: number): number =>
  typeof colour === 'number' ? colour : (colour[channel] ?? 0)

interface Sheet {
  readonly widthPx: number
  readonly heightPx: number
  readonly pxPerMm: number
}

function paint(plane: Float32Array, { widthPx, heightPx, pxPerMm }: Sheet, body: DrawnBody, grey: number): void {
  const { at, widthMm, lengthMm, rotationDeg = 0 } = body
  const angle = (rotationDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  for (let row = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++) {
      const x = (column + 0.5) / pxPerMm - at.x
      const y = (heightPx - row - 0.5) / pxPerMm - at.y
      const insidePx =
        pxPerMm * Math.min(widthMm / 2 - Math.abs(x * cos + y * sin), lengthMm / 2 - Math.abs(y * cos - x * sin))
      const share = Math.max(0, Math.min(1, insidePx + 0.5))
      const i = row * widthPx + column
      plane[i] = (plane[i] ?? 0) * (1 - share) + grey * share
    }
}
