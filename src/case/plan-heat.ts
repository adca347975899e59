/** The heat solves that a plan asks for: one a part and one a likely group, kept on a shelf, watched, and stopped on demand. */
import { bad, type Fault, good, type Result, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { defaultEquipment, type Equipment, type Exposure, heatOf } from '../heat/index.ts'
import { type GroupCandidate, groupCandidates, type GroupExposure, type ShopSettings } from '../plan/index.ts'

/** What the heat of one part needs to know. */
export interface HeatQuestion {
  readonly equipment?: Equipment | undefined
  /** Shields that the user chose, by the target at which they are put on. */
  readonly shields: readonly { readonly target: string; readonly ref: string; readonly kind: 'tape' | 'heat-sink' }[]
}

export interface ReworkWatch {
  /** Share of the solves done, 0 … 1 and never falling, and what is being heated. */
  readonly onProgress?: (share: number, what: string) => void
  readonly signal?: { readonly aborted: boolean }
}

type HeatAnswer = Exposure | { readonly cannot: readonly string[] }

/** Heat solves that were made before, so that a changed price or a logged pass asks for none again. */
export type ExposureShelf = Map<string, HeatAnswer>

export interface PlanHeat {
  readonly exposures: ReadonlyMap<string, Exposure>
  /** Parts that this equipment can't lift, and what is missing. */
  readonly cannot: readonly { readonly ref: string; readonly missing: readonly string[] }[]
  readonly groups: readonly GroupExposure[]
  /** Refs of groups that no setting of this equipment lifts together. */
  readonly groupsThatFail: readonly (readonly string[])[]
  /** Groups that one nozzle would cover, solved or not. */
  readonly candidates: number
}

/** So many groups get a heat solve, as each takes as long as a part; the likeliest to pay come first. */
export const MOST_GROUPS_SOLVED = 4

/** What is heated in one pass, and with which nozzles. */
interface Job {
  readonly refs: readonly string[]
  readonly equipment: Equipment
}

/** Counts the solves that are not on the shelf. */
interface Tally {
  done: number
  ahead: number
}

/**
 * @param lift refs, each once
 * @returns what can be lifted alone and in groups, and what can't; the faults of the question; or a stop as a fault
 */
export function heatForPlan(
  model: BoardModel,
  lift: readonly string[],
  question: HeatQuestion,
  shop: ShopSettings,
  watch: ReworkWatch,
  shelf: ExposureShelf,
): Result<PlanHeat> {
  const equipment = question.equipment ?? defaultEquipment
  const groupsOf = (refs: readonly string[]): GroupCandidate[] => groupCandidates(model, refs, equipment.nozzles, shop)
  const singles = lift.map((ref) => ({ refs: [ref], equipment }))
  const tally = {
    done: 0,
    ahead: unsolved(model, singles, question, shelf) + Math.min(MOST_GROUPS_SOLVED, groupsOf(lift).length),
  }
  const solve = (jobs: readonly Job[]) => solveAll(model, jobs, question, watch, shelf, tally)
  const alone = solve(singles)
  if (!alone.ok) return alone
  const exposures = new Map<string, Exposure>()
  const cannot: { ref: string; missing: readonly string[] }[] = []
  for (const [i, ref] of lift.entries()) {
    const answer = alone.value[i]
    if (answer === undefined) continue
    if ('cannot' in answer) cannot.push({ ref, missing: answer.cannot })
    else exposures.set(ref, answer)
  }
  const candidates = groupsOf(lift.filter((ref) => exposures.has(ref)))
  const jobs = likeliest(candidates, exposures).map((group) => jobOf(group, equipment))
  tally.ahead = unsolved(model, jobs, question, shelf)
  const together = solve(jobs)
  if (!together.ok) return together
  const groups: GroupExposure[] = []
  const groupsThatFail: (readonly string[])[] = []
  for (const [i, { refs }] of jobs.entries()) {
    const answer = together.value[i]
    if (answer === undefined || 'cannot' in answer) groupsThatFail.push(refs)
    else groups.push({ refs, exposure: answer })
  }
  return good({ exposures, cannot, groups, groupsThatFail, candidates: candidates.length })
}

/**
 * Those first whose members melt each other anyway when lifted one by one, and among these the smallest nozzle; groups
 * that share no part come before those that do, as one plan can take them all.
 */
function likeliest(
  candidates: readonly GroupCandidate[],
  exposures: ReadonlyMap<string, Exposure>,
): readonly GroupCandidate[] {
  const melted = new Map(
    [...exposures].map(([ref, { neighbours }]) => [
      ref,
      new Set(neighbours.filter(({ melts }) => melts).map((neighbour) => neighbour.ref)),
    ]),
  )
  const shareThatMelts = ({ refs }: GroupCandidate): number => {
    const pairs = refs.flatMap((a) => refs.filter((b) => b !== a).map((b) => melted.get(a)?.has(b) === true))
    return pairs.filter(Boolean).length / pairs.length
  }
  const ranked = candidates
    .map((group) => ({ group, share: shareThatMelts(group) }))
    .toSorted((a, b) => b.share - a.share || a.group.nozzle.sizeMm - b.group.nozzle.sizeMm)
    .map(({ group }) => group)
  const taken = new Set<string>()
  const apart = ranked.filter(({ refs }) => {
    if (refs.some((ref) => taken.has(ref))) return false
    for (const ref of refs) taken.add(ref)
    return true
  })
  return [...apart, ...ranked.filter((group) => !apart.includes(group))].slice(0, MOST_GROUPS_SOLVED)
}

/** With the nozzle that covers the group and larger ones. */
const jobOf = ({ refs, nozzle }: GroupCandidate, equipment: Equipment): Job => ({
  refs,
  equipment: { ...equipment, nozzles: equipment.nozzles.filter(({ sizeMm }) => sizeMm >= nozzle.sizeMm) },
})

const unsolved = (model: BoardModel, jobs: readonly Job[], question: HeatQuestion, shelf: ExposureShelf): number =>
  jobs.filter((job) => !shelf.has(keyOf(model, job, question))).length

const isStopped = ({ signal }: ReworkWatch): boolean => signal?.aborted === true

const STOPPED: Fault = { path: '$', found: say('a stop'), expected: say('the heat of every part') }

/** One answer a job, in their order; or the faults of all of them. */
function solveAll(
  model: BoardModel,
  jobs: readonly Job[],
  question: HeatQuestion,
  watch: ReworkWatch,
  shelf: ExposureShelf,
  tally: Tally,
): Result<HeatAnswer[]> {
  const answers: HeatAnswer[] = []
  const faults: Fault[] = []
  for (const job of jobs) {
    const key = keyOf(model, job, question)
    const known = shelf.get(key)
    if (known !== undefined) {
      answers.push(known)
      continue
    }
    if (isStopped(watch)) return bad(STOPPED)
    const solved = solveJob(model, job, question, watch, tally)
    if (isStopped(watch)) return bad(STOPPED)
    tally.done++
    tally.ahead--
    if (!solved.ok) {
      faults.push(...solved.faults)
      continue
    }
    shelf.set(key, solved.value)
    answers.push(solved.value)
  }
  return faults.length > 0 ? bad(...faults) : good(answers)
}

function solveJob(
  model: BoardModel,
  job: Job,
  question: HeatQuestion,
  watch: ReworkWatch,
  { done, ahead }: Tally,
): Result<HeatAnswer> {
  const [ref = '', ...together] = job.refs
  const tell = (share: number): void => watch.onProgress?.((done + share) / (done + ahead), job.refs.join(' with '))
  tell(0)
  const found = heatOf(model, {
    target: ref,
    together,
    equipment: job.equipment,
    shields: shieldsAt(job.refs, question),
    onProgress: tell,
    ...(watch.signal === undefined ? {} : { signal: watch.signal }),
  })
  tell(1)
  return found
}

/** The shields of every target in the pass, but none over a part that is lifted with it; the first counts where a part has two. */
export function shieldsAt(
  targets: readonly string[],
  { shields }: HeatQuestion,
): { ref: string; kind: 'tape' | 'heat-sink' }[] {
  const found = new Map<string, { ref: string; kind: 'tape' | 'heat-sink' }>()
  for (const { target, ref, kind } of shields)
    if (targets.includes(target) && (ref === target || !targets.includes(ref)) && !found.has(ref))
      found.set(ref, { ref, kind })
  return [...found.values()]
}

const keyOf = (model: BoardModel, { refs, equipment }: Job, question: HeatQuestion): string =>
  JSON.stringify([model.name, refs, equipment, shieldsAt(refs, question), underfilledOn(model)])

/** Underfill is heated through; glue at corners and rim changes no heat. */
const underfilledOn = ({ parts }: BoardModel): string[] =>
  parts.flatMap(({ ref, description }) => (description.bonding === 'underfill' ? [ref] : []))
