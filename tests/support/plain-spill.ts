/**
 * A spill the plain way: everything that is not known is drawn by chance (place, amount, contact angle, which gaps are
 * shut), then marched once from where it landed. Shares the ground with the engine and nothing of how it sums; the march
 * here is a list of waiting cells, taken in the order of their effort.
 */
import {
  type Box,
  boxOf,
  cellAt,
  cellCentre,
  cellCount,
  distanceToSegment,
  type Point,
  polygonContains,
  type Random,
} from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import {
  behaviourOf,
  buildTerrain,
  meanDropHeightMm,
  puddleHeightMm,
  spillAssumptions,
  type SpillMark,
  type Substance,
  type Terrain,
} from '../../src/spill/index.ts'
import { unwrap } from './board-fixture.ts'

export interface PlainSpills {
  /** A place on the board, from the mark's distribution. */
  drawPlace(random: Random): Point
  /** Ids of the regions that a spill there reached, with everything else drawn. */
  reachedFrom(at: Point, random: Random): Set<string>
  /** True where something that lands gets onto the board. */
  lands(at: Point): boolean
}

interface RegionCells {
  readonly id: string
  readonly part: string
  readonly cells: readonly number[]
  readonly offsetMm: readonly number[]
}

export function plainSpills(model: BoardModel, mark: SpillMark, substance: Substance): PlainSpills {
  const behaviour = unwrap(behaviourOf(substance))
  const terrain = buildTerrain(model, {
    sides: [mark.side],
    bodies: behaviour.bodies,
    maskFilmMm: behaviour.filmMm,
    dams: [],
    cellMm: 1,
  })
  const regions = regionCellsOf(model, terrain, mark.side)
  const bodies = new Map(
    [...new Set(regions.map(({ part }) => part))].map((part) => [part, cellsUnder(model, terrain, part)]),
  )
  const lands = (at: Point): boolean => {
    const cell = cellAt(terrain.grid, at)
    return cell >= 0 && (terrain.landing[cell] ?? -1) >= 0
  }
  return {
    lands,
    drawPlace: (random) => {
      for (;;) {
        const place = { x: mark.at.x + mark.sdMm * random.normal(), y: mark.at.y + mark.sdMm * random.normal() }
        if (lands(place)) return place
      }
    },
    reachedFrom: (at, random) => {
      const slowness = terrain.slowness.slice()
      const shut = new Set<string>()
      for (const [part, cells] of bodies) {
        if (random.next() >= spillAssumptions.shutGapChance.value) continue
        shut.add(part)
        for (const cell of cells) slowness[cell] = Infinity
      }
      const open = regions.filter(({ part }) => !shut.has(part))
      return reachedBy({ ...terrain, slowness }, open, at, drawLoad(mark, substance, random), mark.downDeg)
    },
  }
}

interface PlainLoad {
  readonly volumeMm3: number
  readonly filmMm: number
  readonly capillaryLengthMm: number
}

function drawLoad({ amount, amountSdLog }: SpillMark, substance: Substance, random: Random): PlainLoad {
  const { contactAngleMaskDeg: angle, surfaceTensionNM, densityKgM3 } = substance
  if (!angle || !surfaceTensionNM || !densityKgM3 || !('volumeMl' in amount)) throw new Error('a volume of a liquid')
  // The range is read as the middle 90 %: 1.645 standard deviations to either side (tables of the normal distribution).
  const z = random.normal()
  const low = angle.low ?? angle.value
  const high = angle.high ?? angle.value
  const angleDeg = angle.value + (z / 1.645) * (z < 0 ? angle.value - low : high - angle.value)
  const front = spillAssumptions.frontSdLog.value
  const volumeMm3 = 1000 * amount.volumeMl * Math.exp(amountSdLog * random.normal() + front * random.normal())
  const puddleMm = puddleHeightMm(surfaceTensionNM.value, densityKgM3.value, angleDeg)
  return {
    volumeMm3,
    filmMm: meanDropHeightMm(volumeMm3, puddleMm, angleDeg),
    capillaryLengthMm: puddleMm / (2 * Math.sin((angleDeg * Math.PI) / 360)),
  }
}

function reachedBy(
  terrain: Terrain,
  regions: readonly RegionCells[],
  at: Point,
  load: PlainLoad,
  downDeg: number | undefined,
): Set<string> {
  const from = onOpenGround(terrain, at)
  const to = downDeg === undefined ? from : streakTo(terrain, from, downDeg, load)
  const { effortMm, radiusMm } = plainMarch(terrain, from, to, load)
  const reached = new Set<string>()
  for (const { id, cells, offsetMm } of regions) {
    const isReached = cells.some((cell, i) => (effortMm[cell] ?? Infinity) + (offsetMm[i] ?? 0) <= radiusMm)
    if (isReached) reached.add(id)
  }
  return reached
}

/** What lands on a shut body runs off it to the nearest open place. */
function onOpenGround({ grid, slowness }: Terrain, at: Point): Point {
  const under = cellAt(grid, at)
  if (slowness[under] !== Infinity) return at
  let nearest = at
  let least = Infinity
  for (let cell = 0; cell < cellCount(grid); cell++) {
    if (slowness[cell] === Infinity) continue
    const centre = cellCentre(grid, cell)
    const away = Math.hypot(centre.x - at.x, centre.y - at.y)
    if (away >= least) continue
    least = away
    nearest = centre
  }
  return nearest
}

/** Half of the volume fills a rivulet two capillary lengths wide: the assumption stands in the spill room. */
function streakTo({ grid, slowness }: Terrain, from: Point, downDeg: number, load: PlainLoad): Point {
  const lengthMm = (0.5 * load.volumeMm3) / (2 * load.capillaryLengthMm * load.filmMm)
  const down = { x: Math.cos((downDeg * Math.PI) / 180), y: Math.sin((downDeg * Math.PI) / 180) }
  let end = from
  for (let goneMm = 0.1; goneMm <= lengthMm; goneMm += 0.1) {
    const next = { x: from.x + goneMm * down.x, y: from.y + goneMm * down.y }
    const cell = cellAt(grid, next)
    if (cell < 0 || slowness[cell] === Infinity) break
    end = next
  }
  return end
}

function plainMarch(
  terrain: Terrain,
  from: Point,
  to: Point,
  load: PlainLoad,
): { effortMm: Float64Array; radiusMm: number } {
  const { grid, slowness, filmMm, underBody } = terrain
  const filmAt = (cell: number): number => (underBody[cell] === 1 ? (filmMm[cell] ?? 0) : load.filmMm)
  const waiting = new Waiting()
  const effortMm = new Float64Array(slowness.length).fill(Infinity)
  for (const cell of startingCells(terrain, from, to)) {
    const slow = slowness[cell] ?? Infinity
    if (slow !== Infinity) waiting.add(cell, slow * distanceToSegment(cellCentre(grid, cell), from, to))
  }
  const arrived: number[] = []
  let held = 0
  let lastMm = 0
  for (let cell = waiting.take(); cell >= 0; cell = waiting.take()) {
    const arrival = waiting.taken
    if (effortMm[cell] !== Infinity) continue
    // One cell further than where the last of it would find its place, because cells fill evenly while the front crosses.
    if (held >= load.volumeMm3 && arrival > lastMm + grid.cellMm) break
    effortMm[cell] = arrival
    arrived.push(cell)
    if (held < load.volumeMm3) lastMm = arrival
    held += grid.cellMm ** 2 * filmAt(cell)
    for (const next of [cell - 1, cell + 1, cell - grid.columns, cell + grid.columns]) {
      const step = (slowness[next] ?? Infinity) * grid.cellMm
      if (step === Infinity || effortMm[next] !== Infinity) continue
      waiting.add(next, upwind(effortMm, next, grid.columns, step))
    }
  }
  const heldWithin = (radiusMm: number): number => {
    let sum = 0
    for (const cell of arrived) {
      const share = (radiusMm - (effortMm[cell] ?? 0)) / ((slowness[cell] ?? 1) * grid.cellMm) + 0.5
      sum += grid.cellMm ** 2 * filmAt(cell) * Math.min(1, Math.max(0, share))
    }
    return sum
  }
  return { effortMm, radiusMm: bisect(heldWithin, load.volumeMm3, lastMm + grid.cellMm) }
}

/** Where a rising function of a length gets to a value, to a hundredth of a millimetre. */
function bisect(rising: (mm: number) => number, value: number, endMm: number): number {
  let [low, high] = [0, endMm]
  while (high - low > 0.01) {
    const middle = (low + high) / 2
    if (rising(middle) < value) low = middle
    else high = middle
  }
  return (low + high) / 2
}

function upwind(effortMm: Float64Array, cell: number, columns: number, step: number): number {
  const a = Math.min(effortMm[cell - 1] ?? Infinity, effortMm[cell + 1] ?? Infinity)
  const b = Math.min(effortMm[cell - columns] ?? Infinity, effortMm[cell + columns] ?? Infinity)
  if (Math.abs(a - b) >= step || a === Infinity || b === Infinity) return Math.min(a, b) + step
  return (a + b + Math.sqrt(2 * step * step - (a - b) ** 2)) / 2
}

/** Cells of a line or point, and those beside it where the ground is even, because there distances are exact. */
function startingCells({ grid, slowness }: Terrain, from: Point, to: Point): Set<number> {
  const lengthMm = Math.hypot(to.x - from.x, to.y - from.y)
  const cells = new Set<number>()
  const line = new Set<number>()
  const steps = Math.max(1, Math.ceil((40 * lengthMm) / grid.cellMm))
  const exactCells = lengthMm < grid.cellMm / 2 ? 4 : 2
  for (let k = 0; k <= steps; k++) {
    const share = k / steps
    const cell = cellAt(grid, { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) })
    if (line.has(cell)) continue
    line.add(cell)
    cells.add(cell)
    const around: number[] = []
    for (let row = -exactCells; row <= exactCells; row++) {
      for (let column = -exactCells; column <= exactCells; column++) around.push(cell + row * grid.columns + column)
    }
    if (around.every((other) => slowness[other] === slowness[cell])) for (const other of around) cells.add(other)
  }
  return cells
}

/** Cells that wait, lowest effort first; one that is offered twice waits twice. */
class Waiting {
  /** The effort of the cell that was taken last. */
  taken = 0
  private readonly cells: number[] = []
  private readonly efforts: number[] = []

  add(cell: number, effort: number): void {
    const { cells, efforts } = this
    let at = cells.push(cell) - 1
    efforts.push(effort)
    while (at > 0) {
      const above = (at - 1) >> 1
      if ((efforts[above] ?? 0) <= effort) break
      this.put(at, cells[above] ?? 0, efforts[above] ?? 0)
      at = above
    }
    this.put(at, cell, effort)
  }

  /** -1 when none waits. */
  take(): number {
    const { cells, efforts } = this
    const first = cells[0] ?? -1
    this.taken = efforts[0] ?? Infinity
    const cell = cells.pop() ?? -1
    const effort = efforts.pop() ?? Infinity
    if (cells.length === 0) return first
    let at = 0
    for (let below = 1; below < cells.length; below = 2 * at + 1) {
      if ((efforts[below + 1] ?? Infinity) < (efforts[below] ?? Infinity)) below++
      if ((efforts[below] ?? Infinity) >= effort) break
      this.put(at, cells[below] ?? 0, efforts[below] ?? 0)
      at = below
    }
    this.put(at, cell, effort)
    return first
  }

  private put(at: number, cell: number, effort: number): void {
    this.cells[at] = cell
    this.efforts[at] = effort
  }
}

function regionCellsOf(model: BoardModel, terrain: Terrain, side: string): RegionCells[] {
  const { grid } = terrain
  return model.regions
    .filter((region) => region.side === side)
    .map(({ id, part, polygon }) => {
      const cells: number[] = []
      const offsetMm: number[] = []
      const near = boxOf(polygon)
      for (let cell = 0; cell < cellCount(grid); cell++) {
        const centre = cellCentre(grid, cell)
        // what is farther from the box is farther from the region in it
        if (!isWithin(near, centre, grid.cellMm)) continue
        const away = polygonContains(polygon, centre) ? 0 : toEdge(polygon, centre)
        if (away > grid.cellMm) continue
        cells.push(cell)
        offsetMm.push(away * (terrain.slowness[cell] === Infinity ? 1 : (terrain.slowness[cell] ?? 1)))
      }
      return { id, part, cells, offsetMm }
    })
}

const isWithin = (box: Box, { x, y }: Point, marginMm: number): boolean =>
  x >= box.minX - marginMm && x <= box.maxX + marginMm && y >= box.minY - marginMm && y <= box.maxY + marginMm

const toEdge = (polygon: readonly Point[], point: Point): number =>
  Math.min(...polygon.map((corner, i) => distanceToSegment(point, corner, polygon[(i + 1) % polygon.length] ?? corner)))

function cellsUnder(model: BoardModel, { grid }: Terrain, ref: string): number[] {
  const outline = model.partByRef.get(ref)?.outline ?? []
  const box = boxOf(outline)
  const cells: number[] = []
  for (let cell = 0; cell < cellCount(grid); cell++) {
    const centre = cellCentre(grid, cell)
    if (isWithin(box, centre, 0) && polygonContains(outline, centre)) cells.push(cell)
  }
  return cells
}
