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
  /** How many times as strong as in the small picture its greys rise and fall there, by least squares. */
  readonly gains: Float32Array
}

/** Under less spread of grey than this nothing is told apart. */
const LEAST_SPREAD = 1.5

/** A small picture, or several of one place, each less its own mean, with the energy of all of them. */
export interface Template {
  readonly widthPx: number
  readonly heightPx: number
  readonly planes: readonly Float32Array[]
  readonly energy: number
}

/** Pictures of one size, made ready to be looked for. */
export function templateOf(patches: readonly GreyImage[]): Template {
  const { widthPx = 0, heightPx = 0 } = patches[0] ?? {}
  let energy = 0
  const planes = patches.map(({ grey }) => {
    let sum = 0
    for (const value of grey) sum += value
    const mean = sum / grey.length
    const centred = new Float32Array(grey.length)
    for (let i = 0; i < centred.length; i++) {
      const value = (grey[i] ?? 0) - mean
      centred[i] = value
      energy += value * value
    }
    return centred
  })
  return { widthPx, heightPx, planes, energy }
}

const NO_MAP: CorrelationMap = {
  widthPx: 0,
  heightPx: 0,
  values: new Float32Array(0),
  gains: new Float32Array(0),
}

/**
 * The correlation of `patch` with each place of `image` where it lies wholly inside; 0 where the picture is flat there. An empty
 * map where the patch is larger than the picture, or flat itself.
 */
export const correlationMap = (image: GreyImage, patch: GreyImage): CorrelationMap =>
  correlationMaps([image], [templateOf([patch])])[0] ?? NO_MAP

/**
 * The same over several pictures of one place, such as its colours, each less its own mean, for several templates: products and
 * energies are added up before they are divided, so that a colour counts by how much it tells. All pictures are of one size.
 */
export function correlationMaps(images: readonly GreyImage[], templates: readonly Template[]): CorrelationMap[] {
  const integrals = images.map(integralOf)
  const energiesBySize = new Map<string, Float64Array>()
  return templates.map((template) => {
    const widthPx = (images[0]?.widthPx ?? 0) - template.widthPx + 1
    const heightPx = (images[0]?.heightPx ?? 0) - template.heightPx + 1
    const leastEnergy = LEAST_SPREAD * LEAST_SPREAD * template.widthPx * template.heightPx
    if (widthPx < 1 || heightPx < 1 || template.energy < leastEnergy) return NO_MAP
    const size = { widthPx, heightPx }
    const key = `${template.widthPx} ${template.heightPx}`
    const energies = energiesBySize.get(key) ?? energiesUnder(integrals, template, size)
    energiesBySize.set(key, energies)
    const products = new Float32Array(widthPx * heightPx)
    for (const [i, image] of images.entries()) {
      const patch = { ...template, grey: template.planes[i] ?? new Float32Array(0) }
      if (widthPx < template.widthPx) addProductsByPlace(products, image, patch, size)
      else addProductsByRow(products, image, patch, size)
    }
    const values = new Float32Array(products.length)
    const gains = new Float32Array(products.length)
    for (let at = 0; at < values.length; at++) {
      const energy = energies[at] ?? 0
      if (energy < leastEnergy) continue
      values[at] = (products[at] ?? 0) / Math.sqrt(energy * template.energy)
      gains[at] = (products[at] ?? 0) / template.energy
    }
    return { widthPx, heightPx, values, gains }
  })
}

/** By place: the energy of what lies under the patch in all pictures, the mean of each taken off. */
function energiesUnder(integrals: readonly Integral[], patch: Template, size: MapSize): Float64Array {
  const energies = new Float64Array(size.widthPx * size.heightPx)
  for (const integral of integrals) addEnergies(energies, integral, patch, size)
  return energies
}

function addEnergies(
  energies: Float64Array,
  { columns, sums, squares }: Integral,
  patch: Template,
  { widthPx, heightPx }: MapSize,
): void {
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

interface MapSize {
  readonly widthPx: number
  readonly heightPx: number
}

/** Sums of products, row of the patch by row, so that the innermost loop runs along whole rows of the map. */
function addProductsByRow(
  products: Float32Array,
  image: GreyImage,
  patch: GreyImage,
  { widthPx, heightPx }: MapSize,
): void {
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

/** The same for small maps, place by place: there the rows of the patch are the longer ones. */
function addProductsByPlace(
  products: Float32Array,
  image: GreyImage,
  patch: GreyImage,
  { widthPx, heightPx }: MapSize,
): void {
  for (let row = 0, place = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++, place++) {
      let sum = 0
      for (let down = 0, at = 0; down < patch.heightPx; down++) {
        let under = (row + down) * image.widthPx + column
        for (let right = 0; right < patch.widthPx; right++, at++, under++)
          sum += (patch.grey[at] ?? 0) * (image.grey[under] ?? 0)
      }
      products[place] = (products[place] ?? 0) + sum
    }
  }
}
