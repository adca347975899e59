/** Of all places that a probe can reach, the one whose reading is expected to tell most. */
import { cellCentre, decimals, distance, type Point, say } from '../../base/index.ts'
import type { Drop, Evidence } from './likelihood.ts'
import { type Outlook, outlookOf, type Standing } from './next-probe.ts'
import { equalShares, type Posterior } from './posterior.ts'
import type { NextProbe, ProbePlace } from './result.ts'
import type { Sheet } from './sheet.ts'

const STANDING = 400

export interface Choice {
  readonly sheet: Sheet
  readonly places: readonly ProbePlace[]
  /** For each place, what it would read for every place of the short. */
  readonly fields: readonly (Drop | undefined)[]
  readonly posterior: Posterior
  readonly evidence: Evidence
  readonly sdMillivolt: number
}

/**
 * The place whose reading is expected to shrink the posterior most, in nats; undefined where no place can be
 * predicted. The area after it is the present one times exp(-nats), at least one cell. It is worthwhile from a stated
 * least gain on.
 */
export function bestNext(choice: Choice): NextProbe | undefined {
  const { sheet, places, fields, posterior, evidence, sdMillivolt } = choice
  const standing = standingOf(sheet, posterior)
  let best: { place: ProbePlace; outlook: Outlook } | undefined
  for (const [i, place] of places.entries()) {
    const field = fields[i]
    if (field === undefined) continue
    const outlook = outlookOf(field, standing, evidence, sdMillivolt)
    if (best === undefined || outlook.nats > best.outlook.nats) best = { place, outlook }
  }
  if (best === undefined) return undefined
  const { place, outlook } = best
  const after = posterior.area90Mm2 * Math.exp(-outlook.nats)
  const cellMm2 = sheet.grid.cellMm ** 2
  return {
    ...place,
    nats: outlook.nats,
    areaNowMm2: posterior.area90Mm2,
    areaAfterMm2: Math.max(after, cellMm2),
    sdAfterMm: Math.sqrt(outlook.varianceMm2),
    worthwhile: outlook.nats >= LITTLE_NATS,
    why: whyWords(outlook, posterior.area90Mm2, after),
  }
}

/** About the mean, so that the squares of what is summed stay small. */
function standingOf(sheet: Sheet, { probability, mean }: Posterior): Standing[] {
  return [...equalShares(probability, STANDING)].map((node) => {
    const { x, y } = cellCentre(sheet.grid, sheet.cells[node] ?? 0)
    return { node, x: x - mean.x, y: y - mean.y }
  })
}

const LITTLE_NATS = 0.15

function whyWords({ nats, rangeMillivolt }: Outlook, now: number, after: number): string {
  if (nats < LITTLE_NATS)
    return say(
      'No further point tells much: look closely at the parts named, or raise the current within its limits and read again.',
    )
  const range = rangeMillivolt >= 0.1 ? rangeMillivolt.toFixed(2) : rangeMillivolt.toPrecision(1)
  return say(
    'The places that are still likely would read up to {range} mV apart here, more telling than anywhere else: the area that holds 90 % is expected to shrink from {now} to about {after}.',
    { range, now: areaWords(now), after: areaWords(after) },
  )
}

const areaWords = (mm2: number): string =>
  mm2 >= 100
    ? say('{mm2} cm²', { mm2: decimals(mm2 / 100, 1) })
    : say('{mm2} mm²', { mm2: decimals(Math.max(1, mm2), 0) })

/**
 * Before any reading: the one of the two points that would differ most over all places of the short. One reading alone
 * says nothing, since the offset is unknown.
 */
export function firstProbe(
  places: readonly ProbePlace[],
  fields: readonly (Drop | undefined)[],
  source: Point,
): NextProbe | undefined {
  let best: { place: ProbePlace; spread: number } | undefined
  for (const [i, place] of places.entries()) {
    const first = fields[i]
    if (first === undefined) continue
    for (const second of fields.slice(i + 1)) {
      if (second === undefined) continue
      const spread = varianceOfDifference(first.millivolt, second.millivolt)
      if (spread > (best?.spread ?? -1)) best = { place, spread }
    }
  }
  const place = best?.place ?? places.toSorted((a, b) => distance(b.at, source) - distance(a.at, source))[0]
  if (place === undefined) return undefined
  return {
    ...place,
    nats: 0,
    areaNowMm2: 0,
    areaAfterMm2: 0,
    sdAfterMm: 0,
    worthwhile: true,
    why: say(
      'A good end to start from: readings here and at the far end differ most from one place of the short to another. The first reading alone says nothing.',
    ),
  }
}

function varianceOfDifference(first: Float64Array, second: Float64Array): number {
  let sum = 0
  let squares = 0
  for (let node = 0; node < first.length; node++) {
    const difference = (first[node] ?? 0) - (second[node] ?? 0)
    sum += difference
    squares += difference * difference
  }
  return squares / first.length - (sum / first.length) ** 2
}
