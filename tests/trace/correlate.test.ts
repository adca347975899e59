import { expect, test } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import { correlationMap, type GreyImage } from '../../src/trace/index.ts'

function noise(widthPx: number, heightPx: number, seed: number): GreyImage {
  const random = seededRandom(seed)
  return { widthPx, heightPx, grey: Float32Array.from({ length: widthPx * heightPx }, () => 255 * random.next()) }
}

/** By the definition: both less their means, over the root of both energies. */
function plainCorrelation(image: GreyImage, patch: GreyImage, left: number, top: number): number {
  const under: number[] = []
  for (let row = 0; row < patch.heightPx; row++)
    for (let column = 0; column < patch.widthPx; column++)
      under.push(image.grey[(top + row) * image.widthPx + left + column] ?? 0)
  const mean = (values: ArrayLike<number>): number => Array.from(values).reduce((a, b) => a + b, 0) / values.length
  const [meanUnder, meanPatch] = [mean(under), mean(patch.grey)]
  let [both, one, two] = [0, 0, 0]
  for (const [i, value] of under.entries()) {
    const p = (patch.grey[i] ?? 0) - meanPatch
    both += (value - meanUnder) * p
    one += (value - meanUnder) ** 2
    two += p * p
  }
  return both / Math.sqrt(one * two)
}

test('the correlation map agrees with the definition at every place', () => {
  const image = noise(40, 31, 1)
  const patch = noise(9, 6, 2)
  const map = correlationMap(image, patch)
  expect([map.widthPx, map.heightPx]).toEqual([32, 26])
  let worst = 0
  for (let top = 0; top < map.heightPx; top++)
    for (let left = 0; left < map.widthPx; left++)
      worst = Math.max(
        worst,
        Math.abs((map.values[top * map.widthPx + left] ?? 0) - plainCorrelation(image, patch, left, top)),
      )
  expect(worst).toBeLessThan(1e-5)
})

test('a piece of the picture correlates fully where it was cut, in other light too', () => {
  const image = noise(50, 40, 3)
  const grey = Float32Array.from(
    { length: 48 },
    (_, i) => 20 + 0.4 * (image.grey[(11 + Math.floor(i / 8)) * 50 + 17 + (i % 8)] ?? 0),
  )
  const map = correlationMap(image, { widthPx: 8, heightPx: 6, grey })
  const best = map.values.indexOf(Math.max(...map.values))
  expect([best % map.widthPx, Math.floor(best / map.widthPx)]).toEqual([17, 11])
  expect(map.values[best]).toBeCloseTo(1, 5)
  // its greys rise and fall 0.4 times as far: those of the picture 1 / 0.4 times as far as its own
  expect(map.gains[best]).toBeCloseTo(2.5, 4)
})

test('a flat patch and one larger than the picture find nothing', () => {
  const flat = { widthPx: 4, heightPx: 4, grey: new Float32Array(16).fill(80) }
  expect(correlationMap(noise(20, 20, 4), flat).values).toHaveLength(0)
  expect(correlationMap(noise(5, 5, 5), noise(9, 6, 6)).values).toHaveLength(0)
})
