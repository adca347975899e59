/** What each station holds, and what it still lacks: for the list of stations. */
import { counted, someOf } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Case, Proof, ReportEntry } from '../../case/index.ts'
import type { Tally } from '../../report/index.ts'
import { shortMountingWords, type Substance, substances as shipped } from '../../spill/index.ts'
import { countTally } from './derive.ts'
import { handBackState } from './handBackState.ts'
import { coldMeasuring, poweredMeasuring } from './measuringStates.ts'
import type { PlanState } from './planStore.ts'
import { planSummary } from './planWords.ts'
import { proofState } from './proofState.ts'
import { isAsking, isEmptyRun, type Reading } from './readingStore.ts'
import type { ResultState } from './resultStore.ts'
import type { Station } from './screenStore.ts'
import { amountWords } from './words.ts'

export interface StationState {
  readonly station: Station
  readonly name: string
  readonly state: 'done' | 'partly' | 'empty'
  /** What it holds, in few words. */
  readonly words: string
  /** What it still lacks; undefined where it lacks nothing. */
  readonly lacks: string | undefined
}

interface Known {
  readonly present: Case
  readonly tally: Tally | undefined
  readonly readings: ReadonlyMap<string, Reading>
  readonly results: ResultState
  readonly plan: Pick<PlanState, 'state' | 'answer'>
  readonly proof?: Proof | undefined
  readonly model?: BoardModel | undefined
}

export const stationStates = (known: Known): StationState[] => [
  arrival(known.present),
  coldMeasuring(known.present, known.model),
  poweredMeasuring(known.present),
  memoryRun(known),
  inspection(known.present),
  spill(known.present),
  suspects(known),
  planned(known),
  proofOfRuns(known),
  handBackState(known.present),
]

function arrival({ arrival: { accident, mounted, poweredSince, seen } }: Case): StationState {
  const lacking = [
    ...(seen === '' ? ['what it does'] : []),
    ...(accident === 'unknown' ? ['what happened'] : []),
    ...(mounted === 'unknown' ? ['how it was mounted'] : []),
    ...(poweredSince === 'unknown' ? ['if it was powered since'] : []),
  ]
  const held = [
    ...(accident === 'unknown' ? [] : [shortAccident[accident]]),
    ...(mounted === 'unknown' ? [] : [shortMountingWords[mounted]]),
  ]
  return {
    station: 'arrival',
    name: 'Arrival',
    state: lacking.length === 0 ? 'done' : held.length === 0 ? 'empty' : 'partly',
    words: held.length === 0 ? 'nothing yet' : held.join(', '),
    lacks: lacking.length === 0 ? undefined : `lacks ${someOf(lacking, 2)}`,
  }
}

const shortAccident: Record<Exclude<Case['arrival']['accident'], 'unknown'>, string> = {
  spill: 'spill',
  flux: 'flux left behind',
  slip: 'tool slip',
  none: 'no accident',
}

function memoryRun(known: Known): StationState {
  const name = 'Memory run'
  const shared = { station: 'memory-run', name } as const
  const { present, tally, readings } = known
  if (present.reports.some(({ id, run }) => run === 'first' && readings.get(id)?.state === 'reading'))
    return { ...shared, state: 'partly', words: 'reading a report', lacks: undefined }
  const lacks = readingLack(known, 'first')
  if (tally === undefined) return { ...shared, state: 'empty', words: 'nothing yet', lacks: lacks ?? 'lacks a report' }
  const { failing, clean, untestedLanes } = countTally(tally)
  return {
    ...shared,
    state: untestedLanes === 0 && lacks === undefined ? 'done' : 'partly',
    words: `${counted(failing.length, 'package fails', 'packages fail')}, ${clean.length} clean`,
    lacks: lacks ?? (untestedLanes === 0 ? undefined : `${counted(untestedLanes, 'lane')} untested`),
  }
}

/** What stands between the reports of a run and being counted. */
function readingLack({ present, readings }: Known, run: ReportEntry['run']): string | undefined {
  const own = present.reports.flatMap((report) => {
    const reading = report.run === run && report.overtaken !== true ? readings.get(report.id) : undefined
    return reading === undefined ? [] : [{ reading, coversAll: report.coversAll }]
  })
  const failed = own.filter(({ reading }) => reading.state === 'failed').length
  if (failed > 0) return `${counted(failed, 'report')} could not be read`
  const asking = own.filter(({ reading }) => isAsking(reading)).length
  if (asking > 0) return `say how ${counted(asking, 'report')} ${asking === 1 ? 'is' : 'are'} read`
  const empty = own.filter(({ reading, coversAll }) => isEmptyRun(reading) && !coversAll).length
  return empty > 0 ? `no row read of ${counted(empty, 'report')}` : undefined
}

function inspection({ marks, photos }: Case): StationState {
  const shared = { station: 'inspection', name: 'Inspection' } as const
  const kinds = ['residue', 'film', 'corrosion', 'clean', 'slip'] as const
  const seen = kinds.flatMap((kind) => {
    const n = marks.filter((mark) => mark.kind === kind).length
    return n === 0 ? [] : [`${n} ${kind === 'clean' ? 'clean spot' : kind}`]
  })
  const held = [...seen, ...(photos.length === 0 ? [] : [counted(photos.length, 'photo')])]
  if (seen.length === 0) {
    const words = held.length === 0 ? 'nothing marked yet' : held.join(', ')
    return {
      ...shared,
      state: held.length === 0 ? 'empty' : 'partly',
      words,
      lacks: 'mark what you see, clean spots too',
    }
  }
  const loose = photos.filter((photo) => photo.corners === undefined).length
  const lacks = loose === 0 ? undefined : `${counted(loose, 'photo')} not matched`
  return { ...shared, state: loose === 0 ? 'done' : 'partly', words: held.join(', '), lacks }
}

function spill(present: Case): StationState {
  const shared = { station: 'spill', name: 'Spill' } as const
  const spills = present.marks.filter((mark) => mark.kind === 'spill')
  const first = spills[0]
  if (first === undefined) {
    const expected = present.arrival.accident === 'spill' || present.arrival.accident === 'flux'
    return { ...shared, state: 'empty', words: 'none marked', lacks: expected ? 'lacks its place' : undefined }
  }
  const name = shortName(substanceOf(first.substance, present.substances)?.name ?? first.substance)
  return {
    ...shared,
    state: 'done',
    words: spills.length === 1 ? `${name}, ${amountWords(first.amount)}` : counted(spills.length, 'spill'),
    lacks: undefined,
  }
}

const shortName = (name: string): string => (name.split(',')[0] ?? name).toLowerCase()

export const substanceOf = (id: string, own: readonly Substance[]): Substance | undefined =>
  [...own, ...shipped].find((substance) => substance.id === id)

function suspects(known: Known): StationState {
  const { tally, results } = known
  const shared = { station: 'suspects', name: 'Suspects' } as const
  if (results.state === 'failed')
    return { ...shared, state: 'partly', words: 'could not be worked out', lacks: undefined }
  const unread = readingLack(known, 'first')
  if (tally === undefined)
    return { ...shared, state: 'empty', words: 'nothing yet', lacks: unread ?? 'lacks a memory run' }
  const suspectsFound = results.assessment?.suspects
  if (suspectsFound === undefined) return { ...shared, state: 'partly', words: 'working it out', lacks: undefined }
  const { lift } = suspectsFound
  return {
    ...shared,
    state: unread === undefined ? 'done' : 'partly',
    words: lift.length === 0 ? 'lift nothing' : `lift ${counted(lift.length, 'part')}`,
    lacks: unread,
  }
}

function planned({ present, tally, results, plan }: Known): StationState {
  const shared = { station: 'plan', name: 'Plan' } as const
  const noted = present.passes.length === 0 ? undefined : `${counted(present.passes.length, 'pass', 'passes')} noted`
  if (plan.state === 'working') return { ...shared, state: 'partly', words: 'working it out', lacks: undefined }
  if (plan.state === 'failed') return { ...shared, state: 'partly', words: 'could not be planned', lacks: 'look why' }
  if (plan.answer !== undefined)
    return { ...shared, state: 'done', words: joinedWith(planSummary(plan.answer), noted), lacks: undefined }
  const lift = results.assessment?.suspects.lift
  if (tally === undefined || lift === undefined)
    return { ...shared, state: 'empty', words: 'nothing yet', lacks: 'lacks a lift list' }
  if (lift.length === 0) return { ...shared, state: 'empty', words: 'nothing to lift', lacks: undefined }
  return { ...shared, state: 'empty', words: `${counted(lift.length, 'part')} to plan`, lacks: noted }
}

function proofOfRuns(known: Known): StationState {
  const state = proofState(known.present, known.proof)
  const unread = readingLack(known, 'retest')
  return state.state === 'done' && unread !== undefined ? { ...state, state: 'partly', lacks: unread } : state
}

const joinedWith = (words: string, more: string | undefined): string =>
  more === undefined ? words : `${words}, ${more}`
