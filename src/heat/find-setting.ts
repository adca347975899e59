/** The setting that lifts or refits what stands under one nozzle, or what is missing: searched on responses, proved by a full run. */
import { bad, type Box, boxOf, good, type Fault, type Result, say } from '../base/index.ts'
import { type BoardModel, type PlacedPart, type Side, standsOnBoard } from '../board/index.ts'
import { alloyOf, harmFromC, heatAssumptions, type JointAlloy } from './assumptions.ts'
import { nozzleFault } from './check-setting.ts'
import { checkEquipment, type Equipment, type Nozzle } from './equipment.ts'
import type { HeatPlaces } from './films.ts'
import { preheat, type Preheated, respond, type Responses } from './responses.ts'
import type { HeatRun, HeatSetting } from './result.ts'
import { type Candidate, type SearchNeighbour, searchSetting, type SearchOutcome, type StopReason } from './search.ts'
import { simulate } from './simulate.ts'
import { buildThermalBoard, overlapsBoard, type ThermalBoard } from './thermal-board.ts'
import { type HeatPurpose, missesOf, type Wanted, wantedFor } from './wanted.ts'

export interface SettingWish {
  readonly ref: string
  /** What the heat is for; lifting where left out. */
  readonly purpose?: HeatPurpose
  /** Lifted in the same pass, with the nozzle over the middle of them all; they stand on the same side as `ref`. */
  readonly together?: readonly string[]
  /** The side that the air acts on; the part's own where left out. */
  readonly side?: Side
  readonly equipment: Equipment
  readonly jointAlloy?: JointAlloy
  readonly shields?: HeatSetting['shields']
  /** Tried alone where given; else up to four that fit the body, or up to two that cover several. */
  readonly nozzle?: Nozzle
  /** Cell edge of the run that proves the setting, 1 mm where left out. */
  readonly cellMm?: number
  readonly onProgress?: (share: number) => void
  readonly signal?: { readonly aborted: boolean }
}

export type SettingAnswer = { readonly run: HeatRun } | { readonly cannot: readonly string[] }

const SEARCH_CELL_MM = 2
const SEARCH_STEP_S = 2
const CORRECTIONS = 6
const LONGER_S = 12

/** A part under the nozzle, and what is wanted of it. */
interface Target {
  readonly part: PlacedPart
  readonly wanted: Wanted
}

/** What every nozzle is tried with. */
interface Attempt {
  readonly model: BoardModel
  readonly wish: SettingWish
  readonly side: Side
  readonly targets: readonly Target[]
  readonly preheatS: number
  readonly coarse: ThermalBoard
  readonly fine: ThermalBoard
}

/**
 * Preheat goes on for half of the time that J-STD-020 gives from room to peak; the rest is left to the air. Several
 * targets share the nozzle: every limit has to hold on each of them.
 * @returns a run that keeps every limit of `wantedFor`, with the nozzle that spares the neighbours most; or what is missing
 */
export function findSetting(model: BoardModel, wish: SettingWish): Result<SettingAnswer> {
  const parts = partsUnder(model, wish)
  const faults: Fault[] = checkEquipment(model, wish.equipment)
  if (!parts.ok) return bad(...faults, ...parts.faults)
  if (faults.length > 0) return bad(...faults)
  const targets = parts.value.map((part) => ({
    part,
    wanted: wantedFor(part, wish.jointAlloy, wish.purpose ?? 'lift'),
  }))
  const side = wish.side ?? parts.value[0]?.side ?? 'top'
  const options = { side, shields: wish.shields ?? [] }
  const coarse = buildThermalBoard(model, { ...options, cellMm: SEARCH_CELL_MM })
  const fine = buildThermalBoard(model, { ...options, cellMm: wish.cellMm ?? 1 })
  if (!coarse.ok) return coarse
  if (!fine.ok) return fine
  const preheatS = Math.min(...targets.map(({ wanted }) => wanted.toPeakMostS)) / 2
  return tryNozzles({ model, wish, side, targets, preheatS, coarse: coarse.value, fine: fine.value })
}

/** The parts that are named, each once; a fault for each that is not there or stands on the other side of the board. */
function partsUnder(model: BoardModel, { ref, together = [] }: SettingWish): Result<PlacedPart[]> {
  const first = model.partByRef.get(ref)
  const faults: Fault[] = []
  if (first === undefined) faults.push({ path: '$.ref', found: ref, expected: say('the ref of a part on the board') })
  else if (!overlapsBoard(first, model)) faults.push(offTheBoard('$.ref', first))
  else if (!standsOnBoard(first)) faults.push(onTheCore('$.ref', first))
  for (const [i, other] of together.entries()) {
    const part = model.partByRef.get(other)
    const path = `$.together[${i}]`
    if (part === undefined) faults.push({ path, found: other, expected: say('the ref of a part on the board') })
    else if (first !== undefined && part.side !== first.side)
      faults.push({
        path,
        found: say('{other} on the {side, select, top {top} other {bottom}}', { other, side: part.side }),
        expected: say('a part on the {side, select, top {top} other {bottom}}, as {ref}', { side: first.side, ref }),
      })
    else if (!overlapsBoard(part, model)) faults.push(offTheBoard(path, part))
    else if (!standsOnBoard(part)) faults.push(onTheCore(path, part))
  }
  if (faults.length > 0) return bad(...faults)
  return good([...new Set([ref, ...together])].flatMap((each) => model.partByRef.get(each) ?? []))
}

const offTheBoard = (path: string, { ref, placement: { at } }: PlacedPart): Fault => ({
  path,
  found: say('{ref} at {x}, {y}', { ref, x: at.x, y: at.y }),
  expected: say('a part that stands on the board'),
  todo: say('Correct its place in the board file.'),
})

const onTheCore = (path: string, { ref, description }: PlacedPart): Fault => ({
  path,
  found: say('{ref}, which stands on {carriedBy}', { ref, carriedBy: description.carriedBy }),
  expected: say('a part with joints on the board'),
  todo: say('Only {carriedBy} with all that is on it comes off.', { carriedBy: description.carriedBy }),
})

function tryNozzles(attempt: Attempt): Result<SettingAnswer> {
  const { model, wish, targets, preheatS, coarse } = attempt
  const parts = targets.map(({ part }) => part)
  const indices = parts.map((part) => model.parts.indexOf(part))
  const nozzles = wish.nozzle === undefined ? fittingNozzles(parts, nozzlesFor(model, wish.equipment)) : [wish.nozzle]
  const neighbours = neighboursOf(model, parts)
  const watched = [...indices, ...neighbours.map((part) => model.parts.indexOf(part))]
  let warm: Preheated | undefined
  const cannot: string[] = []
  const found: { readonly nozzle: Nozzle; readonly places: HeatPlaces; readonly candidate: Candidate }[] = []
  for (const [n, nozzle] of nozzles.entries()) {
    if (wish.signal?.aborted === true)
      return bad({ path: '$.signal', found: say('a stop'), expected: say('a search to its end') })
    const places = placesFor(parts, attempt.side, nozzle, wish.equipment)
    // The plate stands where it stands, whatever nozzle comes after.
    warm ??= preheat(coarse, places, watched, preheatS, SEARCH_STEP_S)
    const responses = respond(coarse, places, watched, warm, preheatS, SEARCH_STEP_S)
    const searched = targets.flatMap(({ wanted }, i) => {
      const own = responses[i]
      return own === undefined ? [] : [{ responses: own, wanted }]
    })
    const beside = neighbours.flatMap((part, i) => {
      const own = responses[targets.length + i]
      return own === undefined ? [] : [neighbourOf(part, own)]
    })
    const outcome = searchSetting(searched, beside, wish.equipment)
    wish.onProgress?.((n + 1) / (nozzles.length + 1))
    if (outcome.candidates.length === 0) cannot.push(whyNot(nozzle, outcome, wish.equipment))
    for (const candidate of outcome.candidates.slice(0, PROVED_PER_NOZZLE)) found.push({ nozzle, places, candidate })
  }
  const cost = ({ nozzle, candidate }: (typeof found)[number]): number => candidate.score + rimCost(parts, nozzle)
  for (const { nozzle, places, candidate } of found.toSorted((a, b) => cost(a) - cost(b))) {
    const proved = prove(attempt, places, candidate)
    if (!proved.ok) return proved
    if ('run' in proved.value) {
      wish.onProgress?.(1)
      return proved
    }
    cannot.push(...proved.value.cannot.map((miss) => say('Nozzle {name}: {miss}', { name: nozzle.name, miss })))
  }
  if (nozzles.length === 0) cannot.push(say('A nozzle that covers them all is missing.'))
  return good({ cannot: [...new Set(cannot)] })
}

/** Of the settings that a nozzle has, so many are run in full before the next nozzle's turn. */
const PROVED_PER_NOZZLE = 3

/** A nozzle that is wider than its part by more than this on each side blows on what stands beside it. */
const RIM_MM = 5
const COST_PER_RIM_MM = 4

function rimCost(parts: readonly PlacedPart[], { sizeMm }: Nozzle): number {
  const { minX, maxX, minY, maxY } = boxAround(parts)
  const rimMm = (sizeMm - Math.max(maxX - minX, maxY - minY)) / 2
  return COST_PER_RIM_MM * Math.max(0, rimMm - RIM_MM)
}

const NEIGHBOURS_WITHIN_MM = 60
const MOST_NEIGHBOURS = 16

/** Packages with balls near the targets: what comes loose there or cracks is dear. The nearest so many. */
function neighboursOf(model: BoardModel, targets: readonly PlacedPart[]): PlacedPart[] {
  const far = ({ placement }: PlacedPart): number =>
    Math.min(...targets.map(({ placement: { at } }) => Math.hypot(placement.at.x - at.x, placement.at.y - at.y)))
  return model.parts
    .filter(
      (part) => (part.kind === 'memory' || part.kind === 'core') && standsOnBoard(part) && !targets.includes(part),
    )
    .filter((part) => far(part) <= NEIGHBOURS_WITHIN_MM)
    .toSorted((a, b) => far(a) - far(b))
    .slice(0, MOST_NEIGHBOURS)
}

function neighbourOf(part: PlacedPart, responses: Responses): SearchNeighbour {
  const alloy = alloyOf(part.description)
  return { responses, harmFromC: harmFromC(alloy), solidusC: heatAssumptions.alloys[alloy].solidusC }
}

/** Those that are no wider than the board. */
const nozzlesFor = (model: BoardModel, { nozzles }: Equipment): Nozzle[] =>
  nozzles.filter((nozzle) => nozzleFault(model, nozzle, '$') === undefined)

/** For one body the largest nozzle that is smaller than it, then the three smallest that cover it; for several two of these. */
function fittingNozzles(parts: readonly PlacedPart[], nozzles: readonly Nozzle[]): Nozzle[] {
  const bySize = nozzles.toSorted((a, b) => a.sizeMm - b.sizeMm)
  const [only, ...others] = parts
  if (only === undefined) return []
  if (others.length > 0) return bySize.filter((nozzle) => covers(nozzle, parts)).slice(0, 2)
  const bodyMm = Math.max(only.widthMm, only.lengthMm)
  const covering = bySize.filter(({ sizeMm }) => sizeMm >= bodyMm)
  const below = bySize.filter(({ sizeMm }) => sizeMm < bodyMm)
  return [...below.slice(-1), ...covering.slice(0, 3)]
}

function covers({ shape, sizeMm }: Nozzle, parts: readonly PlacedPart[]): boolean {
  const { minX, maxX, minY, maxY } = boxAround(parts)
  return sizeMm >= (shape === 'square' ? Math.max(maxX - minX, maxY - minY) : Math.hypot(maxX - minX, maxY - minY))
}

const boxAround = (parts: readonly PlacedPart[]): Box =>
  boxOf(
    parts.flatMap(({ box }) => [
      { x: box.minX, y: box.minY },
      { x: box.maxX, y: box.maxY },
    ]),
  )

function placesFor(parts: readonly PlacedPart[], side: Side, nozzle: Nozzle, equipment: Equipment): HeatPlaces {
  const box = boxAround(parts)
  const at = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
  const { widthMm, lengthMm } = equipment.preheater
  return { side, nozzle, at, preheater: { at, widthMm, lengthMm } }
}

/** Runs the candidate in full and moves the air by what the coldest joint misses, a few times at most. */
function prove(attempt: Attempt, places: HeatPlaces, candidate: Candidate): Result<SettingAnswer> {
  const { wish, targets, preheatS, fine } = attempt
  let { airC, airS } = candidate
  let misses: string[] = []
  for (let tries = 0; tries < CORRECTIONS; tries++) {
    const { preheatC, airRamp } = candidate
    const setting = {
      ...places,
      preheatC: round(preheatC),
      preheatS,
      airC: round(airC),
      airS,
      airRamp: { ...airRamp, fromC: round(airRamp.fromC) },
    }
    const run = simulate(
      fine,
      { ...setting, shields: fine.shields },
      wish.signal === undefined ? {} : { signal: wish.signal },
    )
    if (!run.ok) return run
    misses = targets.flatMap((target) => missesOn(run.value, target, targets.length))
    if (misses.length === 0) return good({ run: run.value })
    const off = Math.max(...targets.map((target) => lackK(run.value, target)))
    const short = Math.max(...targets.map((target) => lackS(run.value, target)))
    const over = Math.max(...targets.map((target) => overBodyK(run.value, target)))
    if (Math.abs(off) < 1 && short <= 0 && over <= 0) break
    if (over > 0) {
      // Milder air for longer brings the joints as far with a cooler body.
      airC -= over / candidate.coldestPerAirC
      airS += LONGER_S
      continue
    }
    if (Math.abs(off) >= 1) airC = Math.min(wish.equipment.hotAir.maxC, airC + off / candidate.coldestPerAirC)
    airS += Math.max(0, Math.ceil(short))
  }
  return good({ cannot: misses })
}

/** Each with the ref where there are several to tell apart. */
const missesOn = (run: HeatRun, { part, wanted }: Target, targetCount: number): string[] =>
  missesOf(run, part.ref, wanted).map((miss) => (targetCount > 1 ? `${part.ref}: ${miss}` : miss))

/** Kelvin that the coldest joint of a target is below what it was aimed at. */
function lackK(run: HeatRun, { part, wanted }: Target): number {
  const heat = run.parts.find(({ ref }) => ref === part.ref)
  return wanted.coldestAimC - (heat?.coldestJointPeakC ?? wanted.coldestAimC)
}

/** Kelvin that the body of a target is above its limit. */
function overBodyK(run: HeatRun, { part, wanted }: Target): number {
  const heat = run.parts.find(({ ref }) => ref === part.ref)
  return (heat?.bodyPeakC ?? 0) - wanted.bodyMostC
}

/** Seconds that the coldest joint of a target is molten less than it has to be. */
function lackS(run: HeatRun, { part, wanted }: Target): number {
  const heat = run.parts.find(({ ref }) => ref === part.ref)
  return wanted.aboveLeastS - (heat?.coldestAboveLiquidusS ?? 0)
}

const round = (c: number): number => Math.round(c)

function whyNot(nozzle: Nozzle, outcome: SearchOutcome, equipment: Equipment): string {
  const c = (value: number): string => `${value.toFixed(0)} °C`
  if (outcome.reachC < outcome.aimC)
    return say(
      'Nozzle {name}: with air at {maxC} and the preheater at up to {maxC2} the coldest joint reaches {reachC} of the {aimC} wanted: hotter air, a hotter or larger preheater, or a larger nozzle is missing.',
      {
        name: nozzle.name,
        maxC: c(equipment.hotAir.maxC),
        maxC2: c(equipment.preheater.maxC),
        reachC: c(outcome.reachC),
        aimC: c(outcome.aimC),
      },
    )
  const reason = outcome.stoppedBy.find((each) => each !== 'air' && each !== 'preheat') ?? outcome.stoppedBy[0]
  return say('Nozzle {name}: {stopWords}', {
    name: nozzle.name,
    stopWords: reason === undefined ? say('no setting fits.') : stopWords[reason],
  })
}

const stopWords: Record<StopReason, string> = {
  hottest: say(
    'its hottest joint passes the allowed peak before the coldest is molten: a larger nozzle or hotter preheat is missing.',
  ),
  body: say('the body passes its limit before the coldest joint is molten: hotter preheat from below is missing.'),
  ramp: say('joints heat faster than allowed: hotter preheat, or air that comes up more slowly, is missing.'),
  time: say('the joints can’t be kept molten for as long as is wanted and no longer: more preheat is missing.'),
  air: say('the air that is needed lies outside of what the hot-air station gives.'),
  preheat: say('the preheater’s least setting already melts joints or heats too fast: a milder preheat is missing.'),
}
