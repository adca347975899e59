/**
 * The bench of somebody who works on a simulated card: what each act costs by the shipped price book, what it does to the
 * card, and what is known after it.
 */
import type { BoardModel, PlacedPart } from '../../../board/index.ts'
import {
  type AtTheBench,
  checkById,
  comebackCost,
  defaultAssumptions,
  isReballed,
  liftWork,
  minutesToMoney,
  priceOf,
  pricesOf,
  refitWork,
  worthLost,
} from '../../../suspects/index.ts'
import { type Known } from '../ask.ts'
import { isLine, marksUnder } from '../technician.ts'
import { edgesToLook } from '../../simulator/looks.ts'
import type { SimulatedCard } from '../../simulator/types.ts'
import {
  asItCame,
  isCardLost,
  isSound,
  lifted,
  putRight,
  refitted,
  takenUp,
  washed,
  type WorkedCard,
} from './worked-card.ts'

const PRICES = pricesOf(defaultAssumptions)
const { book } = PRICES

export interface Job {
  readonly card: SimulatedCard
  readonly worked: WorkedCard
  readonly known: Known
  readonly bench: AtTheBench
  /** Since the last run: refs refitted, those of them that are new, what else was put right, whether it was washed. */
  readonly since: {
    readonly lifted: readonly string[]
    readonly replaced: readonly string[]
    readonly putRight: readonly string[]
    readonly washed: boolean
  }
  readonly money: number
  readonly minutes: number
  readonly runs: number
  /** What was done, in order: `lift U1`. */
  readonly done: readonly string[]
}

const NOTHING_SINCE: Job['since'] = { lifted: [], replaced: [], putRight: [], washed: false }

/** A job on a card as it came, with nothing paid. */
export const startJob = (card: SimulatedCard, known: Known): Job => ({
  card,
  worked: asItCame(card),
  known,
  bench: { washed: false, takenUp: false, untested: false, lifted: [], offNow: [] },
  since: NOTHING_SINCE,
  money: 0,
  minutes: 0,
  runs: 0,
  done: [],
})

const paid = (job: Job, name: string, minutes: number, materials = 0): Job => ({
  ...job,
  minutes: job.minutes + minutes,
  money: job.money + minutesToMoney(minutes, book) + materials,
  done: [...job.done, name],
})

const partOf = (model: BoardModel, ref: string): PlacedPart | undefined => model.partByRef.get(ref)

/** The job after the whole card was washed and dried, with its minutes and money paid. */
export function wash(job: Job): Job {
  const { bench, since, card, worked } = job
  const done = paid(job, 'wash', book.minutes.wash)
  return {
    ...done,
    worked: washed(card, worked),
    bench: { ...bench, washed: true },
    since: { ...since, washed: true },
  }
}

/** The job after metal was taken up by hand, by luck also from under parts; what is no metal stays. */
export function takeUp(job: Job): Job {
  const done = paid(job, 'take up', book.minutes.takeUpMetal)
  return {
    ...done,
    worked: takenUp(job.card, job.worked),
    bench: { ...job.bench, takenUp: true },
    since: { ...job.since, washed: true },
  }
}

/** Takes parts off, one after the other, and looks under each; what is not on the board or off already is passed over. */
export function lift(job: Job, refs: readonly string[]): Job {
  return refs.reduce((before, ref) => {
    const part = partOf(before.card.model, ref)
    if (part === undefined || before.worked.off.includes(ref)) return before
    const { minutes, money } = liftWork(part, book)
    const prepared = before.worked.hot ? 0 : book.minutes.prepare
    const after = paid(before, `lift ${ref}`, minutes + prepared, money - minutesToMoney(minutes, book))
    const { worked, found } = lifted(before.card, before.worked, ref)
    const { known, bench } = before
    const marks = marksUnder(before.card, found)
    const areas = [...known.areas.filter(({ id }) => marks.every((mark) => mark.id !== id)), ...marks]
    return {
      ...after,
      worked,
      known: { ...known, areas },
      bench: {
        ...bench,
        lifted: [...new Set([...bench.lifted, ref])],
        offNow: [...bench.offNow, ref],
      },
    }
  }, job)
}

/** Cleans the sites, puts everything that is off back, new parts in the place of those named, of lost and of small ones. */
export function refit(job: Job, named: readonly string[]): Job {
  const { card, worked } = job
  const fresh = worked.off.filter((ref) => {
    const part = partOf(card.model, ref)
    return named.includes(ref) || worked.lost.includes(ref) || (part !== undefined && !isReballed(part))
  })
  const after = worked.off.reduce((before, ref) => {
    const part = partOf(card.model, ref)
    if (part === undefined) return before
    const isNew = fresh.includes(ref)
    const { minutes, money } = refitWork(part, isNew ? 'replace' : 'reball', book)
    const materials = money - minutesToMoney(minutes, book) + (isNew ? priceOf(part, book) : 0)
    return paid(before, `${isNew ? 'replace' : 'reball'} ${ref}`, minutes, materials)
  }, job)
  const { since } = job
  return {
    ...after,
    worked: refitted(card, worked, fresh),
    bench: { ...job.bench, offNow: [] },
    since: {
      ...since,
      lifted: [...since.lifted, ...worked.off],
      replaced: [...since.replaced, ...fresh],
    },
  }
}

/** What a proposal names, as rounds of work name it: rails as they are, tracks by their lane, slips by the ids of their marks. */
function causeNames({ known }: Job, name: string): string[] {
  if (name.startsWith('rail ')) return [name]
  const track = /^the track of (.+)$/.exec(name)?.[1]
  return track === undefined ? known.slips.map(({ id }) => `slip ${id}`) : [track]
}

/**
 * The job after these rails, tracks or slips were gone into, each at the same price.
 */
export function repairAround(job: Job, names: readonly string[]): Job {
  const done = paid(job, `repair ${names.join(', ')}`, book.minutes.repairAround * names.length)
  const { since, card } = job
  return {
    ...done,
    worked: putRight(card, job.worked, names),
    since: { ...since, putRight: [...since.putRight, ...names.flatMap((name) => causeNames(job, name))] },
  }
}

/** A run of the memory test: closes a round of work. */
export function run(job: Job): Job {
  const { card, worked, known, since, runs } = job
  const lanes = card.withLeft(worked.damages).test(`run ${worked.acts} ${runs}`)
  const isWorked = since.lifted.length + since.putRight.length > 0
  const round = {
    lifted: since.lifted,
    replaced: since.replaced,
    washed: since.washed,
    lanes,
    ...(isWorked ? { putRight: [...new Set(since.putRight)] } : {}),
  }
  const done = paid(job, 'run', book.minutes.run)
  return { ...done, known: { ...known, rounds: [...known.rounds, round] }, since: NOTHING_SINCE, runs: runs + 1 }
}

/** The outcome goes where a user would enter it: measuring sheet, inspection mark, or answer. */
export function check(job: Job, id: string, at: string): Job {
  const entry = checkById(id)
  if (entry === undefined) return job
  const { card, known, worked } = job
  const left = card.withLeft(worked.damages)
  const { setup, each } = entry.minutes
  const name = `check ${id} ${at}`
  if (entry.evidence === 'rail' || entry.evidence === 'stage') {
    const read = left.measure({ kind: entry.evidence, name: at })
    const fresh = read.filter(({ line }) => !known.measurements.some((old) => isLine(old.line, line)))
    const measurements = [...known.measurements, ...fresh]
    const unanswered = [...(known.unanswered ?? []), { check: id, at }]
    return {
      ...paid(job, name, setup + each * Math.max(1, fresh.length)),
      known: { ...known, measurements, unanswered },
    }
  }
  const done = paid(job, name, setup + each)
  const found = left.outcomeOf(id, at)
  if (entry.evidence === 'area') {
    const place = edgesToLook(card.model, known.spills).find((edge) => edge.at === at)
    const areas = place === undefined ? [] : [{ ...place.mark, kind: found ? 'residue' : 'clean' } as const]
    return { ...done, known: { ...known, areas: [...known.areas, ...areas] } }
  }
  const checks = [...known.checks, { check: id, at, found, run: known.rounds.length }]
  return { ...done, known: { ...known, checks } }
}

export interface JobScore {
  /** Work, parts, what is lost where it fails, and a comeback. */
  readonly cost: number
  readonly minutes: number
  readonly end: 'works' | 'comes back' | 'sent back' | 'lost'
  readonly runs: number
  readonly done: readonly string[]
}

/** @param isHanded as working; else it is sent back unrepaired */
export function ended({ card, worked, money, minutes, runs, done }: Job, isHanded: boolean): JobScore {
  const score = { minutes, runs, done }
  const left = worked.hot ? book.money.valueIfFailed : book.money.valueAsIs
  if (isCardLost(card, worked))
    return { ...score, cost: money + worthLost(book.money.valueIfFailed, book), end: 'lost' }
  if (!isHanded) return { ...score, cost: money + worthLost(left, book), end: 'sent back' }
  return isSound(worked)
    ? { ...score, cost: money, end: 'works' }
    : { ...score, cost: money + comebackCost(PRICES), end: 'comes back' }
}

/** What sending it back as it is costs. */
export const costOfSendingBack = (): number => worthLost(book.money.valueAsIs, book)

/** Whether no lane fails in the newest run, or in the first where none was made; untested lanes do not count. */
export const passesNow = ({ known }: Job): boolean => {
  const last = known.rounds.at(-1)?.lanes ?? known.lanes
  return ![...last.values()].includes('fail')
}
