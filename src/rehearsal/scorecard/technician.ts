/**
 * A technician who does what is proposed first, sees what comes of it, and asks again, until nothing more is proposed. Pays
 * minutes for each check, each lift and each test after it; and for what was left, a comeback with its lifts.
 */
import { lineStates } from '../../measure/index.ts'
import type { AreaMark } from '../../spill/index.ts'
import { checkById, type CheckEntry, defaultPriceBook } from '../../suspects/index.ts'
import { edgesToLook } from '../simulator/looks.ts'
import type { FoundUnder, SimulatedCard } from '../simulator/types.ts'
import { type Action, isWorkedOn, type Known, ZEROED } from './ask.ts'
import type { Prices } from './rules.ts'

export interface StepsScore {
  readonly cost: number
  /** The same without the last test: everybody proves a card before it goes out, and the other costs leave that out. */
  readonly costBesideProof: number
  readonly minutesOfChecks: number
  readonly checks: number
  readonly rounds: number
  readonly lifted: readonly string[]
  readonly comeback: boolean
  /** What was done, in order: `press U13`, `lift U13 U14`. */
  readonly done: readonly string[]
}

/** Nobody goes on for ever. */
const MOST_ACTIONS = 40

export type Proposer = (known: Known) => Action

interface Bench {
  readonly known: Known
  readonly lifted: readonly string[]
  /** Rails that were gone into and put right: `rail VMEM`. */
  readonly goneInto: readonly string[]
  readonly cost: number
  readonly minutesOfChecks: number
  readonly checks: number
  readonly rounds: number
  readonly done: readonly string[]
}

const handBack: Proposer = () => ({ kind: 'hand-back' })

/** @param otherwise what is done where a check is proposed that was done already since the last lift */
export function workInSteps(
  card: SimulatedCard,
  known: Known,
  propose: Proposer,
  prices: Prices,
  otherwise: Proposer = handBack,
): StepsScore {
  let bench: Bench = { known, lifted: [], goneInto: [], cost: 0, minutesOfChecks: 0, checks: 0, rounds: 0, done: [] }
  for (let action = 0; action < MOST_ACTIONS; action++) {
    const proposed = propose(bench.known)
    const next = isDoneAlready(bench, proposed) ? otherwise(bench.known) : proposed
    if (next.kind === 'hand-back') break
    bench = after(card, bench, next, prices)
  }
  return handedBack(card, bench, prices)
}

function after(card: SimulatedCard, bench: Bench, action: Work, prices: Prices): Bench {
  if (action.kind === 'check') return afterCheck(card, bench, action, prices)
  if (action.kind === 'run-again') return afterRunAgain(card, bench, prices)
  return action.kind === 'lift'
    ? afterLift(card, bench, action.refs, prices)
    : afterPutRight(card, bench, action.names, prices)
}

type Work = Exclude<Action, { kind: 'hand-back' }>

/** A reading that says nothing, as one of a stage whose siblings are all as low, would be proposed for ever. */
function isDoneAlready({ done }: Bench, action: Action): boolean {
  if (action.kind !== 'check') return false
  const lastLift = done.findLastIndex((each) => each.startsWith('lift '))
  return done.slice(lastLift + 1).includes(nameOf(action))
}

const nameOf = ({ check, at }: Extract<Action, { kind: 'check' }>): string => `${check} ${at}`

function handedBack({ truth }: SimulatedCard, bench: Bench, { liftCost, comeback, minute }: Prices): StepsScore {
  const missed = truth.needs.filter((ref) => !bench.lifted.includes(ref))
  const later = missed.reduce((sum, ref) => sum + liftCost(ref), missed.length > 0 ? comeback : 0)
  const { minutesOfChecks, checks, rounds, lifted, done } = bench
  const cost = bench.cost + later
  const proof = rounds > 0 ? defaultPriceBook.minutes.run * minute : 0
  const costBesideProof = cost - proof
  return { cost, costBesideProof, minutesOfChecks, checks, rounds, lifted, comeback: missed.length > 0, done }
}

function afterLift(card: SimulatedCard, bench: Bench, refs: readonly string[], prices: Prices): Bench {
  const lifted = [...new Set([...bench.lifted, ...refs])]
  const found = card.lift(refs)
  const paid = refs.reduce((sum, ref) => sum + prices.liftCost(ref), defaultPriceBook.minutes.run * prices.minute)
  const areas = [...bench.known.areas, ...found.flatMap((under) => marksUnder(card, under))]
  const rounds = [
    ...bench.known.rounds,
    { lifted: [...refs], putRight: mendedInPassing(card, bench.known), lanes: card.retest(lifted, bench.goneInto) },
  ]
  return {
    ...bench,
    known: { ...bench.known, areas, rounds },
    lifted,
    cost: bench.cost + paid,
    rounds: bench.rounds + 1,
    done: [...bench.done, `lift ${refs.join(' ')}`],
  }
}

/** Goes into the rails and tracks that were named, mends them, and runs the test again. */
function afterPutRight(card: SimulatedCard, bench: Bench, names: readonly string[], { minute }: Prices): Bench {
  const gone = [...bench.goneInto, ...names.filter((name) => name.startsWith('rail '))]
  const putRight = [...gone, ...mendedInPassing(card, bench.known)]
  const round = { lifted: [], putRight, lanes: card.retest(bench.lifted, gone) }
  return {
    ...bench,
    goneInto: gone,
    known: { ...bench.known, rounds: [...bench.known.rounds, round] },
    cost: bench.cost + (defaultPriceBook.minutes.run + defaultPriceBook.minutes.repairAround * names.length) * minute,
    rounds: bench.rounds + 1,
    done: [...bench.done, `put right ${names.join(', ')}`],
  }
}

/** The same test once more: the first may have missed what fails now and then, or have passed some lanes over. */
function afterRunAgain(card: SimulatedCard, bench: Bench, { minute }: Prices): Bench {
  const { lifted, goneInto } = bench
  const round = { lifted: [], lanes: card.retest(lifted, goneInto.length > 0 ? goneInto : undefined) }
  return {
    ...bench,
    known: { ...bench.known, rounds: [...bench.known.rounds, round] },
    cost: bench.cost + defaultPriceBook.minutes.run * minute,
    rounds: bench.rounds + 1,
    done: [...bench.done, 'run again'],
  }
}

/** Cut tracks, what a marked slip hit, rails that read off: seen and mended by whoever works on the card. */
export function mendedInPassing({ model }: SimulatedCard, { slips, measurements }: Known): string[] {
  const { rails } = lineStates(model, measurements, [], ZEROED)
  return [
    ...model.lanes.map(({ id }) => id),
    ...slips.map(({ id }) => `slip ${id}`),
    ...[...rails].flatMap(([name, state]) => (state === 'fine' ? [] : [`rail ${name}`])),
  ]
}

/** Film is marked where it lies, at most in so many places of one part; a clean field by one mark in its middle. */
const MARKS_UNDER = 2

/**
 * Area marks of 1.5 mm on the part's side, in at most two regions that were wet, or one clean mark in the middle.
 * None for a part that is neither memory nor core.
 */
export function marksUnder({ model }: SimulatedCard, { ref, wet }: FoundUnder): AreaMark[] {
  const part = model.partByRef.get(ref)
  if (part === undefined || (part.kind !== 'memory' && part.kind !== 'core')) return []
  const mark = { side: part.side, radiusMm: 1.5 }
  if (wet.length === 0) return [{ kind: 'clean', id: `under-${ref}`, at: part.placement.at, ...mark }]
  return wet.slice(0, MARKS_UNDER).flatMap((id) => {
    const region = model.regionById.get(id)
    return region === undefined ? [] : [{ kind: 'film', id: `under-${id}`, at: region.centre, ...mark } as const]
  })
}

function afterCheck(
  card: SimulatedCard,
  bench: Bench,
  { check, at }: Extract<Action, { kind: 'check' }>,
  prices: Prices,
): Bench {
  const entry = checkById(check)
  if (entry === undefined) return bench
  const { known, minutes } = learn(card, bench, entry, at)
  return {
    ...bench,
    known,
    cost: bench.cost + minutes * prices.minute,
    minutesOfChecks: bench.minutesOfChecks + minutes,
    checks: bench.checks + 1,
    done: [...bench.done, nameOf({ kind: 'check', check, at })],
  }
}

/** The outcome goes where a user would enter it: measuring sheet, inspection mark, or answer. */
function learn(card: SimulatedCard, { known, lifted, goneInto }: Bench, entry: CheckEntry, at: string) {
  const { setup, each } = entry.minutes
  if (entry.evidence === 'rail' || entry.evidence === 'stage') {
    const read = card.measure({ kind: entry.evidence, name: at }, lifted, isWorkedOn(known) ? goneInto : undefined)
    const fresh = read.filter(({ line }) => !known.measurements.some((old) => isLine(old.line, line)))
    const measurements = [...known.measurements, ...fresh]
    const unanswered = [...(known.unanswered ?? []), { check: entry.id, at }]
    return { known: { ...known, measurements, unanswered }, minutes: setup + each * Math.max(1, fresh.length) }
  }
  const found = card.outcomeOf(entry.id, at, lifted, isWorkedOn(known) ? goneInto : undefined)
  if (entry.evidence === 'area') {
    const place = edgesToLook(card.model, known.spills).find((edge) => edge.at === at)
    const areas = place === undefined ? [] : [{ ...place.mark, kind: found ? 'residue' : 'clean' } as const]
    return { known: { ...known, areas: [...known.areas, ...areas] }, minutes: setup + each }
  }
  const checks = [...known.checks, { check: entry.id, at, found, run: known.rounds.length }]
  return { known: { ...known, checks }, minutes: setup + each }
}

/** Whether two lines are the same rail or stage; the point at a stage is not asked. */
export const isLine = (a: { kind: string; name: string }, b: { kind: string; name: string }): boolean =>
  a.kind === b.kind && a.name === b.name
