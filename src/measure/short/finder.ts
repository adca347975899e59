/** One rail's copper, kept with every potential that was solved on it, so that another reading costs one more solve. */
import { bad, cellAt, cellCentre, distance, type Fault, good, type Point, type Result, say } from '../../base/index.ts'
import type { BoardModel, Rail, Side } from '../../board/index.ts'
import type { ShortHunt } from '../schema.ts'
import { shortAssumptions } from './assumptions.ts'
import { type Contact, contactAt, valueAtContact } from './contact.ts'
import { copperOf, type RailCopper } from './copper.ts'
import type { Drop } from './likelihood.ts'
import { probePlaces } from './places.ts'
import type { ProbePlace } from './result.ts'
import { type Sheet, sheetsOf } from './sheet.ts'
import { createSolver, type Solver } from './solve.ts'

/** A connected piece of a rail's copper that answers for potentials between its points. */
export interface Piece {
  readonly sheet: Sheet
  /**
   * The field of a contact: potential at each node for 1 A into the contact that leaves evenly everywhere, mV per A. By
   * reciprocity its value at a node is as well what the contact reads for 1 A into that node, up to a constant.
   */
  fieldOf(contact: Contact): Float64Array
  placesOn(side: Side): readonly ProbePlace[]
}

export interface RailSheets {
  readonly rail: Rail
  readonly copper: RailCopper
  /** Resistance of a square, milliohm: of the piece with most copper above it. */
  readonly sheetMilliohm: number
  readonly pieces: readonly Piece[]
}

export interface ShortFinder {
  /** Refuses a rail that the board does not have, or one without parts, points and copper. */
  sheetsFor(hunt: Pick<ShortHunt, 'rail' | 'sheetMilliohm'>): Result<RailSheets>
  readonly model: BoardModel
}

/** Rails kept at once: each holds some 50 fields of some 14,000 cells. */
const MOST_KEPT = 3

export interface FinderOptions {
  /** Width of a cell, mm; chosen by the size of the copper where left out. */
  readonly cellMm?: number
}

/**
 * A finder for one board with nothing solved yet. Refuses, when asked, a rail that the board does not have or that
 * has no copper on it. Of the rails asked for, the first is dropped when there are too many.
 */
export function createShortFinder(model: BoardModel, options: FinderOptions = {}): ShortFinder {
  const kept = new Map<string, RailSheets>()
  return {
    model,
    sheetsFor: ({ rail: name, sheetMilliohm }) => {
      const key = `${sheetMilliohm ?? 'weight'} ${name}`
      const known = kept.get(key)
      if (known !== undefined) return good(known)
      const built = railSheets(model, name, sheetMilliohm, options)
      if (!built.ok) return built
      const oldest = kept.keys().next().value
      if (kept.size >= MOST_KEPT && oldest !== undefined) kept.delete(oldest)
      kept.set(key, built.value)
      return built
    },
  }
}

function railSheets(
  model: BoardModel,
  name: string,
  sheetMilliohm: number | undefined,
  { cellMm }: FinderOptions,
): Result<RailSheets> {
  const rail = model.rails.find((each) => each.name === name)
  if (rail === undefined) return bad(noRail(name))
  const found = copperOf(model, rail)
  const copper = found === undefined || sheetMilliohm === undefined ? found : measured(found, sheetMilliohm)
  const sheets = copper === undefined ? [] : sheetsOf(model, copper, cellMm)
  if (copper === undefined || sheets.length === 0) return bad(noCopper(name))
  const pieces = sheets.map((sheet) => pieceOf(model, rail, sheet))
  return good({ rail, copper, sheetMilliohm: 1 / Math.max(...copper.pieces.map((p) => p.perMilliohm)), pieces })
}

/** Somebody measured a square: that holds wherever there is copper. */
function measured(copper: RailCopper, sheetMilliohm: number): RailCopper {
  const pieces = copper.pieces.map(({ polygon }) => ({ polygon, perMilliohm: 1 / sheetMilliohm }))
  return { ...copper, pieces }
}

function pieceOf(model: BoardModel, rail: Rail, sheet: Sheet): Piece {
  let solver: Solver | undefined
  const fields = new Map<string, Float64Array>()
  const places = new Map<Side, readonly ProbePlace[]>()
  return {
    sheet,
    fieldOf: (contact) => {
      const key = contact.nodes.map((node, i) => `${node}*${contact.weights[i]}`).join()
      const known = fields.get(key)
      if (known !== undefined) return known
      solver ??= createSolver(sheet)
      const currents = new Float64Array(sheet.cells.length)
      for (const [i, node] of contact.nodes.entries()) currents[node] = contact.weights[i] ?? 0
      const field = solver.potentials(currents)
      fields.set(key, field)
      return field
    },
    placesOn: (side) => {
      const known = places.get(side) ?? probePlaces(model, rail, sheet, side)
      places.set(side, known)
      return known
    },
  }
}

/** For each node as the place of the short: what a point reads, up to a constant of the node. */
export function dropAt(
  sheets: RailSheets,
  piece: Piece,
  at: Point,
  source: Contact,
  currentA: number,
): Drop | undefined {
  const contact = contactAt(piece.sheet, at)
  if (contact === undefined) return undefined
  const field = piece.fieldOf(contact)
  const atSource = valueAtContact(field, source)
  const millivolt = new Float64Array(field.length)
  for (let node = 0; node < field.length; node++) millivolt[node] = currentA * (atSource - (field[node] ?? 0))
  const { grid, nodeOf } = piece.sheet
  const near = Math.max(shortAssumptions.nearShortMm, grid.cellMm)
  // V = (R I / 2 pi) ln r about a sink: a factor e in r is R I / 2 pi.
  const variance = ((sheets.sheetMilliohm * currentA) / (2 * Math.PI)) ** 2
  const looser = new Map<number, number>()
  for (const cell of cellsWithin(grid, at, near)) {
    const node = nodeOf[cell] ?? -1
    if (node >= 0) looser.set(node, variance)
  }
  return { millivolt, looser }
}

function cellsWithin(grid: Sheet['grid'], at: Point, radiusMm: number): number[] {
  const cells: number[] = []
  const steps = Math.ceil(radiusMm / grid.cellMm)
  for (let up = -steps; up <= steps; up++)
    for (let across = -steps; across <= steps; across++) {
      const cell = cellAt(grid, { x: at.x + across * grid.cellMm, y: at.y + up * grid.cellMm })
      if (cell >= 0 && distance(cellCentre(grid, cell), at) <= radiusMm) cells.push(cell)
    }
  return cells
}

/**
 * The piece that a point touches, the largest where several are near; undefined where none is as near as a pad hangs
 * from its plane.
 */
export function pieceAt(sheets: RailSheets, at: Point): { piece: Piece; contact: Contact } | undefined {
  for (const piece of sheets.pieces) {
    const contact = contactAt(piece.sheet, at)
    if (contact !== undefined) return { piece, contact }
  }
  return undefined
}

/** Standard deviation of a reading: the meter's and what the drawn shape leaves out. */
export function readingSdMillivolt(sheets: RailSheets, hunt: Pick<ShortHunt, 'noiseMillivolt' | 'currentA'>): number {
  const { drawnShapeShare, assumedShapeShare } = shortAssumptions
  const share = sheets.copper.from === 'drawn' ? drawnShapeShare : assumedShapeShare
  return Math.hypot(hunt.noiseMillivolt, share * hunt.currentA * sheets.sheetMilliohm)
}

const noRail = (name: string): Fault => ({
  path: 'the hunt’s rail',
  found: name,
  expected: say('a rail of this board'),
  todo: say('Start the hunt again on a rail of this board.'),
})

const noCopper = (name: string): Fault => ({
  path: `rail ${name}`,
  found: say('neither copper nor parts on the board'),
  expected: say('copper to search in'),
  todo: say('Draw the rail’s copper in the board description.'),
})
