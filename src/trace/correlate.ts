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
export const correlationMap = (image: GreyImage, patch: GreyImage): CorrelationMap =>
  jointCorrelationMap([image], [patch])

/**
 * The same over several pictures of one place, such as its colours, each less its own mean: products and energies are added up
 * before they are divided, so that a colour counts by how much it tells. All pictures are of one size, and all patches.
 */
export function jointCorrelationMap(images: readonly GreyImage[], patches: readonly GreyImage[]): CorrelationMap {
  const [image, patch] = [images[0], patches[0]]
  const widthPx = (image?.widthPx ?? 0) - (patch?.widthPx ?? 0) + 1
  const heightPx = (image?.heightPx ?? 0) - (patch?.heightPx ?? 0) + 1
  const centred = patches.map(centredPatch)
  const patchEnergy = centred.reduce((sum, { energy }) => sum + energy, 0)
  const count = (patch?.widthPx ?? 0) * (patch?.heightPx ?? 0)
  const leastEnergy = LEAST_SPREAD * LEAST_SPREAD * count
  if (patch === undefined || widthPx < 1 || heightPx < 1 || patchEnergy < leastEnergy)
    return { widthPx: 0, heightPx: 0, values: new Float32Array(0) }
  const size = { widthPx, heightPx }
  const values = new Float32Array(widthPx * heightPx)
  const energies = new Float64Array(widthPx * heightPx)
  for (const [i, each] of images.entries()) {
    addProducts(values, each, { ...patch, grey: centred[i]?.values ?? patch.grey }, size)
    addEnergies(energies, each, patch, size)
  }
  for (let at = 0; at < values.length; at++) {
    const energy = energies[at] ?? 0
    values[at] = energy < leastEnergy ? 0 : (values[at] ?? 0) / Math.sqrt(energy * patchEnergy)
  }
  return { widthPx, heightPx, values }
}

/** By place: the energy of what lies under the patch, its mean taken off. */
function addEnergies(energies: Float64Array, image: GreyImage, patch: GreyImage, { widthPx, heightPx }: MapSize): void {
  const { columns, sums, squares } = integralOf(image)
  const count = patch.widthPx * patch.heightPx
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
      energies[at] = (energies[at] ?? 0) + Math.max(0, square - (sum * sum) / count)
    }
  }
}

/** The patch less its mean, so that the mean of what lies under it drops out. */
function centredPatch({ grey }: GreyImage): { readonly values: Float32Array; readonly energy: number } {
  let sum = 0
  for (const value of grey) sum += value
  const values = Float32Array.from(grey, (value) => value - sum / grey.length)
  let energy = 0
  for (const value of values) energy += value * value
  return { values, energy }
}

interface MapSize {
  readonly widthPx: number
  readonly heightPx: number
}

/** Sums of products, row of the patch by row, so that the innermost loop runs along whole rows of the map. */
function addProducts(products: Float32Array, image: GreyImage, patch: GreyImage, { widthPx, heightPx }: MapSize): void {
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
}
