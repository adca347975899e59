/**
 * A strip of copper one cell wide, where a short can be searched for by hand: between source and sink the drop is R · I a
 * square, beyond them there is none (Ohm's law). What is not known is summed plainly.
 */
import { loadBoard } from '../../src/board/index.ts'
import {
  createShortFinder,
  huntShort,
  type ShortAnswer,
  type ShortHunt,
  sheetMilliohmOf,
} from '../../src/measure/index.ts'
import { box } from '../support/copper-board.ts'

export const CELLS = 20
export const SQUARE = sheetMilliohmOf(35)
export const centre = (k: number) => ({ x: k + 0.5, y: 0.5 })
const capacitor = (ref: string, k: number) => ({
  ref,
  kind: 'capacitor',
  side: 'top',
  at: centre(k),
  body: { widthMm: 1, lengthMm: 0.5, heightMm: 0.5 },
})
const strip = (() => {
  const loaded = loadBoard({
    format: 'liftmap-board',
    version: 1,
    name: 'strip',
    outline: box(0, 0, CELLS, 1),
    parts: [capacitor('C1', 5), capacitor('C2', 12), capacitor('C3', 19)],
    rails: [
      {
        name: 'VMEM',
        feeds: ['C1', 'C2', 'C3'],
        copper: [{ layer: 'top', polygon: box(0, 0, CELLS, 1), thicknessUm: 35 }],
      },
    ],
  })
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  return createShortFinder(loaded.value, { cellMm: 1 })
})()

const SOURCE = 2
const AMPERE = 10
/** What a probe at cell p reads with the short at cell k, in mV below the source. */
export const drop = (p: number, k: number): number => {
  const along = k > SOURCE ? p - SOURCE : SOURCE - p
  return -SQUARE * AMPERE * Math.max(0, Math.min(along, Math.abs(k - SOURCE)))
}
const NOISE = 0.5

export function answered(
  read: readonly (readonly [cell: number, millivolt: number])[],
  more: Partial<ShortHunt> = {},
): ShortAnswer {
  const found = huntShort(strip, {
    id: 'h',
    rail: 'VMEM',
    side: 'top',
    currentA: AMPERE,
    sourceAt: centre(SOURCE),
    readings: read.map(([cell, millivolt]) => ({ at: centre(cell), millivolt })),
    noiseMillivolt: NOISE,
    ...more,
  })
  if (!found.ok) throw new Error(JSON.stringify(found.faults))
  return found.value
}

// the meter's noise, and 2 % of the drop over a square for what the drawn shape leaves out
export const SD = Math.hypot(NOISE, 0.02 * AMPERE * SQUARE)
// within 1 mm of the short its own width counts: a factor e in distance is R · I / 2π
export const LOOSER = ((SQUARE * AMPERE) / (2 * Math.PI)) ** 2

/** For each place of the short: weight, least square over the scale, and the scale that has it. */
export function plainly(read: readonly (readonly [number, number])[], sdLog: number) {
  const places = Array.from({ length: CELLS }, (_, k) => {
    const weights = read.map(([p]) => 1 / (SD ** 2 + (Math.abs(p - k) <= 1 ? LOOSER : 0)))
    const whole = weights.reduce((sum, w) => sum + w, 0)
    const mean = (values: readonly number[]) => values.reduce((sum, v, i) => sum + v * (weights[i] ?? 0), 0) / whole
    let sum = 0
    let least = { square: Infinity, u: 0, offset: 0, whole }
    for (let step = -3000; step <= 3000; step++) {
      const u = (step / 3000) * 6 * sdLog
      const off = read.map(([p, y]) => y - Math.exp(u) * drop(p, k))
      const offset = mean(off)
      const square = off.reduce((total, o, i) => total + (weights[i] ?? 0) * (o - offset) ** 2, 0) + (u / sdLog) ** 2
      sum += Math.exp(-square / 2)
      if (square < least.square) least = { square, u, offset, whole }
    }
    const product = weights.reduce((total, w) => total * w, 1)
    return { weight: sum * Math.sqrt(product / whole), ...least }
  })
  const all = places.reduce((sum, { weight }) => sum + weight, 0)
  return places.map((place) => ({ ...place, probability: place.weight / all }))
}

/** With the short at cell 12, each off by a little. */
export const stripReadings = [
  [5, 30 + drop(5, 12) + 0.4],
  [8, 30 + drop(8, 12) - 0.6],
  [11, 30 + drop(11, 12) + 0.2],
  [15, 30 + drop(15, 12) - 0.3],
  [18, 30 + drop(18, 12) + 0.5],
] as const
