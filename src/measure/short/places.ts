/** Where on a rail a probe can go: its named points, pads of its parts, else a sparse grid over its copper. */
import { cellCentre, decimals, distance, type Point, say } from '../../base/index.ts'
import type { BoardModel, PlacedPart, Rail, Side } from '../../board/index.ts'
import { partsOfRail } from './copper.ts'
import { contactAt } from './contact.ts'
import type { ProbePlace } from './result.ts'
import type { Sheet } from './sheet.ts'

const MOST_PLACES = 40
const FEWEST_PLACES = 4
/** Their joints lie under the body, out of a needle's reach. */
const HIDDEN: readonly PlacedPart['kind'][] = ['core', 'memory']
/** Without drawn pads: two-ended parts, whose rail end is within a millimetre or so of the middle. */
const TWO_ENDED: readonly PlacedPart['kind'][] = ['capacitor', 'inductor']

/** @returns places on this piece of copper and this side, spread out, at most 40 */
export function probePlaces(model: BoardModel, rail: Rail, sheet: Sheet, side: Side): ProbePlace[] {
  const named = rail.points
    .filter((point) => point.side === side)
    .map(({ at, part, pad }) => ({ at, label: part === undefined ? wordsOf(at) : padWords(part, pad) }))
  const onParts = partsOfRail(model, rail)
    .filter((part) => part.side === side && !HIDDEN.includes(part.kind))
    .flatMap((part) => placesOn(part, rail.name))
  const known = onSheet(sheet, [...named, ...onParts])
  const spread = spreadOut(known, named.length)
  return spread.length >= FEWEST_PLACES ? spread : spreadOut([...spread, ...sparseGrid(sheet)], spread.length)
}

function placesOn(part: PlacedPart, net: string): ProbePlace[] {
  const pads = part.pads.filter((pad) => pad.net === net)
  if (pads.length > 0) return pads.map((pad) => ({ at: pad.at, label: padWords(part.ref, pad.number) }))
  const unnamed = part.pads.every((pad) => pad.net === undefined)
  return unnamed && TWO_ENDED.includes(part.kind) ? [{ at: part.placement.at, label: part.ref }] : []
}

const padWords = (ref: string, pad: string | undefined): string =>
  pad === undefined || pad === '' ? ref : say('{ref} pad {pad}', { ref, pad })

const wordsOf = ({ x, y }: Point): string =>
  say('via or pad near x {x}, y {y} mm', { x: decimals(x, 0), y: decimals(y, 0) })

const onSheet = (sheet: Sheet, places: readonly ProbePlace[]): ProbePlace[] =>
  places.filter(({ at }) => contactAt(sheet, at) !== undefined)

/** The first few as they are, then each time the one farthest from all that were chosen. */
function spreadOut(places: readonly ProbePlace[], keep: number): ProbePlace[] {
  const chosen = places.slice(0, Math.min(Math.max(1, keep), MOST_PLACES))
  const rest = places.slice(chosen.length)
  const away = rest.map(({ at }) => Math.min(...chosen.map((other) => distance(at, other.at))))
  while (chosen.length < MOST_PLACES && rest.length > 0) {
    let farthest = 0
    for (let i = 1; i < away.length; i++) if ((away[i] ?? 0) > (away[farthest] ?? 0)) farthest = i
    const next = rest[farthest]
    if (next === undefined || !((away[farthest] ?? 0) > 0)) break
    chosen.push(next)
    for (const [i, { at }] of rest.entries()) away[i] = Math.min(away[i] ?? 0, distance(at, next.at))
  }
  return chosen
}

function sparseGrid({ grid, cells }: Sheet): ProbePlace[] {
  const step = Math.max(1, Math.round(Math.sqrt(cells.length / MOST_PLACES)))
  return [...cells].flatMap((cell) => {
    const column = cell % grid.columns
    const row = (cell - column) / grid.columns
    if (column % step !== step >> 1 || row % step !== step >> 1) return []
    const at = cellCentre(grid, cell)
    return [{ at, label: wordsOf(at) }]
  })
}
