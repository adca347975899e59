/**
 * The bench of a game: what each action does to a simulated card, and what is known after it. The same card, checks, lifts
 * and mending as for the technician of the scorecard; but a run of the test is an action of its own.
 */
import { say } from '../../base/index.ts'
import { type CheckAnswer, checkById, checkWords, type Round } from '../../suspects/index.ts'
import type { Known } from '../scorecard/ask.ts'
import { marksUnder, mendedInPassing } from '../scorecard/technician.ts'
import { edgesToLook } from '../simulator/looks.ts'
import type { SimulatedCard } from '../simulator/types.ts'
import type { HandBackWay, PracticeAction } from './game.ts'
import type { Paid, Till } from './paying.ts'
import { readTogetherWords, runWords, underWords } from './outcome-words.ts'

export interface Done {
  readonly action: PracticeAction
  readonly paid: Paid
  /** What came of it, in sentences. */
  readonly outcome: readonly string[]
  /** What was known the moment before it told anything, and since. */
  readonly before: Known
  readonly after: Known
}

export interface Bench {
  readonly known: Known
  readonly lifted: readonly string[]
  /** What was gone into and put right: `rail VMEM`, a track, a slip. */
  readonly putRight: readonly string[]
  /** Something was worked on since the last run. */
  readonly untested: boolean
  readonly runs: number
  readonly done: readonly Done[]
  readonly handedBack: HandBackWay | undefined
}

/** A bench with the card as it came: nothing lifted, put right or run again. */
export const freshBench = (known: Known): Bench => ({
  known,
  lifted: [],
  putRight: [],
  untested: false,
  runs: 0,
  done: [],
  handedBack: undefined,
})

/** Whoever works on a card mends in passing what can be seen: cut tracks, what a tool hit, rails that read off. */
export const isWorkedOn = ({ lifted, putRight }: Pick<Bench, 'lifted' | 'putRight'>): boolean =>
  lifted.length + putRight.length > 0

/** Rails that were gone into, as the card takes them; undefined while nothing was worked on. */
export const mendedRails = (bench: Bench): readonly string[] | undefined =>
  isWorkedOn(bench) ? bench.putRight.filter((name) => name.startsWith('rail ')) : undefined

/** @param action one that is not refused */
export function act(card: SimulatedCard, bench: Bench, action: PracticeAction, till: Till): Bench {
  switch (action.kind) {
    case 'check':
      return afterCheck(card, bench, action, till)
    case 'lift':
      return afterLift(card, bench, action, till)
    case 'put-right':
      return afterPutRight(card, bench, action, till)
    case 'run':
      return afterRun(card, bench, action, till)
    case 'ask':
      return noted(bench, { action, paid: till.of(action), outcome: [], before: bench.known, after: bench.known })
    case 'hand-back':
      return {
        ...noted(bench, { action, paid: till.of(action), outcome: [], before: bench.known, after: bench.known }),
        handedBack: action.as,
      }
  }
}

const noted = (bench: Bench, done: Done): Bench => ({ ...bench, known: done.after, done: [...bench.done, done] })

type Check = Extract<PracticeAction, { kind: 'check' }>

function afterCheck(card: SimulatedCard, bench: Bench, action: Check, till: Till): Bench {
  const entry = checkById(action.check)
  if (entry === undefined) return bench
  const { known } = bench
  const rails = mendedRails(bench)
  if (entry.evidence === 'rail' || entry.evidence === 'stage') {
    const read = card.measure({ kind: entry.evidence, name: action.at }, bench.lifted, rails)
    const fresh = read.filter(({ line }) => !isMeasured(known, line))
    const measurements = [...known.measurements, ...fresh]
    const unanswered = [...(known.unanswered ?? []), { check: entry.id, at: action.at }]
    const shown = fresh.length > 0 ? fresh : read
    const outcome = readTogetherWords(card.model, { ...known, measurements: [...known.measurements, ...shown] }, shown)
    const after = { ...known, measurements, unanswered }
    return noted(bench, { action, paid: till.of(action, shown.length), outcome, before: known, after })
  }
  const found = card.outcomeOf(entry.id, action.at, bench.lifted, rails)
  const outcome = [checkWords(found ? entry.found : entry.notFound, action.at)]
  const paid = till.of(action)
  if (entry.evidence === 'area') {
    const place = edgesToLook(card.model, known.spills).find(({ at }) => at === action.at)
    const areas = place === undefined ? [] : [{ ...place.mark, kind: found ? 'residue' : 'clean' } as const]
    return noted(bench, {
      action,
      paid,
      outcome,
      before: known,
      after: { ...known, areas: [...known.areas, ...areas] },
    })
  }
  const answer: CheckAnswer = { check: entry.id, at: action.at, found, run: known.rounds.length }
  return noted(bench, { action, paid, outcome, before: known, after: { ...known, checks: [...known.checks, answer] } })
}

/** Whether a line was measured at all, in whichever quantity or phase. */
export const isMeasured = ({ measurements }: Known, { kind, name }: { kind: string; name: string }): boolean =>
  measurements.some(({ line }) => line.kind === kind && line.name === name)

/** Work since the last run is one round, whose lanes are not known yet. */
function withWork({ known, untested }: Bench, lifted: readonly string[], putRight: readonly string[]): Known {
  const open = untested ? known.rounds.at(-1) : undefined
  const before = open === undefined ? known.rounds : known.rounds.slice(0, -1)
  const round: Round = {
    lifted: [...(open?.lifted ?? []), ...lifted],
    putRight: [...new Set([...putRight, ...(open?.putRight ?? [])])],
    lanes: new Map(),
  }
  return { ...known, rounds: [...before, round] }
}

function afterLift(card: SimulatedCard, bench: Bench, action: PracticeAction & { kind: 'lift' }, till: Till): Bench {
  const { ref } = action
  const found = card.lift([ref])
  const before = withWork(bench, [ref], [...bench.putRight, ...mendedInPassing(card, bench.known)])
  const areas = [...before.areas, ...found.flatMap((under) => marksUnder(card, under))]
  const outcome = found.flatMap((under) => underWords(card.model, under))
  const done = { action, paid: till.of(action), outcome, before, after: { ...before, areas } }
  return { ...noted(bench, done), lifted: [...bench.lifted, ref], untested: true }
}

function afterPutRight(
  card: SimulatedCard,
  bench: Bench,
  action: PracticeAction & { kind: 'put-right' },
  till: Till,
): Bench {
  const putRight = [...bench.putRight, action.name]
  const known = withWork(bench, [], [...putRight, ...mendedInPassing(card, bench.known)])
  const outcome = [say('Gone into and put right as far as it could be seen. A run of the test will tell.')]
  const done = { action, paid: till.of(action), outcome, before: known, after: known }
  return { ...noted(bench, done), putRight, untested: true }
}

function afterRun(card: SimulatedCard, bench: Bench, action: PracticeAction, till: Till): Bench {
  const { known, untested, lifted } = bench
  const lanes = card.retest(lifted, mendedRails(bench))
  const open = untested ? known.rounds.at(-1) : undefined
  const rounds =
    open === undefined ? [...known.rounds, { lifted: [], lanes }] : [...known.rounds.slice(0, -1), { ...open, lanes }]
  const outcome = runWords(card.model, lanes)
  const done = { action, paid: till.of(action), outcome, before: known, after: { ...known, rounds } }
  return { ...noted(bench, done), untested: false, runs: bench.runs + 1 }
}
