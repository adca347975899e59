/** A hunt for a short, answered: where the current sinks, how sure that is, which parts it points at, where to probe next. */
import { bad, cellCount, decimals, distance, good, type Point, type Result, say } from '../../base/index.ts'
import type { ShortHunt } from '../schema.ts'
import { shortAssumptions } from './assumptions.ts'
import { chiSquareTail } from './chi-square.ts'
import { type Contact, contactAt } from './contact.ts'
import { partsOfRail } from './copper.ts'
import { dropAt, type Piece, pieceAt, type RailSheets, readingSdMillivolt, type ShortFinder } from './finder.ts'
import { type Drop, type Evidence, weighPlaces } from './likelihood.ts'
import { bestNext, firstProbe } from './choose.ts'
import { suspectParts } from './parts.ts'
import { type Posterior, posteriorOf } from './posterior.ts'
import type { ReadingFit, ShortAnswer, ShortVerdict } from './result.ts'
import { sentencesOf } from './words.ts'

const MOST_PARTS = 12
const LEAST_SHARE = 0.01

/** Readings that lie on the copper, with what each would read for every place of the short. */
export interface Taken {
  readonly indices: readonly number[]
  readonly millivolts: readonly number[]
  readonly drops: readonly Drop[]
}

/**
 * Model: a thin sheet, div(grad V / R) = -I δ(source) + I δ(short), no current through its edges; every place of the
 * copper equally likely before; readings differ from V by one unknown offset, by noise, and by the copper's unknown scale.
 * Refuses a rail that the board lacks and a point of injection off its copper. Readings off the copper are left out, with
 * a sentence each.
 */
export function huntShort(finder: ShortFinder, hunt: ShortHunt): Result<ShortAnswer> {
  const built = finder.sheetsFor(hunt)
  if (!built.ok) return built
  const sheets = built.value
  const source = pieceAt(sheets, hunt.sourceAt)
  if (source === undefined) return bad(offCopper(hunt))
  const { piece, contact } = source
  const sdMillivolt = readingSdMillivolt(sheets, hunt)
  const refused = hunt.readings.map(({ at }) => refusal(sheets, piece, hunt.sourceAt, at))
  const taken = takeReadings(sheets, piece, contact, hunt, refused)
  const sdLog = hunt.sheetMilliohm === undefined ? shortAssumptions.scaleSdLog : shortAssumptions.measuredScaleSdLog
  const evidence = taken.drops.length === 0 ? undefined : weighPlaces(taken.drops, taken.millivolts, sdMillivolt, sdLog)
  const posterior = posteriorOf(piece.sheet, evidence?.logEvidence ?? new Float64Array(piece.sheet.cells.length))
  const fit = evidence === undefined ? undefined : fitOf(evidence, taken.drops.length)
  const verdict = verdictOf(evidence, fit, taken.drops.length)
  const places = piece.placesOn(hunt.side).filter(({ at }) => !isAtContact(hunt.sourceAt, at))
  const fields = places.map(({ at }) => dropAt(sheets, piece, at, contact, hunt.currentA))
  const next =
    evidence === undefined
      ? firstProbe(places, fields, hunt.sourceAt)
      : bestNext({ sheet: piece.sheet, places, fields, posterior, evidence, sdMillivolt })
  const parts = suspectParts(piece.sheet, posterior.probability, partsOfRail(finder.model, sheets.rail))
  const answer = {
    hunt: hunt.id,
    rail: hunt.rail,
    side: hunt.side,
    verdict,
    ...onGrid(sheets, piece, posterior),
    copperFrom: sheets.copper.from,
    sheetMilliohm: sheets.sheetMilliohm,
    scale: evidence === undefined ? 1 : Math.exp(evidence.u[evidence.leastAt] ?? 0),
    readings: fitsOf(hunt, refused, taken, evidence, sdMillivolt),
    fit,
    parts: parts.filter(({ share }) => share >= LEAST_SHARE).slice(0, MOST_PARTS),
    places,
    next,
  }
  return good({ ...answer, said: sentencesOf(finder.model, sheets.copper.said, hunt, answer) })
}

function takeReadings(
  sheets: RailSheets,
  piece: Piece,
  source: Contact,
  hunt: ShortHunt,
  refused: readonly (string | undefined)[],
): Taken {
  const indices: number[] = []
  const millivolts: number[] = []
  const drops: Drop[] = []
  for (const [i, { at, millivolt }] of hunt.readings.entries()) {
    const drop = refused[i] === undefined ? dropAt(sheets, piece, at, source, hunt.currentA) : undefined
    if (drop === undefined) continue
    indices.push(i)
    millivolts.push(millivolt)
    drops.push(drop)
  }
  return { indices, millivolts, drops }
}

/** Why a point can't be used, or undefined. */
function refusal(sheets: RailSheets, piece: Piece, source: Point, at: Point): string | undefined {
  const where = `x ${decimals(at.x, 1)}, y ${decimals(at.y, 1)} mm`
  if (isAtContact(source, at))
    return say('{where} is where the current goes in: the contact’s own drop hides the copper’s. Left out.', { where })
  if (contactAt(piece.sheet, at) !== undefined) return undefined
  return pieceAt(sheets, at) === undefined
    ? say('{where} is not on this rail’s copper: left out.', { where })
    : say('{where} is on another piece of this rail’s copper than the current goes into: left out.', { where })
}

const isAtContact = (source: Point, at: Point): boolean => distance(source, at) < shortAssumptions.contactMm

/** Offset, scale and two coordinates are fitted to the readings; the scale's own prior counts as one more reading. */
const FITTED = 3
const REFUSED_BELOW = 0.01

function fitOf(evidence: Evidence, taken: number): ShortAnswer['fit'] {
  const freedom = taken - FITTED
  if (freedom < 1) return undefined
  return { chiSquare: evidence.leastSquare, freedom, tail: chiSquareTail(evidence.leastSquare, freedom) }
}

/** Readings would differ by three standard deviations for a place like any other. */
const TELLING = 9
const SAME_ABOVE = 0.05

function verdictOf(evidence: Evidence | undefined, fit: ShortAnswer['fit'], taken: number): ShortVerdict {
  if (evidence === undefined || taken < 2) return 'too-few'
  const same = chiSquareTail(evidence.readSignal, taken - 1) > SAME_ABOVE
  if (same && evidence.expectedSignal < TELLING) return 'weak'
  if (same) return 'flat'
  return fit !== undefined && fit.tail < REFUSED_BELOW ? 'no-fit' : 'place'
}

function onGrid({ pieces }: RailSheets, { sheet }: Piece, posterior: Posterior) {
  const density = new Float32Array(cellCount(sheet.grid))
  const copper = new Uint8Array(density.length)
  for (const each of pieces) for (const cell of each.sheet.cells) copper[cell] = 1
  for (const [node, cell] of sheet.cells.entries()) density[cell] = posterior.probability[node] ?? 0
  const { best, mean, sdMm, radius90Mm, area90Mm2, level90 } = posterior
  return { grid: sheet.grid, density, copper, best, mean, sdMm, radius90Mm, area90Mm2, level90: Math.fround(level90) }
}

function fitsOf(
  hunt: ShortHunt,
  refused: readonly (string | undefined)[],
  taken: Taken,
  evidence: Evidence | undefined,
  sdMillivolt: number,
): ReadingFit[] {
  return hunt.readings.map(({ at, millivolt }, i) => {
    const k = taken.indices.indexOf(i)
    if (k < 0 || evidence === undefined)
      return { at, millivolt, expectedMillivolt: undefined, deviation: undefined, refused: refused[i] }
    const node = evidence.leastAt
    const scale = Math.exp(evidence.u[node] ?? 0)
    const drop = taken.drops[k]
    const difference = (drop?.millivolt[node] ?? 0) - (evidence.modelMean[node] ?? 0)
    const expected = (evidence.readMean[node] ?? 0) + scale * difference
    const sd = Math.sqrt(sdMillivolt ** 2 + (drop?.looser.get(node) ?? 0))
    return {
      at,
      millivolt,
      expectedMillivolt: expected,
      deviation: (millivolt - expected) / sd,
      refused: undefined,
    }
  })
}

const offCopper = ({ sourceAt, rail }: ShortHunt) => ({
  path: 'where the current goes in',
  found: say('x {x}, y {y} mm, off the copper of {rail}', {
    x: decimals(sourceAt.x, 1),
    y: decimals(sourceAt.y, 1),
    rail,
  }),
  expected: say('a point within {snapMm} mm of the rail’s copper', { snapMm: shortAssumptions.snapMm }),
  todo: say('Choose one of the rail’s points, or draw its copper in the board description.'),
})
