/** The setting that lifts a target with given equipment, or what is missing: searched on responses, proved by a full run. */
import { bad, good, type Fault, type Result } from '../base/index.ts'
import type { BoardModel, PlacedPart, Side } from '../board/index.ts'
import type { JointAlloy } from './assumptions.ts'
import { checkEquipment, type Equipment, type Nozzle } from './equipment.ts'
import type { HeatPlaces } from './films.ts'
import { respond } from './responses.ts'
import type { HeatRun, HeatSetting } from './result.ts'
import { type Candidate, searchSetting, type SearchOutcome, type StopReason } from './search.ts'
import { simulate } from './simulate.ts'
import { buildThermalBoard, type ThermalBoard } from './thermal-board.ts'
import { missesOf, type Wanted, wantedFor } from './wanted.ts'

export interface SettingWish {
  readonly ref: string
  /** The side that the air acts on; the part's own where left out. */
  readonly side?: Side
  readonly equipment: Equipment
  readonly jointAlloy?: JointAlloy
  readonly shields?: HeatSetting['shields']
  /** Tried alone where given; else up to three that fit the body, the smallest first. */
  readonly nozzle?: Nozzle
  /** Cell edge of the run that proves the setting, 1 mm where left out. */
  readonly cellMm?: number
  readonly onProgress?: (share: number) => void
  readonly signal?: { readonly aborted: boolean }
}

export type SettingAnswer = { readonly run: HeatRun } | { readonly cannot: readonly string[] }

const SEARCH_CELL_MM = 2
const SEARCH_STEP_S = 2
const CORRECTIONS = 3

/**
 * Preheat goes on for half of the time that J-STD-020 gives from room to peak; the rest is left to the air.
 * @returns a run that keeps every limit of `wantedFor`, with the smallest nozzle that can; or what is missing
 */
export function findSetting(model: BoardModel, wish: SettingWish): Result<SettingAnswer> {
  const part = model.partByRef.get(wish.ref)
  const faults: Fault[] = checkEquipment(model, wish.equipment)
  if (part === undefined)
    return bad(...faults, { path: '$.ref', found: wish.ref, expected: 'the ref of a part on the board' })
  if (faults.length > 0) return bad(...faults)
  const side = wish.side ?? part.side
  const options = { side, shields: wish.shields ?? [] }
  const coarse = buildThermalBoard(model, { ...options, cellMm: SEARCH_CELL_MM })
  const fine = buildThermalBoard(model, { ...options, cellMm: wish.cellMm ?? 1 })
  if (!coarse.ok) return coarse
  if (!fine.ok) return fine
  return tryNozzles(model, part, wish, side, coarse.value, fine.value)
}

function tryNozzles(
  model: BoardModel,
  part: PlacedPart,
  wish: SettingWish,
  side: Side,
  coarse: ThermalBoard,
  fine: ThermalBoard,
): Result<SettingAnswer> {
  const wanted = wantedFor(part, wish.jointAlloy)
  const preheatS = wanted.toPeakMostS / 2
  const index = model.parts.indexOf(part)
  const nozzles = wish.nozzle === undefined ? fittingNozzles(part, wish.equipment.nozzles) : [wish.nozzle]
  const cannot: string[] = []
  for (const [n, nozzle] of nozzles.entries()) {
    const places = placesFor(part, side, nozzle, wish.equipment)
    const responses = respond(coarse, places, index, preheatS, preheatS, SEARCH_STEP_S)
    const outcome = searchSetting(responses, wanted, wish.equipment)
    wish.onProgress?.((n + 0.5) / nozzles.length)
    if (outcome.best === undefined) {
      cannot.push(whyNot(nozzle, outcome, wanted, wish.equipment))
      continue
    }
    const proved = prove(fine, places, part.ref, outcome.best, wanted, preheatS, wish)
    if (!proved.ok) return proved
    wish.onProgress?.((n + 1) / nozzles.length)
    if ('run' in proved.value) return proved
    cannot.push(...proved.value.cannot.map((miss) => `Nozzle ${nozzle.name}: ${miss}`))
  }
  return good({ cannot })
}

/** The largest nozzle that is smaller than the body, then the two smallest that cover it. */
function fittingNozzles(part: PlacedPart, nozzles: readonly Nozzle[]): Nozzle[] {
  const bodyMm = Math.max(part.widthMm, part.lengthMm)
  const bySize = nozzles.toSorted((a, b) => a.sizeMm - b.sizeMm)
  const covering = bySize.filter(({ sizeMm }) => sizeMm >= bodyMm)
  const below = bySize.filter(({ sizeMm }) => sizeMm < bodyMm)
  return [...below.slice(-1), ...covering.slice(0, 2)]
}

function placesFor(part: PlacedPart, side: Side, nozzle: Nozzle, equipment: Equipment): HeatPlaces {
  const at = { x: (part.box.minX + part.box.maxX) / 2, y: (part.box.minY + part.box.maxY) / 2 }
  const { widthMm, lengthMm } = equipment.preheater
  return { side, nozzle, at, preheater: { at, widthMm, lengthMm } }
}

/** Runs the candidate in full and moves the air by what the coldest joint misses, a few times at most. */
function prove(
  board: ThermalBoard,
  places: HeatPlaces,
  ref: string,
  candidate: Candidate,
  wanted: Wanted,
  preheatS: number,
  wish: SettingWish,
): Result<SettingAnswer> {
  let airC = candidate.airC
  let misses: string[] = []
  for (let tries = 0; tries < CORRECTIONS; tries++) {
    const { preheatC, airS, airRamp } = candidate
    const setting = {
      ...places,
      preheatC: round(preheatC),
      preheatS,
      airC: round(airC),
      airS,
      airRamp: { ...airRamp, fromC: round(airRamp.fromC) },
    }
    const run = simulate(
      board,
      { ...setting, shields: board.shields },
      wish.signal === undefined ? {} : { signal: wish.signal },
    )
    if (!run.ok) return run
    misses = missesOf(run.value, ref, wanted)
    if (misses.length === 0) return good({ run: run.value })
    const heat = run.value.parts.find((part) => part.ref === ref)
    const off = wanted.coldestAimC - (heat?.coldestJointPeakC ?? wanted.coldestAimC)
    if (Math.abs(off) < 1) break
    airC = Math.min(wish.equipment.hotAir.maxC, airC + off / candidate.coldestPerAirC)
  }
  return good({ cannot: misses })
}

const round = (c: number): number => Math.round(c)

function whyNot(nozzle: Nozzle, outcome: SearchOutcome, wanted: Wanted, equipment: Equipment): string {
  const c = (value: number): string => `${value.toFixed(0)} °C`
  if (outcome.reachC < wanted.coldestAimC)
    return `Nozzle ${nozzle.name}: with air at ${c(equipment.hotAir.maxC)} and the preheater at up to ${c(equipment.preheater.maxC)} the coldest joint reaches ${c(outcome.reachC)} of the ${c(wanted.coldestAimC)} wanted: hotter air, a hotter or larger preheater, or a larger nozzle is missing.`
  const reason = outcome.stoppedBy.find((each) => each !== 'air' && each !== 'preheat') ?? outcome.stoppedBy[0]
  return `Nozzle ${nozzle.name}: ${reason === undefined ? 'no setting fits.' : stopWords[reason]}`
}

const stopWords: Record<StopReason, string> = {
  hottest:
    'its hottest joint passes the allowed peak before the coldest is molten: a larger nozzle or hotter preheat is missing.',
  body: 'the body passes its limit before the coldest joint is molten: hotter preheat from below is missing.',
  ramp: 'joints heat faster than allowed: hotter preheat, or air that comes up more slowly, is missing.',
  time: 'the joints can’t be kept molten for as long as J-STD-020 asks and no longer: more preheat is missing.',
  air: 'the air that is needed lies outside of what the hot-air station gives.',
  preheat: 'the preheater’s least setting already melts joints or heats too fast: a milder preheat is missing.',
}
