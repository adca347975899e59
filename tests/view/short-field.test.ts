import { expect, test } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import { levelsOf } from '../../src/view/sheet/pure/shortField.ts'

test('the lines of a hunt for a short go around the least areas that hold 99, 90 and 50 %', () => {
  const random = seededRandom(3)
  const raw = Float32Array.from({ length: 500 }, () => random.next() ** 4)
  const sum = raw.reduce((total, value) => total + value, 0)
  const density = raw.map((value) => value / sum)
  const levels = levelsOf(density)
  expect(levels).toHaveLength(3)
  for (const [i, share] of [0.99, 0.9, 0.5].entries()) {
    const inside = [...density].filter((value) => value >= (levels[i] ?? 0)).toSorted((a, b) => b - a)
    const held = inside.reduce((total, value) => total + value, 0)
    expect(held).toBeGreaterThanOrEqual(share - 1e-6)
    expect(held - (inside.at(-1) ?? 0)).toBeLessThan(share)
  }
})
