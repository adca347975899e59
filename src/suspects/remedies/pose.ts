/** From a weighed card and the price book to the question of the decision tree. */
import { type BoardModel, standsOnBoard } from '../../board/index.ts'
import type { CauseContext } from '../causes/context.ts'
import type { Harm } from '../causes/spills.ts'
import { comebackCost, isReballed, lossMoney, type Prices, riskOfLift, worthLost } from '../lift/costs.ts'
import { NEVER } from '../network/observations.ts'
import { liftWork, minutesToMoney, priceOf, refitWork } from '../prices/work.ts'
import type { LaneState } from '../result.ts'
import { lastLanes } from '../steps/last-lanes.ts'
import type { Weighed } from '../tell/weighed.ts'
import { type Cures, curesOf, refitDefect } from './figures.ts'
import { type Effort, massWith, type TreePart, type TreePlace, type TreeProblem } from './problem.ts'
import { touchOf, UNKNOWN, type WorldFault } from './fault-book.ts'
import { type Worlds, worldsOf } from './worlds.ts'

/** Parts that are tried in every order, places that may be put right, decisions that are looked ahead. */
const MOST_PARTS = 4
const MOST_PLACES = 3
const DEPTH = 4
/** Parts that need work with less than this chance are not in the question. */
const ASKED_FROM = 0.02
/** A wash that cures more seldom is no way to begin; before lifting, metal is taken up all the same. */
const LEAST_WASH = 0.1

/** How the work stands. */
export interface AtTheBench {
  /** The card was washed and dried. */
  readonly washed: boolean
  /** Metal that lay there was taken up by hand. */
  readonly takenUp: boolean
  /** Something was put right and not tested since. */
  readonly untested: boolean
  /** Refs that came off at any time. */
  readonly lifted: readonly string[]
  /** Those of them that are not refitted yet. */
  readonly offNow: readonly string[]
  /** Rails that read short as the card lies there. */
  readonly shorted?: readonly string[] | undefined
}

export interface Posed {
  readonly problem: TreeProblem
  readonly worlds: Worlds
}

/** @param listed refs that are asked about however unlikely they need work */
export function poseTree(
  weighed: Weighed,
  { washed, takenUp, lifted, offNow, shorted = [] }: AtTheBench,
  listed: readonly string[] = [],
): Posed {
  const { card, posterior, prices, spills, findings } = weighed
  const rounds = findings.rounds ?? []
  const last = lastLanes(findings)
  const failsNow = rounds.length > 0 && [...last.values()].includes('fail')
  const { model } = card.context
  const worlds = worldsOf({
    posterior,
    values: card.values,
    parts: card.parts,
    core: model.core?.ref,
    openAt: openAt(card.context, last),
    failsNow,
  })
  const faults = [...worlds.faults]
  const refs = [...new Set([...offNow, ...listed, ...likeliestParts(worlds)])]
  const parts = refs.flatMap(
    (ref) => treePart(model, prices, faults, ref, touchedWith(worlds, ref, model.core?.ref)) ?? [],
  )
  const hunt = effortIn(prices, prices.book.minutes.findShort)
  const isShort = (name: string): boolean => shorted.some((rail) => name === railName(rail))
  const places = likeliestPlaces(worlds, isShort).map((place) => (isShort(place.name) ? { ...place, hunt } : place))
  const harms = spills.map(({ harm = 'liquid' }) => harm)
  const cures = curesOf(harmOfAll(harms), weighed.assumptions.cures)
  const { book } = prices
  const { money, minutes } = book
  const open = bitOf(faults, 'open', '')
  const byHand = harms.includes('metal')
  const mayWash = byHand ? !takenUp : washDoes(cures, washed)
  const effort = (spent: number): Effort => effortIn(prices, spent)
  const problem = {
    faults,
    ...alikeTogether(worlds, parts, places, open),
    parts,
    places,
    placeEffort: effort(minutes.repairAround),
    wash: mayWash ? effort(byHand ? minutes.takeUpMetal : minutes.wash) : undefined,
    byHand,
    open,
    run: effort(minutes.run),
    prepare: effort(minutes.prepare),
    cures,
    giveUpCold: worthLost(money.valueAsIs, book),
    giveUpHot: worthLost(money.valueIfFailed, book),
    comeback: comebackCost(prices),
    begun: { off: bitsOf(parts, offNow), hot: lifted.length > 0 },
    depth: DEPTH,
    liftsBeyond: true,
  }
  return { problem, worlds }
}

const washDoes = ({ washBeneath }: Cures, washed: boolean): boolean => !washed && washBeneath >= LEAST_WASH

/** Of what lies under a part, the share that a wash in place cures; 0 where none is due any more, and for metal, which is taken up by hand. */
export function washedShare({ spills, assumptions }: Weighed, { washed, lifted }: AtTheBench): number {
  const harm = harmOfAll(spills.map(({ harm: of = 'liquid' }) => of))
  const cures = curesOf(harm, assumptions.cures)
  return harm !== 'metal' && lifted.length === 0 && washDoes(cures, washed) ? cures.washBeneath : 0
}

/** Packages on the board with a lane that fails by the newest run and whose track was not cleaned. */
function openAt({ model, observed }: CauseContext, last: ReadonlyMap<string, LaneState>): ReadonlySet<string> {
  const refs = new Set<string>()
  for (const [lane, state] of last) {
    const ref = model.laneById.get(lane)?.part
    const part = model.partByRef.get(ref ?? '')
    if (part === undefined || ref === undefined || !standsOnBoard(part)) continue
    if (state === 'fail' && observed.trackCleanFrom(lane) === NEVER) refs.add(ref)
  }
  return refs
}

const bitsOf = (parts: readonly TreePart[], refs: readonly string[]): number =>
  parts.reduce((bits, { ref }, at) => (refs.includes(ref) ? bits | (1 << at) : bits), 0)

/** Of several substances the one that a wash does least against; of none a liquid's, which is what nobody reports. */
function harmOfAll(harms: readonly Harm[]): Harm {
  if (harms.includes('metal')) return 'metal'
  return harms.length > 0 && harms.every((harm) => harm === 'crust') ? 'crust' : 'liquid'
}

function treePart(
  model: BoardModel,
  prices: Prices,
  faults: WorldFault[],
  ref: string,
  touches: number,
): TreePart | undefined {
  const part = model.partByRef.get(ref)
  if (part === undefined) return undefined
  const { book } = prices
  const fresh = refitWork(part, 'replace', book)
  const price = priceOf(part, book)
  return {
    ref,
    lift: liftWork(part, book),
    reball: isReballed(part) ? refitWork(part, 'reball', book) : undefined,
    replace: { minutes: fresh.minutes, money: fresh.money + price },
    lossChance: riskOfLift(part, prices),
    lossMoney: lossMoney(part, prices),
    lossEnds: part.kind === 'core',
    refitDefect: refitDefect(part.kind),
    die: bitOf(faults, 'die', ref),
    joints: bitOf(faults, 'joints', ref) || added(faults, { kind: 'joints', at: ref, touches }),
    beneath: bitOf(faults, 'beneath', ref),
    touches,
  }
}

/** Faults that nothing in the question cures count as unknown; worlds that are alike then are one. */
function alikeTogether(
  { sets, weights }: Worlds,
  parts: readonly TreePart[],
  places: readonly TreePlace[],
  open: number,
): Pick<TreeProblem, 'sets' | 'weights'> {
  const known =
    parts.reduce((bits, { die, joints, beneath }) => bits | die | joints | beneath, 0) |
    places.reduce((bits, { fault }) => bits | fault, 0) |
    open
  const together = new Map<number, number>()
  for (const [at, set] of sets.entries()) {
    const alike = (set & known) | ((set & ~known) === 0 ? 0 : UNKNOWN)
    together.set(alike, (together.get(alike) ?? 0) + (weights[at] ?? 0))
  }
  return { sets: Int32Array.from(together.keys()), weights: Float64Array.from(together.values()) }
}

function bitOf(faults: readonly WorldFault[], kind: WorldFault['kind'], at: string): number {
  const number = faults.findIndex((fault) => fault.kind === kind && fault.at === at)
  return number < 0 ? 0 : 1 << number
}

/** Faults are bits below the sign of a word, one of which says that something was put right. */
const MOST_BITS = 30

/** A part that is refitted may have joints that are open, whether or not they were before. */
function added(faults: WorldFault[], fault: WorldFault): number {
  return faults.length >= MOST_BITS ? 0 : 1 << (faults.push(fault) - 1)
}

/** Tracks of every package end at the core. */
function touchedWith({ failing, faults }: Worlds, ref: string, core: string | undefined): number {
  if (ref === core) return failing.reduce((bits, _, index) => bits | touchOf(index), 0)
  const own = failing.indexOf(ref)
  if (own >= 0) return touchOf(own)
  return faults.reduce((bits, { at, touches }) => (at === ref ? bits | touches : bits), 0)
}

function likeliestParts(worlds: Worlds): string[] {
  const need = new Map<string, number>()
  for (const [number, { kind, at }] of worlds.faults.entries()) {
    if (kind === 'beside' || kind === 'open' || kind === 'unknown') continue
    need.set(at, (need.get(at) ?? 0) | (1 << number))
  }
  return [...need]
    .map(([ref, bits]) => ({ ref, mass: massWith(worlds, bits) }))
    .filter(({ mass }) => mass >= ASKED_FROM)
    .toSorted((a, b) => b.mass - a.mass)
    .slice(0, MOST_PARTS)
    .map(({ ref }) => ref)
}

const effortIn = ({ book }: Prices, minutes: number): Effort => ({ minutes, money: minutesToMoney(minutes, book) })

/** A rail in the words of the stories. */
export const railName = (name: string): string => `rail ${name}`

/** What reads short comes first: it is known, however likely the rest. */
function likeliestPlaces(worlds: Worlds, isShort: (name: string) => boolean): TreePlace[] {
  return [...worlds.faults.entries()]
    .filter(([, { kind }]) => kind === 'beside')
    .map(([number, { at }]) => ({ name: at, fault: 1 << number }))
    .toSorted(
      (a, b) =>
        Number(isShort(b.name)) - Number(isShort(a.name)) || massWith(worlds, b.fault) - massWith(worlds, a.fault),
    )
    .slice(0, MOST_PLACES)
}
