/**
 * Normalised cross-correlation of a small picture with every place of a large one (J. P. Lewis, “Fast Normalized
 * Cross-Correlation”, 1995; from memory): means and energies under the small one come from integral images.
 */
import type { GreyImage } from './image.ts'

/** Sums over everything above and to the left of a corner; one column and one row more than the picture. */
interface Integral {
  readonly columns: number
  readonly sums: Float64Array
  readonly squares: Float64Array
}

function integralOf({ widthPx, heightPx, grey }: GreyImage): Integral {
  const columns = widthPx + 1
  const sums = new Float64Array(columns * (heightPx + 1))
  const squares = new Float64Array(columns * (heightPx + 1))
  for (let row = 0; row < heightPx; row++) {
    let sum = 0
    let square = 0
    for (let column = 0; column < widthPx; column++) {
      const value = grey[row * widthPx + column] ?? 0
      sum += value
      square += value * value
      const at = (row + 1) * columns + column + 1
      sums[at] = sum + (sums[at - columns] ?? 0)
      squares[at] = square + (squares[at - columns] ?? 0)
    }
  }
  return { columns, sums, squares }
}

/** Correlations, -1 to 1, by the place of the small picture’s upper left pixel. */
export interface CorrelationMap {
  readonly widthPx: number
  readonly heightPx: number
  readonly values: Float32Array
}

/** Under less spread of grey than this nothing is told apart. */
const LEAST_SPREAD = 1.5

/**
 * The correlation of `patch` with each place of `image` where it lies wholly inside; 0 where the picture is flat there. An empty
 * map where the patch is larger than the picture, or flat itself.
 */
export function correlationMap(image: GreyImage, patch: GreyImage): CorrelationMap {
  const widthPx = image.widthPx - patch.widthPx + 1
  const heightPx = image.heightPx - patch.heightPx + 1
  const centred = centredPatch(patch)
  if (widthPx < 1 || heightPx < 1 || centred === undefined)
    return { widthPx: 0, heightPx: 0, values: new Float32Array(0) }
  const products = productsOf(image, { ...patch, grey: centred.values }, { widthPx, heightPx })
  const { columns, sums, squares } = integralOf(image)
  const count = patch.widthPx * patch.heightPx
  const leastEnergy = LEAST_SPREAD * LEAST_SPREAD * count
  for (let row = 0, at = 0; row < heightPx; row++) {
    const upper = row * columns
    const lower = (row + patch.heightPx) * columns
    for (let left = 0; left < widthPx; left++, at++) {
      const right = left + patch.widthPx
      const sum =
        (sums[lower + right] ?? 0) - (sums[lower + left] ?? 0) - (sums[upper + right] ?? 0) + (sums[upper + left] ?? 0)
      const square =
        (squares[lower + right] ?? 0) -
        (squares[lower + left] ?? 0) -
        (squares[upper + right] ?? 0) +
        (squares[upper + left] ?? 0)
      const energy = square - (sum * sum) / count
      products[at] = energy < leastEnergy ? 0 : (products[at] ?? 0) / Math.sqrt(energy * centred.energy)
    }
  }
  return { widthPx, heightPx, values: products }
}

/** The patch less its mean, so that the mean of what lies under it drops out; undefined for a flat one. */
function centredPatch({ grey }: GreyImage): { readonly values: Float32Array; readonly energy: number } | undefined {
  let sum = 0
  for (const value of grey) sum += value
  const values = Float32Array.from(grey, (value) => value - sum / grey.length)
  let energy = 0
  for (const value of values) energy += value * value
  return energy < LEAST_SPREAD * LEAST_SPREAD * grey.length ? undefined : { values, energy }
}

interface MapSize {
  readonly widthPx: number
  readonly heightPx: number
}

/** Sums of products, row of the patch by row, so that the innermost loop runs along whole rows of the map. */
function productsOf(image: GreyImage, patch: GreyImage, { widthPx, heightPx }: MapSize): Float32Array {
  const products = new Float32Array(widthPx * heightPx)
  const source = image.grey instanceof Float32Array ? image.grey : Float32Array.from(image.grey)
  for (let row = 0; row < heightPx; row++) {
    const line = products.subarray(row * widthPx, (row + 1) * widthPx)
    for (let down = 0; down < patch.heightPx; down++) {
      const from = (row + down) * image.widthPx
      for (let right = 0; right < patch.widthPx; right++) {
        const weight = patch.grey[down * patch.widthPx + right] ?? 0
        const start = from + right
        for (let column = 0; column < widthPx; column++)
          line[column] = (line[column] ?? 0) + weight * (source[start + column] ?? 0)
      }
    }
  }
  return products
}

/** How alike two pictures of one size are, -1 to 1; 0 where one of them is flat. */
export function correlationOf(one: GreyImage, other: GreyImage): number {
  return correlationMap(one, other).values[0] ?? 0
}
