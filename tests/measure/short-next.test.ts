/** Which reading on the strip tells most, against the mixture of what each place of the short would give, summed over a fine line. */
import { describe, expect, test } from 'vitest'
import { answered, CELLS, centre, drop, LOOSER, plainly, SD, stripReadings } from './strip.ts'

const SD_LOG = 0.25
const places = plainly(stripReadings.slice(0, 3), SD_LOG)

/** Mutual information of place and reading at cell p, nats (Lindley, Ann. Math. Stat. 27, 1956), and the variance that is left. */
function outlook(p: number): { nats: number; varianceMm2: number } {
  const read = stripReadings.slice(0, 3)
  const components = places.map(({ probability, u, whole }, k) => {
    const scale = Math.exp(u)
    const weights = read.map(([q]) => 1 / (SD ** 2 + (Math.abs(q - k) <= 1 ? LOOSER : 0)))
    const mean = (values: readonly number[]) => values.reduce((sum, v, i) => sum + v * (weights[i] ?? 0), 0) / whole
    const modelMean = mean(read.map(([q]) => drop(q, k)))
    const readMean = mean(read.map(([, y]) => y))
    const off = (i: number): number => drop(read[i]?.[0] ?? 0, k) - modelMean
    // second derivative of half the square by the logarithm of the scale, at its peak
    const a = weights.reduce((sum, w, i) => sum + w * off(i) ** 2, 0)
    const b = weights.reduce((sum, w, i) => sum + w * off(i) * ((read[i]?.[1] ?? 0) - readMean), 0)
    const curvature = 1 / SD_LOG ** 2 - b * scale + 2 * a * scale ** 2
    const difference = (drop(p, k) - modelMean) * scale
    const own = SD ** 2 + (Math.abs(p - k) <= 1 ? LOOSER : 0) + 1 / whole
    return { probability, x: k + 0.5, middle: readMean + difference, sd: Math.sqrt(own + difference ** 2 / curvature) }
  })
  const low = Math.min(...components.map(({ middle, sd }) => middle - 6 * sd))
  const high = Math.max(...components.map(({ middle, sd }) => middle + 6 * sd))
  const step = (high - low) / 4000
  let nats = 0
  let explained = 0
  for (let y = low; y <= high; y += step) {
    const dense = components.map(
      ({ probability, middle, sd }) =>
        (probability * Math.exp(-(((y - middle) / sd) ** 2) / 2)) / (sd * Math.sqrt(2 * Math.PI)),
    )
    const all = dense.reduce((sum, d) => sum + d, 0)
    if (all < 1e-300) continue
    for (const [k, d] of dense.entries())
      if (d > 0) nats += d * step * (Math.log(d) - Math.log(components[k]?.probability ?? 1) - Math.log(all))
    explained += (dense.reduce((sum, d, k) => sum + d * (components[k]?.x ?? 0), 0) ** 2 / all) * step
  }
  const square = components.reduce((sum, { probability, x }) => sum + probability * x * x, 0)
  return { nats, varianceMm2: square - explained }
}

describe('after three readings', () => {
  const { next, area90Mm2, places: probed } = answered(stripReadings.slice(0, 3))
  const cells = Array.from({ length: CELLS }, (_, k) => k).filter((k) => Math.abs(k - 2) >= 2)
  const outlooks = cells.map((cell) => ({ cell, ...outlook(cell) })).toSorted((a, b) => b.nats - a.nats)
  const [most] = outlooks

  test('a probe may go to every cell that is not at the contact', () => {
    expect(probed.map(({ at }) => at.x - 0.5).toSorted((a, b) => a - b)).toEqual(cells)
    // from C1 at 5 mm C3 at 19 mm lies farther than C2 at 12 mm
    expect(probed.slice(0, 3).map(({ label }) => label)).toEqual(['C1', 'C3', 'C2'])
  })

  test('the one that tells most is offered, with what it tells', () => {
    if (next === undefined || most === undefined) throw new Error('nowhere to probe')
    const offered = outlooks.find(({ cell }) => centre(cell).x === next.at.x)
    // 400 places that stand for all of them carry a chance in steps of 1/400
    expect(offered?.nats).toBeGreaterThan(most.nats - 0.02)
    expect(Math.abs(next.nats - most.nats)).toBeLessThan(0.02)
    expect(Math.abs(next.sdAfterMm / Math.sqrt(offered?.varianceMm2 ?? NaN) - 1)).toBeLessThan(0.03)
    expect(next.areaNowMm2).toBe(area90Mm2)
    expect(next.areaAfterMm2).toBeCloseTo(Math.max(1, area90Mm2 * Math.exp(-next.nats)), 9)
    expect(next.worthwhile).toBe(true)
  })
})

describe('before any reading', () => {
  // of all pairs the two ends differ most: the first of them is where to begin, and one reading alone tells nothing
  test('an end of the copper is offered', () => {
    const { next } = answered([])
    expect(next).toMatchObject({
      nats: 0,
      areaNowMm2: 0,
      areaAfterMm2: 0,
      sdAfterMm: 0,
      worthwhile: true,
      why: 'A good end to start from: readings here and at the far end differ most from one place of the short to another. The first reading alone says nothing.',
    })
    const spread = (p: number, q: number): number => {
      const off = Array.from({ length: CELLS }, (_, k) => drop(p, k) - drop(q, k))
      const mean = off.reduce((sum, v) => sum + v, 0) / CELLS
      return off.reduce((sum, v) => sum + (v - mean) ** 2, 0)
    }
    const cells = Array.from({ length: CELLS }, (_, k) => k).filter((k) => Math.abs(k - 2) >= 2)
    const widest = Math.max(...cells.flatMap((p) => cells.map((q) => spread(p, q))))
    const at = (next?.at.x ?? 0) - 0.5
    expect(Math.max(...cells.map((q) => spread(at, q)))).toBeCloseTo(widest, 6)
  })
})

test('where hardly anything is left to tell it says so', () => {
  const known = Array.from({ length: 10 }, (_, i) => [4 + 1.5 * i, 30 + drop(Math.floor(4 + 1.5 * i), 12)] as const)
  const read = known.map(([cell, millivolt]) => [Math.floor(cell), millivolt] as const)
  const { next } = answered([...read, ...read, ...read, ...read, ...read], { noiseMillivolt: 0.02 })
  expect(next?.nats).toBeLessThan(0.15)
  expect([next?.worthwhile, next?.why]).toEqual([
    false,
    'No further point tells much: look closely at the parts named, or raise the current within its limits and read again.',
  ])
})
