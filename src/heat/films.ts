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

export function filmsFor(board: ThermalBoard, places: HeatPlaces, phase: Phase): Films {
  const { grid, bodies } = board
  const cells = board.capacityJPerK.length
  const nodes = bodies.cell.length
  const films: Films = {
    cellLossWPerK: new Float64Array(cells),
    nodeLossWPerK: new Float64Array(nodes),
    cellPreheatWPerK: new Float64Array(cells),
    nodePreheatWPerK: new Float64Array(nodes),
    cellJetWPerK: new Float64Array(cells),
    nodeJetWPerK: new Float64Array(nodes),
  }
  const airSide = places.side === 'top' ? 0 : 1
  const jet = phase === 'air' ? jetFilm(board, places) : new Float64Array(cells)
  const tape = new Float64Array(cells).fill(1)
  for (let n = 0; n < nodes; n++) {
    if (bodies.side[n] === airSide)
      tape[bodies.cell[n] ?? 0] = Math.min(tape[bodies.cell[n] ?? 0] ?? 1, bodies.jetFactor[n] ?? 1)
  }
  for (let i = 0; i < cells; i++) {
    if (board.capacityJPerK[i] === 0) continue
    const heated = phase !== 'cool' && overPreheater(places, cellCentre(grid, i))
    const jetHere = (jet[i] ?? 0) * (tape[i] ?? 1)
    addFilm(films.cellLossWPerK, films.cellPreheatWPerK, films.cellJetWPerK, i, {
      airM2: (airSide === 0 ? board.bareTopM2[i] : board.bareBottomM2[i]) ?? 0,
      belowM2: (airSide === 0 ? board.bareBottomM2[i] : board.bareTopM2[i]) ?? 0,
      heated,
      jet: jetHere,
    })
  }
  for (let n = 0; n < nodes; n++) {
    const cell = bodies.cell[n] ?? 0
    const onAirSide = bodies.side[n] === airSide
    addFilm(films.nodeLossWPerK, films.nodePreheatWPerK, films.nodeJetWPerK, n, {
      airM2: onAirSide ? (bodies.areaM2[n] ?? 0) : 0,
      belowM2: onAirSide ? 0 : (bodies.areaM2[n] ?? 0),
      heated: phase !== 'cool' && overPreheater(places, cellCentre(grid, cell)),
      jet: (jet[cell] ?? 0) * (bodies.jetFactor[n] ?? 1),
    })
  }
  return films
}

interface Faces {
  readonly airM2: number
  readonly belowM2: number
  readonly heated: boolean
  readonly jet: number
}

function addFilm(loss: Float64Array, preheat: Float64Array, jetGain: Float64Array, i: number, faces: Faces): void {
  const still = heatAssumptions.stillAirWPerM2K.value
  const below = faces.heated ? heatAssumptions.preheaterWPerM2K.value : still
  loss[i] = faces.airM2 * (still + faces.jet) + faces.belowM2 * below
  preheat[i] = faces.heated ? faces.belowM2 * below : 0
  jetGain[i] = faces.airM2 * faces.jet
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

/** The jet's film in W/m²K per cell, the mean over a 4 by 4 raster of samples in it. */
function jetFilm(board: ThermalBoard, places: HeatPlaces): Float64Array {
  const { grid } = board
  const film = new Float64Array(board.capacityJPerK.length)
  const farMm = places.nozzle.sizeMm + FALL_OFFS * heatAssumptions.jetFallOffMm.value
  for (let i = 0; i < film.length; i++) {
    if (board.capacityJPerK[i] === 0) continue
    const { x, y } = cellCentre(grid, i)
    if (Math.hypot(x - places.at.x, y - places.at.y) > farMm) continue
    let sum = 0
    for (let k = 0; k < SAMPLES * SAMPLES; k++) {
      const dx = (((k % SAMPLES) + 0.5) / SAMPLES - 0.5) * grid.cellMm
      const dy = ((Math.floor(k / SAMPLES) + 0.5) / SAMPLES - 0.5) * grid.cellMm
      sum += jetAt(places, { x: x + dx, y: y + dy })
    }
    film[i] = sum / (SAMPLES * SAMPLES)
  }
  return film
}

/** Film of the jet at a point, W/m²K: full under the nozzle, falling as exp(-d/L) with the distance from its edge. */
export function jetAt(places: Pick<HeatPlaces, 'nozzle' | 'at'>, point: Point): number {
  const half = places.nozzle.sizeMm / 2
  const dx = Math.abs(point.x - places.at.x)
  const dy = Math.abs(point.y - places.at.y)
  const outside =
    places.nozzle.shape === 'round'
      ? Math.max(0, Math.hypot(dx, dy) - half)
      : Math.hypot(Math.max(0, dx - half), Math.max(0, dy - half))
  return heatAssumptions.jetWPerM2K.value * Math.exp(-outside / heatAssumptions.jetFallOffMm.value)
}
