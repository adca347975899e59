/** What the work on a card has come to so far, by the log and the price book, and what the next step adds. */
import type { BoardModel, PlacedPart } from '../../board/index.ts'
import type { Exposure } from '../../heat/index.ts'
import {
  type BenchTick,
  type PassEntry,
  type PlanStep,
  resolveShopSettings,
  type ShopSettings,
} from '../../plan/index.ts'
import {
  bondMinutes,
  handlingMinutes,
  isBonded,
  minutesToMoney,
  priceOf,
  reballMaterials,
} from '../../suspects/index.ts'
import { paceInForce } from '../own-record.ts'
import type { Case } from '../schema.ts'

export type PricedCase = Pick<Case, 'passes' | 'ticks' | 'shop' | 'handBack' | 'ownRecord' | 'assumptions'>

export interface Spent {
  readonly minutes: number
  /** Minutes at the shop's rate; without tax, as all of it. */
  readonly labour: number
  /** New parts and what the work uses up. */
  readonly parts: number
  readonly money: number
}

/** The shop's figures for a case; the shipped ones where those of the case can't be read. */
export function settingsOf(caseFile: Pick<Case, 'shop' | 'ownRecord' | 'assumptions'>): ShopSettings | undefined {
  const settings = resolveShopSettings({ ...caseFile.shop, pace: paceInForce(caseFile) })
  return settings.ok ? settings.value : undefined
}

/**
 * A logged pass takes its heat (as solved, else the book's minutes) and the handling; bench work that was ticked off takes
 * what the plan had for it. Minutes and parts that were noted at hand-back count where they are more.
 * @param exposures solved heat, where a plan is at hand
 */
export function spentSoFar(
  caseFile: PricedCase,
  model: BoardModel,
  exposures: readonly Pick<Exposure, 'target' | 'minutes'>[] = [],
): Spent {
  const settings = settingsOf(caseFile)
  if (settings === undefined) return { minutes: 0, labour: 0, parts: 0, money: 0 }
  const logged = loggedWork(caseFile, model, exposures)
  const { usedParts, minutes: noted = 0 } = caseFile.handBack
  const minutes = Math.max(logged.minutes, noted)
  const labour = minutesToMoney(minutes, settings)
  const parts = Math.max(
    logged.parts,
    usedParts.reduce((sum, { count, price }) => sum + count * price, 0),
  )
  return { minutes, labour, parts, money: labour + parts }
}

/** Bench minutes of log and ticks, and money for new parts and materials. */
export function loggedWork(
  caseFile: Omit<PricedCase, 'handBack'>,
  model: BoardModel,
  exposures: readonly Pick<Exposure, 'target' | 'minutes'>[] = [],
): LoggedWork {
  const settings = settingsOf(caseFile)
  if (settings === undefined) return nothing
  const heat = new Map(exposures.map(({ target, minutes }) => [target, minutes]))
  const bench = { model, settings, heat }
  const works = [
    ...caseFile.passes.map((pass) => passWork(pass, bench)),
    ...caseFile.ticks.map((tick) => tickWork(tick, bench)),
  ]
  return {
    minutes: works.reduce((sum, { minutes }) => sum + minutes, 0),
    parts: works.reduce((sum, { parts }) => sum + parts, 0),
  }
}

/** What a step of the plan adds once it is done: its bench time, and the new part where it fits one. Without tax. */
export function costOfStep(
  { cost, action, refs }: Pick<PlanStep, 'cost' | 'action' | 'refs'>,
  model: BoardModel,
  settings: ShopSettings,
): number {
  const fresh = action === 'replace' ? partsOf(model, refs) : []
  return fresh.reduce((sum, part) => sum + priceOf(part, settings), cost)
}

interface Bench {
  readonly model: BoardModel
  readonly settings: ShopSettings
  /** Solved minutes by ref. */
  readonly heat: ReadonlyMap<string, number>
}

export interface LoggedWork {
  readonly minutes: number
  readonly parts: number
}

const nothing: LoggedWork = { minutes: 0, parts: 0 }

function passWork({ action, refs, outcome, replaced }: PassEntry, { model, settings, heat }: Bench): LoggedWork {
  const parts = partsOf(model, refs)
  if (outcome === 'skipped' || parts.length === 0) return nothing
  const solved = Math.max(0, ...refs.map((ref) => heat.get(ref) ?? 0))
  const lifts = action === 'lift'
  const minutes =
    (solved > 0 ? solved : settings.minutes.heatUp) +
    handlingMinutes(parts, settings) +
    (lifts ? bondMinutes(parts, settings) : 0)
  const { fluxPerPass, bondRemoverPerPart } = settings.materials
  const used = fluxPerPass * parts.length + (lifts ? bondRemoverPerPart * parts.filter(isBonded).length : 0)
  const fresh = action === 'refit' && outcome === 'done' && replaced ? parts : []
  return { minutes, parts: fresh.reduce((sum, part) => sum + priceOf(part, settings), used) }
}

function tickWork({ action, refs, outcome, minutes }: BenchTick, { model, settings }: Bench): LoggedWork {
  if (outcome !== 'done') return nothing
  const { materials } = settings
  const parts = partsOf(model, refs)
  if (action === 'clean') return { minutes, parts: parts.length * (materials.solventPerSite + materials.wickPerSite) }
  if (action === 'reball')
    return { minutes, parts: parts.reduce((sum, part) => sum + reballMaterials(part, settings), 0) }
  return { minutes, parts: 0 }
}

const partsOf = (model: BoardModel, refs: readonly string[]): PlacedPart[] =>
  refs.flatMap((ref) => model.partByRef.get(ref) ?? [])
