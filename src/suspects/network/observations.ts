/**
 * What was observed about a card: lanes over all runs, areas, rails, stages, checks. Each is bad or good by a noisy-OR:
 * good with probability (1 - leak) · Π (1 - q) over what acts on it. What was put right between two runs no longer acts.
 */
import type { BoardModel } from '../../board/index.ts'
import type { Assumptions } from '../assumptions.ts'
import { checkById, type OwnCheck } from '../checks/check-catalogue.ts'
import type { CheckFinding } from '../checks/check-scope.ts'
import { type Asked, lastAnswers, NOTHING_ASKED } from '../checks/asked.ts'
import { runOverlooks } from '../remedies/figures.ts'
import type { Findings } from '../result.ts'

export const NEVER = Infinity
/** In place of a run: it did not fail, or did not pass. */
const NO_RUN = -1

export interface Observation {
  readonly id: string
  readonly kind: 'lane' | 'area' | 'rail' | 'stage' | 'check'
  readonly leak: number
  /** Memory part whose own causes act on it. */
  readonly part: string | undefined
  /** The run in which it was last seen to be bad, or -1. */
  readonly badIn: number
  /** The first run in which it was seen to be bad; as `badIn` where left out. */
  readonly badSince?: number
  /** The run after that in which it was seen to be good, or never. */
  readonly goodIn: number
  /** How surely one run finds nothing although something is wrong there; never where left out. */
  readonly overlooks?: number
}

/** Whether it was seen to be bad in any run. */
export const isBad = ({ badIn }: Observation): boolean => badIn !== NO_RUN

/**
 * What a cause says about an observation: it may have made it bad, it was there and left it good, both (what comes and goes
 * was there all the time, and the later run missed it), or nothing.
 */
export type Role = 'bad' | 'good' | 'both' | 'none'

/**
 * @param rightFrom the run from which on the cause is put right; `NEVER` where it was not
 * @param wrongFrom the run from which on it can be there: what work brings in was not there before
 */
export function roleOf(observation: Observation, rightFrom: number, wrongFrom = 0): Role {
  const { badIn, badSince = badIn, goodIn, overlooks = 0 } = observation
  // what failed before the work and fails after it alike was not brought in by it
  const mayBeBad = badIn !== NO_RUN && rightFrom > badIn && wrongFrom <= badSince
  if (goodIn === NEVER || rightFrom <= goodIn || wrongFrom > goodIn) return mayBeBad ? 'bad' : 'none'
  return mayBeBad && overlooks > 0 ? 'both' : 'good'
}

/**
 * A cause spoils a lane with q, and the later run missed that with o: it went unspoilt or was missed with 1 - q (1 - o), and
 * given that it is what was seen before with q o / (1 - q (1 - o)). Both exact for any number of causes that are missed or
 * not each by itself.
 * @returns the q with which it counts against what was seen to be good
 */
export const seenGood = (role: Role, q: number, { overlooks = 0 }: Observation): number =>
  role === 'both' ? q * (1 - overlooks) : q

/** The q with which it explains what was seen to be bad. */
export const seenBad = (role: Role, q: number, { overlooks = 0 }: Observation): number =>
  role === 'both' ? (q * overlooks) / (1 - q * (1 - overlooks)) : q

export interface Observed {
  readonly list: readonly Observation[]
  /** Index into `list`; absent where untested. */
  readonly lane: ReadonlyMap<string, number>
  readonly rail: ReadonlyMap<string, number>
  /** Of the rails those that read at short level. */
  readonly isShort: (rail: string) => boolean
  /** By ref of the power stage. */
  readonly stage: ReadonlyMap<string, number>
  /** By index into `Findings.areas`. */
  readonly areas: readonly number[]
  readonly checks: readonly CheckFinding[]
  /** By index into `Asked.areas`: that residue is seen there, and that it is seen to be clean. */
  readonly askedAreas: readonly { readonly seen: number; readonly clean: number }[]
  /** By ref, lane id of a track, `rail VMEM` or `slip s1`: the run from which on what is wrong there is put right. */
  readonly rightFrom: (name: string) => number
  /** The same for what was spilled onto the track of a lane: washing and work at either end of it clean that too. */
  readonly trackCleanFrom: (lane: string) => number
  /** The same for what only a new part puts right. */
  readonly replacedFrom: (ref: string) => number
  /** Runs before which that was done, ascending; and those before which a name was put right. */
  readonly replacedBefore: (ref: string) => readonly number[]
  readonly rightBefore: (name: string) => readonly number[]
  /** Runs before which the part was taken off and refitted, ascending. */
  readonly refittedBefore: (ref: string) => readonly number[]
}

/** @param asked what nobody has looked at yet, but could: observations without an outcome */
export function observe(
  model: BoardModel,
  findings: Findings,
  assumptions: Assumptions,
  asked: Asked = NOTHING_ASKED,
): Observed {
  const list: Observation[] = []
  const add = (observation: Observation): number => list.push(observation) - 1
  const lane = new Map<string, number>()
  for (const { id, part } of model.lanes) {
    const seen = laneOverRuns(findings, id)
    if (seen === undefined) continue
    const { failing, ...outcome } = seen
    const overlooks = runOverlooks(findings.signatures.get(part)?.kind === 'sparse')
    lane.set(id, add({ id, kind: 'lane', leak: leakAfter(failing, assumptions), part, overlooks, ...outcome }))
  }
  const isShort = (name: string): boolean => findings.shorted?.has(name) === true
  const rail = measured(
    model.rails.map(({ name }) => name),
    findings.rails,
    asked.rails,
    (name, outcome) =>
      add({
        id: `rail ${name}`,
        kind: 'rail',
        leak: isShort(name) ? assumptions.evidence.railShortElsewhere : assumptions.evidence.railBadElsewhere,
        part: undefined,
        ...outcome,
      }),
  )
  const stage = measured([...stagesOfRails(model)], findings.stages ?? new Map(), asked.stages, (ref, outcome) =>
    add({
      id: `stage ${ref}`,
      kind: 'stage',
      leak: assumptions.evidence.stageBadElsewhere,
      part: undefined,
      ...outcome,
    }),
  )
  const areas = findings.areas.map(({ id, kind }) => {
    const clean = kind === 'clean'
    const leak = clean ? 0 : assumptions.evidence.residueElsewhere
    return add({ id, kind: 'area', leak, part: undefined, ...outcomeOf(!clean) })
  })
  const addCheck = (check: OwnCheck, at: string, outcome: Outcome): CheckFinding => {
    const id = `check ${check.id} ${at}`
    return {
      finding: add({ id, kind: 'check', leak: check.falseAlarm, part: memoryOf(model, at), ...outcome }),
      check,
      at,
    }
  }
  const checks = [
    ...lastAnswers(findings.checks ?? []).flatMap(({ check, at, found, run }) => {
      const entry = checkById(check)
      return entry?.evidence === 'check' ? [addCheck(asLearnt(entry, assumptions), at, outcomeOf(found, run))] : []
    }),
    ...asked.checks.map(({ check, at }) => addCheck(asLearnt(check, assumptions), at, NO_OUTCOME)),
  ]
  const askedAreas = asked.areas.map(({ id }) => askedArea(id, findings, assumptions, add))
  return { list, lane, rail, isShort, stage, areas, checks, askedAreas, ...workOf(model, findings) }
}

type Outcome = Pick<Observation, 'badIn' | 'badSince' | 'goodIn'>
const NO_OUTCOME: Outcome = { badIn: NO_RUN, goodIn: NEVER }
const outcomeOf = (bad: boolean, run = 0): Outcome =>
  bad ? { badIn: run, goodIn: NEVER } : { badIn: NO_RUN, goodIn: run }

/** What fails for no reason in the list was mostly an accident of one run: it seldom fails again in the next. */
const FAILS_AGAIN = 0.2

const leakAfter = (failing: number, { fails }: Assumptions): number =>
  fails.leak * FAILS_AGAIN ** Math.max(0, failing - 1)

/**
 * Run 0 is the card as it came; run i comes after round i. A lane that fails after it had passed counts as failing.
 * @returns also in how many runs it failed
 */
function laneOverRuns({ lanes, rounds = [] }: Findings, id: string): (Outcome & { failing: number }) | undefined {
  let failing = 0
  let badIn = NO_RUN
  let badSince = NO_RUN
  let goodIn = NEVER
  for (const [run, states] of [lanes, ...rounds.map((round) => round.lanes)].entries()) {
    const state = states.get(id) ?? 'untested'
    if (state === 'fail') {
      failing++
      badIn = run
      if (badSince === NO_RUN) badSince = run
      goodIn = NEVER
    }
    if (state === 'pass') goodIn = run
  }
  return badIn === NO_RUN && goodIn === NEVER ? undefined : { badIn, badSince, goodIn, failing }
}

function measured(
  names: readonly string[],
  states: ReadonlyMap<string, 'low' | 'open' | 'fine'>,
  asked: ReadonlySet<string>,
  add: (name: string, outcome: Outcome) => number,
): Map<string, number> {
  const index = new Map<string, number>()
  for (const name of names) {
    const state = states.get(name)
    if (state !== undefined) index.set(name, add(name, outcomeOf(state !== 'fine')))
    else if (asked.has(name)) index.set(name, add(name, NO_OUTCOME))
  }
  return index
}

/** Refs of the parts on the board that make a rail. */
export const stagesOfRails = (model: BoardModel): Set<string> =>
  new Set(model.rails.flatMap((rail) => rail.stages).filter((ref) => model.partByRef.has(ref)))

/** A check of the catalogue with the figures that were learnt about it; a kind that it is not made for stays out. */
function asLearnt(check: OwnCheck, { checks }: Assumptions): OwnCheck {
  const learnt = checks[check.id]
  if (learnt === undefined) return check
  const known = Object.entries(learnt.finds ?? {}).filter(([kind]) => Object.hasOwn(check.finds, kind))
  const finds = { ...check.finds, ...Object.fromEntries(known) }
  return { ...check, finds, falseAlarm: learnt.falseAlarm ?? check.falseAlarm }
}

function memoryOf(model: BoardModel, at: string): string | undefined {
  const ref = model.laneById.get(at)?.part ?? at
  return model.partByRef.get(ref)?.kind === 'memory' ? ref : undefined
}

type Work = Pick<
  Observed,
  'rightFrom' | 'trackCleanFrom' | 'replacedFrom' | 'refittedBefore' | 'replacedBefore' | 'rightBefore'
>

function workOf(model: BoardModel, { rounds = [] }: Findings): Work {
  const right = new Map<string, number[]>()
  const replaced = new Map<string, number[]>()
  const refitted = new Map<string, number[]>()
  const note = (runs: Map<string, number[]>, names: readonly string[], run: number): void => {
    for (const name of new Set(names)) runs.set(name, [...(runs.get(name) ?? []), run])
  }
  for (const [index, { lifted, replaced: fresh = lifted, putRight = [] }] of rounds.entries()) {
    note(right, [...lifted, ...putRight], index + 1)
    note(replaced, fresh, index + 1)
    note(refitted, lifted, index + 1)
  }
  const runsOf = (runs: ReadonlyMap<string, readonly number[]>) => (name: string) => runs.get(name) ?? []
  const rightFrom = (name: string): number => right.get(name)?.[0] ?? NEVER
  const washedIn = rounds.findIndex(({ washed }) => washed === true)
  const washedFrom = washedIn < 0 ? NEVER : washedIn + 1
  const core = model.core?.ref ?? ''
  return {
    rightFrom,
    // flux is washed off around whatever was refitted, and with it what lies there: common practice, no source
    trackCleanFrom: (lane) =>
      Math.min(washedFrom, rightFrom(lane), rightFrom(core), rightFrom(model.laneById.get(lane)?.part ?? '')),
    replacedFrom: (ref) => replaced.get(ref)?.[0] ?? NEVER,
    refittedBefore: runsOf(refitted),
    replacedBefore: runsOf(replaced),
    rightBefore: runsOf(right),
  }
}

/**
 * The assumptions on marks leave room between "residue is seen" and "seen to be clean": nobody can tell. Where changed
 * figures leave less than none, `clean` counts for as much less as makes room for all spills that may have been there.
 */
function askedArea(
  id: string,
  findings: Findings,
  { evidence }: Assumptions,
  add: (observation: Observation) => number,
): { seen: number; clean: number } {
  const leak = evidence.residueElsewhere
  const observation = { id, kind: 'area', part: undefined, ...NO_OUTCOME } as const
  const room = (1 - evidence.residueWhereReached) / evidence.cleanOverlooksReached
  const share = Math.min(1, room) ** (findings.spills.length + 1)
  const seen = add({ ...observation, leak })
  return { seen, clean: add({ ...observation, leak: 1 - (1 - leak) * share }) }
}
