/** What the air does to each cell and body in one phase of a pass: film conductances and the heat that they'd bring. */
import { cellCentre, type Point } from '../base/index.ts'
import { heatAssumptions } from './assumptions.ts'
import type { HeatSetting } from './result.ts'
import type { ThermalBoard } from './thermal-board.ts'

/**
 * Newton cooling: heat into cell i is gain[i] - loss[i]·T, in W with T as rise above the room; nodes likewise.
 * Gains are split by what drives them, so that a run is linear in the preheat's and the jet's rise.
 */
export interface Films {
  readonly cellLossWPerK: Float64Array
  readonly nodeLossWPerK: Float64Array
  /** The part of the loss that goes to still air, not back to plate or jet. */
  readonly cellStillWPerK: Float64Array
  readonly nodeStillWPerK: Float64Array
  /** W per K of rise of the plate or air below. */
  readonly cellPreheatWPerK: Float64Array
  readonly nodePreheatWPerK: Float64Array
  /** W per K of rise of the jet at the board. */
  readonly cellJetWPerK: Float64Array
  readonly nodeJetWPerK: Float64Array
}

export type Phase = 'preheat' | 'air' | 'cool'

/** Rise of the jet at the board above the room, K: less than set, as air mixes on its way. */
export const jetRiseK = (airC: number): number =>
  (airC - heatAssumptions.ambientC.value) * heatAssumptions.jetDelivery.value

/** Where heat comes from in a pass, without its temperatures. */
export type HeatPlaces = Pick<HeatSetting, 'side' | 'nozzle' | 'at' | 'preheater'>

/**
 * Film conductances of every cell and node in W/K for one phase, and how much of each couples to the preheater and to
 * the jet. The jet blows in `air` only and the preheater is off in `cool`; a body with tape or a shield also lessens
 * the jet on the bare board of its cell.
 */
export function filmsFor(board: ThermalBoard, places: HeatPlaces, phase: Phase): Films {
  const { grid, bodies } = board
  const cells = board.capacityJPerK.length
  const nodes = bodies.cell.length
  const films: Films = {
    cellLossWPerK: new Float64Array(cells),
    nodeLossWPerK: new Float64Array(nodes),
    cellStillWPerK: new Float64Array(cells),
    nodeStillWPerK: new Float64Array(nodes),
    cellPreheatWPerK: new Float64Array(cells),
    nodePreheatWPerK: new Float64Array(nodes),
    cellJetWPerK: new Float64Array(cells),
    nodeJetWPerK: new Float64Array(nodes),
  }
  const airSide = places.side === 'top' ? 0 : 1
  const jet = jetFilm(board, phase === 'air' ? places : undefined)
  const tape = new Float64Array(cells).fill(1)
  for (let n = 0; n < nodes; n++) {
    const cell = bodies.cell[n] ?? 0
    if (bodies.side[n] === airSide) tape[cell] = Math.min(tape[cell] ?? 1, bodies.jetFactor[n] ?? 1)
  }
  const bare = airSide === 0 ? [board.bareTopM2, board.bareBottomM2] : [board.bareBottomM2, board.bareTopM2]
  const onCells = {
    loss: films.cellLossWPerK,
    still: films.cellStillWPerK,
    preheat: films.cellPreheatWPerK,
    jet: films.cellJetWPerK,
  }
  const onNodes = {
    loss: films.nodeLossWPerK,
    still: films.nodeStillWPerK,
    preheat: films.nodePreheatWPerK,
    jet: films.nodeJetWPerK,
  }
  const heated = new Uint8Array(cells)
  for (let i = 0; i < cells; i++) {
    if (board.capacityJPerK[i] === 0) continue
    heated[i] = phase !== 'cool' && overPreheater(places, cellCentre(grid, i)) ? 1 : 0
    const film = { film: (jet.film[i] ?? 0) * (tape[i] ?? 1), supply: (jet.supply[i] ?? 0) * (tape[i] ?? 1) }
    addFilm(onCells, i, { airM2: bare[0]?.[i] ?? 0, belowM2: bare[1]?.[i] ?? 0, isHeated: heated[i] === 1, ...film })
  }
  for (let n = 0; n < nodes; n++) {
    const cell = bodies.cell[n] ?? 0
    const area = bodies.areaM2[n] ?? 0
    const factor = bodies.jetFactor[n] ?? 1
    const onAirSide = bodies.side[n] === airSide
    addFilm(onNodes, n, {
      airM2: onAirSide ? area : 0,
      belowM2: onAirSide ? 0 : area,
      isHeated: heated[cell] === 1,
      film: (jet.film[cell] ?? 0) * factor,
      supply: (jet.supply[cell] ?? 0) * factor,
    })
  }
  return films
}

interface Faces {
  readonly airM2: number
  readonly belowM2: number
  readonly isHeated: boolean
  /** Of the jet, W/m²K; its supply is the film times the share of the jet's rise that is left there. */
  readonly film: number
  readonly supply: number
}

type Arrays = Readonly<Record<'loss' | 'still' | 'preheat' | 'jet', Float64Array>>

function addFilm(into: Arrays, i: number, faces: Faces): void {
  const still = heatAssumptions.stillAirWPerM2K.value
  const plate = faces.isHeated ? heatAssumptions.preheaterWPerM2K.value : 0
  const below = faces.isHeated ? 0 : still
  into.still[i] = faces.airM2 * still + faces.belowM2 * below
  into.preheat[i] = faces.belowM2 * plate
  into.jet[i] = faces.airM2 * faces.supply
  into.loss[i] = (into.still[i] ?? 0) + (into.preheat[i] ?? 0) + faces.airM2 * faces.film
}

function overPreheater({ preheater }: HeatPlaces, point: Point): boolean {
  if (preheater === undefined) return true
  return (
    Math.abs(point.x - preheater.at.x) <= preheater.widthMm / 2 &&
    Math.abs(point.y - preheater.at.y) <= preheater.lengthMm / 2
  )
}

const SAMPLES = 4
/** Beyond so many fall-off lengths the jet's film is under a thousandth of its full value, and is left out. */
const FALL_OFFS = 7

interface Jet {
  /** W/m²K per cell, and the same times the share of the jet's rise that is left there. */
  readonly film: Float64Array
  readonly supply: Float64Array
}

/** The jet over each cell, the mean over a 4 by 4 raster of samples in it; none without places. */
function jetFilm(board: ThermalBoard, places: HeatPlaces | undefined): Jet {
  const { grid } = board
  const film = new Float64Array(board.capacityJPerK.length)
  const supply = new Float64Array(film.length)
  if (places === undefined) return { film, supply }
  const farMm = places.nozzle.sizeMm + FALL_OFFS * heatAssumptions.jetFallOffMm.value
  for (let i = 0; i < film.length; i++) {
    if (board.capacityJPerK[i] === 0) continue
    const { x, y } = cellCentre(grid, i)
    if (Math.hypot(x - places.at.x, y - places.at.y) > farMm) continue
    for (let k = 0; k < SAMPLES * SAMPLES; k++) {
      const dx = (((k % SAMPLES) + 0.5) / SAMPLES - 0.5) * grid.cellMm
      const dy = ((Math.floor(k / SAMPLES) + 0.5) / SAMPLES - 0.5) * grid.cellMm
      const { filmWPerM2K, riseShare } = jetAt(places, { x: x + dx, y: y + dy })
      film[i] = (film[i] ?? 0) + filmWPerM2K / SAMPLES ** 2
      supply[i] = (supply[i] ?? 0) + (filmWPerM2K * riseShare) / SAMPLES ** 2
    }
  }
  return { film, supply }
}

/**
 * The jet at a point. Under the nozzle: full film and full rise; outside both fall with the distance d from its edge,
 * the film as exp(-d/L), the air's rise as exp(-d/M) as room air mixes in.
 */
export function jetAt(
  places: Pick<HeatPlaces, 'nozzle' | 'at'>,
  point: Point,
): { filmWPerM2K: number; riseShare: number } {
  const half = places.nozzle.sizeMm / 2
  const dx = Math.abs(point.x - places.at.x)
  const dy = Math.abs(point.y - places.at.y)
  const outside =
    places.nozzle.shape === 'round'
      ? Math.max(0, Math.hypot(dx, dy) - half)
      : Math.hypot(Math.max(0, dx - half), Math.max(0, dy - half))
  return {
    filmWPerM2K: heatAssumptions.jetWPerM2K.value * Math.exp(-outside / heatAssumptions.jetFallOffMm.value),
    riseShare: Math.exp(-outside / heatAssumptions.jetMixingMm.value),
  }
}
