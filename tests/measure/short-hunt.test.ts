/** The search for a short: likelihood, uncertainty, next probe, words, against plain sums and synthetic shorts. */
import { fc, test as law } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import { cellAt, distance, type Point, type Random, seededRandom } from '../../src/base/index.ts'
import {
  chiSquareTail,
  contactAt,
  createShortFinder,
  createSolver,
  huntShort,
  parseMillivolt,
  type Sheet,
  shortAssumptions,
  type ShortAnswer,
  type ShortFinder,
  type ShortHunt,
  sumOutScale,
  valueAtContact,
  weighPlaces,
} from '../../src/measure/index.ts'
import { box, copperBoard, currentsOf, OUNCE_MILLIOHM } from '../support/copper-board.ts'

const pads = Array.from({ length: 24 }, (_, k) => ({ x: 5 + (k % 6) * 14, y: 5 + Math.floor(k / 6) * 16 }))
const board = copperBoard({ widthMm: 84, heightMm: 60, copper: [box(1, 1, 80, 58)], capacitors: pads })
const finder = createShortFinder(board, { cellMm: 1 })

const huntOf = (change: Partial<ShortHunt> = {}): ShortHunt => ({
  id: 'h',
  rail: 'VMEM',
  side: 'top',
  currentA: 2,
  sourceAt: { x: 5, y: 5 },
  readings: [],
  noiseMillivolt: 0.02,
  ...change,
})

function answered(hunt: ShortHunt, on: ShortFinder = finder): ShortAnswer {
  const result = huntShort(on, hunt)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

/** A meter over copper whose short is known: cells other than the finder's, so that nothing cancels. */
function meterOver(shortAt: Point, hunt: ShortHunt, scale = 1) {
  const currents = currentsOf(meterSheet, [
    { at: hunt.sourceAt, ampere: hunt.currentA },
    { at: shortAt, ampere: -hunt.currentA },
  ])
  const field = meterSolver.potentials(currents)
  return (at: Point): number => {
    const contact = contactAt(meterSheet, at)
    return contact === undefined ? NaN : 37 + scale * valueAtContact(field, contact)
  }
}

function sheetWith(cellMm: number): Sheet {
  const sheets = createShortFinder(board, { cellMm }).sheetsFor({ rail: 'VMEM' })
  const sheet = sheets.ok ? sheets.value.pieces[0]?.sheet : undefined
  if (sheet === undefined) throw new Error('no copper')
  return sheet
}
const meterSheet = sheetWith(0.7)
const meterSolver = createSolver(meterSheet)

/** What the finder takes for the spread of a reading on drawn copper. */
const sdOf = (hunt: ShortHunt): number =>
  Math.hypot(hunt.noiseMillivolt, shortAssumptions.drawnShapeShare * hunt.currentA * OUNCE_MILLIOHM)

const spread = [1, 5, 9, 14, 18, 23, 2, 12].map((k) => pads[k] ?? { x: 5, y: 5 })

function withReadings(shortAt: Point, random: Random, places = spread, scale = 1): ShortHunt {
  const hunt = huntOf()
  const meter = meterOver(shortAt, hunt, scale)
  return { ...hunt, readings: places.map((at) => ({ at, millivolt: meter(at) + sdOf(hunt) * random.normal() })) }
}

describe('the sums over what is not known', () => {
  const shares = { min: 0, max: 1, noNaN: true } as const
  law.prop(
    [fc.double(shares), fc.double(shares), fc.double(shares), fc.double({ min: 0.03, max: 0.25, noNaN: true })],
    {
      numRuns: 40,
      seed: 3,
    },
  )('the scale is summed out as a plain sum over 8,001 values does it', (size, scale, luck, sdLog) => {
    // Whatever the signal's size, a scale within three and a residue within four standard deviations.
    const a = 10 ** (-2 + 6 * size)
    const b = a * Math.exp(sdLog * (6 * scale - 3)) + Math.sqrt(a) * (8 * luck - 4)
    let highest = -Infinity
    const logs: number[] = []
    const step = (16 * sdLog) / 8_000
    for (let k = -4_000; k <= 4_000; k++) {
      const u = k * step
      const log = b * Math.exp(u) - (a / 2) * Math.exp(2 * u) - (u * u) / (2 * sdLog * sdLog)
      logs.push(log)
      highest = Math.max(highest, log)
    }
    const sum = logs.reduce((total, log) => total + Math.exp(log - highest), 0)
    const wanted = highest + Math.log((sum * step) / (sdLog * Math.sqrt(2 * Math.PI)))
    expect(Math.abs(sumOutScale(a, b, sdLog).logEvidence - wanted)).toBeLessThan(0.001)
  })

  test('a constant on all readings changes nothing', () => {
    const hunt = withReadings({ x: 50, y: 40 }, seededRandom(5))
    const lifted = { ...hunt, readings: hunt.readings.map((r) => ({ ...r, millivolt: r.millivolt + 400 })) }
    const before = answered(hunt)
    const after = answered(lifted)
    expect(after.best).toEqual(before.best)
    expect(after.sdMm).toBeCloseTo(before.sdMm, 6)
  })

  test('summing the offset out is the same as a plain sum over offsets', () => {
    const drops = [Float64Array.of(0, 1, 3), Float64Array.of(0, 2, 1), Float64Array.of(0, 0, 5)].map(
      (millivolt, i) => ({
        millivolt,
        looser: new Map(i === 1 ? [[2, 1.7]] : []),
      }),
    )
    const read = [7.1, 7.6, 9.3]
    const { logEvidence } = weighPlaces(drops, read, 0.8, 0)
    const plain = [0, 1, 2].map((node) => {
      let sum = 0
      for (let offset = -30; offset <= 50; offset += 0.01) {
        sum += drops.reduce((product, { millivolt, looser }, i) => {
          const variance = 0.64 + (looser.get(node) ?? 0)
          const off = (read[i] ?? 0) - (millivolt[node] ?? 0) - offset
          return (product * Math.exp((-off * off) / (2 * variance))) / Math.sqrt(variance)
        }, 1)
      }
      return Math.log(sum)
    })
    expect((logEvidence[1] ?? 0) - (logEvidence[0] ?? 0)).toBeCloseTo((plain[1] ?? 0) - (plain[0] ?? 0), 6)
    expect((logEvidence[2] ?? 0) - (logEvidence[0] ?? 0)).toBeCloseTo((plain[2] ?? 0) - (plain[0] ?? 0), 6)
  })

  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values of chi-square.
  test.each([
    [3.841, 1, 0.05],
    [11.07, 5, 0.05],
    [18.307, 10, 0.05],
    [23.209, 10, 0.01],
    [43.773, 30, 0.05],
    [1.61, 5, 0.9],
  ])('chi-square above %d with %i degrees of freedom has %d', (value, freedom, tail) => {
    expect(chiSquareTail(value, freedom)).toBeCloseTo(tail, 3)
  })
})

describe('shorts at known places, read with a seeded meter', () => {
  const random = seededRandom(11)
  const trials = Array.from({ length: 120 }, () => {
    const at = { x: 3 + 75 * random.next(), y: 3 + 53 * random.next() }
    return { at, answer: answered(withReadings(at, random, spread, Math.exp(0.25 * random.normal()))) }
  })

  test('the area of 90 % holds the short about nine times in ten', () => {
    const held = trials.filter(({ at, answer }) => {
      const cell = cellAt(answer.grid, at)
      return (answer.density[cell] ?? 0) >= answer.level90
    }).length
    // Binomial, n = 120, p = 0.9: standard deviation 3.3.
    expect(held).toBeGreaterThanOrEqual(98)
    expect(held).toBeLessThanOrEqual(118)
  })

  test('the error is as large as it is said to be', () => {
    const squares = trials.map(({ at, answer }) => (distance(at, answer.mean) / answer.sdMm) ** 2)
    const mean = squares.reduce((sum, value) => sum + value, 0) / squares.length
    expect(mean).toBeGreaterThan(0.6)
    expect(mean).toBeLessThan(1.5)
  })

  test('half of them are found within 6 mm, on copper of 79 by 57 mm', () => {
    const errors = trials.map(({ at, answer }) => distance(at, answer.best)).toSorted((a, b) => a - b)
    expect(errors[60]).toBeLessThan(6)
  })

  test('few of them are said not to fit one short', () => {
    expect(trials.filter(({ answer }) => answer.verdict === 'no-fit').length).toBeLessThanOrEqual(5)
  })

  test('the capacitor at the short is named among the first', () => {
    for (const [k, seed] of [
      [8, 1],
      [15, 2],
      [20, 3],
    ] as const) {
      const at = pads[k] ?? { x: 0, y: 0 }
      const { parts } = answered(withReadings(at, seededRandom(seed)))
      expect(parts.slice(0, 2).map(({ ref }) => ref)).toContain(`C${k + 1}`)
      expect(parts.reduce((sum, { share }) => sum + share, 0)).toBeLessThanOrEqual(1 + 1e-9)
    }
  })
})

test('going where it says narrows more than going about at random', () => {
  const random = seededRandom(29)
  const sums = { asked: 0, random: 0 }
  for (let trial = 0; trial < 10; trial++) {
    const at = { x: 4 + 72 * random.next(), y: 4 + 50 * random.next() }
    const meter = meterOver(at, huntOf())
    for (const way of ['asked', 'random'] as const) {
      let hunt = huntOf()
      for (let k = 0; k < 5; k++) {
        const { next, places } = answered(hunt)
        const place = way === 'asked' ? next : places[random.whole(places.length)]
        if (place === undefined) throw new Error('nowhere to probe')
        const reading = { at: place.at, millivolt: meter(place.at) + sdOf(hunt) * random.normal() }
        hunt = { ...hunt, readings: [...hunt.readings, reading] }
      }
      sums[way] += Math.log(answered(hunt).area90Mm2)
    }
  }
  // Mean logarithm of the area that holds 90 %, after five readings.
  expect(sums.asked / 10).toBeLessThan(sums.random / 10 - Math.log(1.5))
})

test('what the next reading is expected to tell, it tells on average', () => {
  const random = seededRandom(41)
  let expected = 0
  let found = 0
  const trials = 40
  for (let trial = 0; trial < trials; trial++) {
    const at = { x: 4 + 72 * random.next(), y: 4 + 50 * random.next() }
    const meter = meterOver(at, huntOf())
    const read = (place: Point, hunt: ShortHunt): ShortHunt['readings'][number] => ({
      at: place,
      millivolt: meter(place) + sdOf(hunt) * random.normal(),
    })
    let hunt = huntOf()
    for (const place of spread.slice(0, 3)) hunt = { ...hunt, readings: [...hunt.readings, read(place, hunt)] }
    const before = answered(hunt)
    if (before.next === undefined) throw new Error('nowhere to probe')
    const after = answered({ ...hunt, readings: [...hunt.readings, read(before.next.at, hunt)] })
    expected += before.next.nats / trials
    found += (entropy(before) - entropy(after)) / trials
  }
  expect(expected).toBeGreaterThan(0.4)
  expect(Math.abs(found - expected)).toBeLessThan(0.3)
})

function entropy({ density }: ShortAnswer): number {
  let sum = 0
  for (const p of density) if (p > 0) sum -= p * Math.log(p)
  return sum
}

describe('what it says', () => {
  const meter = meterOver({ x: 60, y: 45 }, huntOf())
  const read = (places: readonly Point[]) => places.map((at) => ({ at, millivolt: meter(at) }))

  test('without two readings nothing is claimed, and a first point is offered', () => {
    for (const readings of [[], read(spread.slice(0, 1))]) {
      const answer = answered(huntOf({ readings }))
      expect(answer.verdict).toBe('too-few')
      expect(answer.said[0]).toMatch(/Two readings at least/)
      expect(answer.next).toBeDefined()
    }
  })

  test('a current too small to tell is said to be', () => {
    const answer = answered(huntOf({ currentA: 0.01, readings: spread.map((at) => ({ at, millivolt: 3 })) }))
    expect(answer.verdict).toBe('weak')
    expect(answer.said[0]).toMatch(/current is too small/)
  })

  test('readings all alike are said to be so, and the place is near where the current goes in', () => {
    const answer = answered(huntOf({ readings: spread.map((at) => ({ at, millivolt: 3 })) }))
    expect(answer.verdict).toBe('flat')
    expect(distance(answer.best, { x: 5, y: 5 })).toBeLessThan(10)
    expect(answer.said[0]).toMatch(/does not flow in this copper/)
  })

  test('two shorts at once don’t pass for one, and the reading that is off most is named', () => {
    const other = meterOver({ x: 10, y: 52 }, huntOf())
    const both = pads.map((at) => ({ at, millivolt: (meter(at) + other(at)) / 2 }))
    const answer = answered(huntOf({ currentA: 10, readings: both.map((r) => ({ ...r, millivolt: r.millivolt * 5 })) }))
    expect(answer.verdict).toBe('no-fit')
    expect(answer.said[0]).toMatch(/don’t fit one short.*reading \d+ is off most/)
  })

  test('a slip of the probe in one reading of eight is found out', () => {
    const readings = read(spread).map((r, i) => (i === 4 ? { ...r, millivolt: r.millivolt + 0.6 } : r))
    const answer = answered(huntOf({ readings }))
    expect(answer.verdict).toBe('no-fit')
  })

  test('copper that resists more than its weight says is told', () => {
    const answer = answered(withReadings({ x: 60, y: 45 }, seededRandom(4), pads, 1.6))
    expect(answer.scale).toBeGreaterThan(1.4)
    expect(answer.said.join(' ')).toMatch(/times more than its weight gives/)
  })

  test('a point off the copper is left out with a sentence, the others still count', () => {
    const readings = [...read(spread), { at: { x: 84, y: 2 }, millivolt: 5 }]
    const answer = answered(huntOf({ readings }))
    expect(answer.readings.at(-1)?.refused).toMatch(/not on this rail’s copper/)
    expect(answer.best).toEqual(answered(huntOf({ readings: read(spread) })).best)
  })

  test('a reading where the current goes in is left out: it shows the contact, not the copper', () => {
    const answer = answered(huntOf({ readings: [...read(spread), { at: { x: 5.4, y: 5 }, millivolt: 90 }] }))
    expect(answer.readings.at(-1)?.refused).toMatch(/where the current goes in/)
    expect(answer.places.every(({ at }) => distance(at, { x: 5, y: 5 }) >= 2)).toBe(true)
  })

  test('a probe on the short itself does not spoil the search, however wide or narrow the short is', () => {
    const at = pads[15] ?? { x: 0, y: 0 }
    const onIt = meterOver(at, huntOf({ currentA: 5 }))
    const places = [...spread, at]
    for (const factor of [-1, 0, 1]) {
      // A short wider or narrower by a factor e lifts or lowers the reading on it by R I / 2 pi.
      const more = (factor * OUNCE_MILLIOHM * 5) / (2 * Math.PI)
      const readings = places.map((place) => ({ at: place, millivolt: onIt(place) + (place === at ? more : 0) }))
      const answer = answered(huntOf({ currentA: 5, readings }))
      expect(answer.verdict).toBe('place')
      expect(distance(answer.best, at)).toBeLessThan(2.5)
    }
  })

  test('a source off the copper and a rail that is not there are refused', () => {
    const off = huntShort(finder, huntOf({ sourceAt: { x: 84, y: 30 } }))
    expect(!off.ok && off.faults[0]?.found).toMatch(/off the copper of VMEM/)
    const gone = huntShort(finder, huntOf({ rail: 'VDD' }))
    expect(!gone.ok && gone.faults[0]?.expected).toBe('a rail of this board')
  })

  test('copper that is nowhere drawn is assumed, said to be, and trusted less', () => {
    const bare = copperBoard({ widthMm: 84, heightMm: 60, copper: [], capacitors: pads })
    const readings = read(spread)
    const assumed = answered(huntOf({ readings }), createShortFinder(bare, { cellMm: 1 }))
    expect(assumed.copperFrom).toBe('assumed')
    expect(assumed.said.join(' ')).toMatch(/Assumed copper/)
    expect(assumed.sdMm).toBeGreaterThan(answered(huntOf({ readings })).sdMm)
  })

  test('another piece of the rail’s copper is told from no copper', () => {
    const apart = copperBoard({ widthMm: 60, heightMm: 20, copper: [box(0, 0, 25, 20), box(35, 0, 60, 20)] })
    const answer = answered(huntOf({ readings: [{ at: { x: 50, y: 10 }, millivolt: 1 }] }), createShortFinder(apart))
    expect(answer.readings[0]?.refused).toMatch(/another piece/)
  })
})

test.each([
  ['12.4', 12.4],
  ['12,4m', 12.4],
  ['0.0124 V', 12.4],
  [' 380 µV ', 0.38],
  ['-3', -3],
  ['−3 mV', -3],
  ['.5', 0.5],
  ['1e3 uV', 1],
  ['', undefined],
  ['OL', undefined],
  ['12 ohm', undefined],
  ['200 V', undefined],
  ['1.2.3', undefined],
  ['39,123', 39.123],
  ['– 2,5 mV', undefined],
  ['–2,5 mV', -2.5],
  ['1e3', 1000],
])('%s typed is %s mV', (typed, wanted) => {
  const found = parseMillivolt(typed)
  if (wanted === undefined) expect(found).toBeUndefined()
  else expect(found).toBeCloseTo(wanted, 9)
})

test('of many parts that may hold the short the twelve likeliest are named, the likeliest first; none under one in a hundred', () => {
  const unknown = answered(huntOf()).parts.map(({ share }) => share)
  expect(unknown).toHaveLength(12)
  const readings = [1, 23, 9, 14, 18, 5].map((k) => ({ at: pads[k] ?? { x: 5, y: 5 }, millivolt: 40 + k / 100 }))
  for (const { parts } of [answered(huntOf()), answered(huntOf({ readings }))]) {
    const shares = parts.map(({ share }) => share)
    expect(shares).toEqual(shares.toSorted((a, b) => b - a))
    expect(shares.filter((share) => share < 0.01)).toEqual([])
  }
})
