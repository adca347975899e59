/** Many pads as flat arrays with a spatial index: what the drawing loop reads without touching an object. */
import Flatbush from 'flatbush'
import type { Box } from '../../../base/index.ts'
import type { PlacedPad } from '../../../board/index.ts'

export interface PadField {
  readonly count: number
  /** Centres and half sizes in mm. */
  readonly xMm: Float32Array
  readonly yMm: Float32Array
  readonly halfWidthMm: Float32Array
  readonly halfLengthMm: Float32Array
  readonly rotationRad: Float32Array
  /** 1 where the pad is round or a ball. */
  readonly round: Uint8Array
  readonly nets: readonly (string | undefined)[]
  /** Numbers of the pads whose boxes touch the given one, in no order; all of them without a search if it holds all. */
  readonly within: (box: Box) => ArrayLike<number>
}

export function padField(pads: readonly PlacedPad[]): PadField {
  const count = pads.length
  const field = {
    xMm: new Float32Array(count),
    yMm: new Float32Array(count),
    halfWidthMm: new Float32Array(count),
    halfLengthMm: new Float32Array(count),
    rotationRad: new Float32Array(count),
    round: new Uint8Array(count),
  }
  const tree = count > 0 ? new Flatbush(count, 16, Float32Array) : undefined
  for (const [i, pad] of pads.entries()) {
    const quarter = ((pad.rotationDeg % 180) + 180) % 180
    const upright = Math.abs(quarter - 90) < 1e-6
    const straight = upright || quarter < 1e-6 || pad.round
    field.xMm[i] = pad.at.x
    field.yMm[i] = pad.at.y
    field.halfWidthMm[i] = (upright ? pad.lengthMm : pad.widthMm) / 2
    field.halfLengthMm[i] = (upright ? pad.widthMm : pad.lengthMm) / 2
    field.rotationRad[i] = straight ? 0 : (quarter * Math.PI) / 180
    field.round[i] = pad.round ? 1 : 0
    const reach = straight ? Math.max(pad.widthMm, pad.lengthMm) / 2 : Math.hypot(pad.widthMm, pad.lengthMm) / 2
    tree?.add(pad.at.x - reach, pad.at.y - reach, pad.at.x + reach, pad.at.y + reach)
  }
  tree?.finish()
  const every = Uint32Array.from({ length: count }, (_, i) => i)
  const within = (box: Box): ArrayLike<number> => {
    if (tree === undefined) return every
    const holdsAll = box.minX <= tree.minX && box.minY <= tree.minY && box.maxX >= tree.maxX && box.maxY >= tree.maxY
    return holdsAll ? every : tree.search(box.minX, box.minY, box.maxX, box.maxY)
  }
  return { count, ...field, nets: pads.map((pad) => pad.net), within }
}
