/** What the program answers about a simulated card: the same chain of rooms that a case goes through. */
import type { BoardModel, Side } from '../../board/index.ts'
import { lineStates, type Measurement } from '../../measure/index.ts'
import type { Tally } from '../../report/index.ts'
import {
  type AreaMark,
  createReachEngine,
  type ReachEngine,
  type SlipMark,
  type SpillMark,
  substances,
} from '../../spill/index.ts'
import {
  type CheckAnswer,
  checkInstances,
  createJudge,
  type Findings,
  type Judge,
  type LaneState,
  lookPlaces,
  type RankedCheck,
  type ReportedSpill,
  type SuspectsResult,
} from '../../suspects/index.ts'

/** All that is known of a card at one moment. */
export interface Known {
  readonly lanes: Findings['lanes']
  readonly signatures: Findings['signatures']
  readonly spills: readonly SpillMark[]
  readonly slips: readonly SlipMark[]
  readonly areas: readonly AreaMark[]
  readonly measurements: readonly Measurement[]
  readonly checks: readonly CheckAnswer[]
  readonly told: 'accident' | 'no-accident' | 'unknown'
  /** Rounds of work: parts taken off, put right, refitted; what the run after it said. */
  readonly rounds: readonly Round[]
}

export interface Round extends Pick<Findings, 'lanes' | 'signatures'> {
  readonly lifted: readonly string[]
}

export type Action =
  | { readonly kind: 'check'; readonly check: string; readonly at: string }
  | { readonly kind: 'lift'; readonly refs: readonly string[] }
  | { readonly kind: 'hand-back' }

export interface Asker {
  readonly model: BoardModel
  readonly ask: (known: Known) => SuspectsResult
  /** What to do first. */
  readonly propose: (known: Known) => Action
  /** The same by lifts and tests alone. */
  readonly proposeWithoutChecks: (known: Known) => Action
  /** Every check that could be made now. */
  readonly open: (known: Known) => readonly Action[]
}

const GRID_CELL_MM = 1

/** One for each board: what was marched for one card serves the next. */
export function createAsker(model: BoardModel): Asker {
  const engine = createReachEngine(model, { cellMm: GRID_CELL_MM })
  const judge = createJudge(model)
  const sides: Side[] = model.memories.some(({ side }) => side === 'bottom') ? ['top', 'bottom'] : ['top']
  const result = (known: Known): SuspectsResult => {
    const spills = reportedSpills(engine, known.spills, known.areas)
    const unreported = sides.map((side) => engine.unreportedHypotheses({ side, areas: known.areas, dams: [] }))
    return judge.judge({ findings: findingsOf(model, known), spills, unreported })
  }
  return {
    model,
    ask: result,
    propose: (known) => {
      const now = asItIsNow(known)
      return proposeFrom(known.rounds, result(now), () => nextChecks(model, engine, judge, sides, now))
    },
    proposeWithoutChecks: (known) => proposeFrom(known.rounds, result(asItIsNow(known)), () => []),
    open: (known) => {
      const findings = findingsOf(model, asItIsNow(known))
      const { instances } = checkInstances(model, findings, lookPlaces(model, findings))
      return instances.map(({ check, at }) => ({ kind: 'check', check: check.id, at }))
    },
  }
}

/** What was answered before the last round may no longer hold. */
function asItIsNow(known: Known): Known {
  const last = known.rounds.at(-1)
  return last === undefined ? known : { ...known, lanes: last.lanes, signatures: last.signatures, checks: [] }
}

const WORTH_LIFTING = 0.15
const fails = (lanes: Findings['lanes']): boolean => [...lanes.values()].includes('fail')

function proposeFrom(
  rounds: readonly Round[],
  { lift, parts }: SuspectsResult,
  checks: () => readonly RankedCheck[],
): Action {
  const last = rounds.at(-1)
  if (last !== undefined && !fails(last.lanes)) return { kind: 'hand-back' }
  const off = new Set(rounds.flatMap(({ lifted }) => lifted))
  const best = checks().find(({ saves = 0, minutes }) => saves > minutes)
  if (best !== undefined) return { kind: 'check', check: best.check, at: best.at }
  const refs = lift.filter((ref) => !off.has(ref))
  if (refs.length > 0) return { kind: 'lift', refs }
  const next = parts.find(({ ref, probability }) => !off.has(ref) && probability >= WORTH_LIFTING)
  return next === undefined || last === undefined ? { kind: 'hand-back' } : { kind: 'lift', refs: [next.ref] }
}

function nextChecks(model: BoardModel, engine: ReachEngine, judge: Judge, sides: readonly Side[], known: Known) {
  const findings = findingsOf(model, known)
  const places = lookPlaces(model, findings)
  const areas = [...known.areas, ...places.map(({ mark }) => mark)]
  const spills = reportedSpills(engine, known.spills, areas)
  const unreported = sides.map((side) => engine.unreportedHypotheses({ side, areas, dams: [] }))
  return judge.rankChecks({ findings, spills, unreported, places }).checks
}

function reportedSpills(engine: ReachEngine, marks: readonly SpillMark[], areas: readonly AreaMark[]): ReportedSpill[] {
  return marks.flatMap((mark) => {
    const substance = substances.find(({ id }) => id === mark.substance)
    const hypotheses = substance === undefined ? undefined : engine.hypotheses(mark, [], substance, areas)
    return hypotheses?.ok === true ? [{ mark, hypotheses: hypotheses.value }] : []
  })
}

function findingsOf(model: BoardModel, known: Known): Findings {
  const { rails, stages } = lineStates(model, known.measurements, [])
  const { lanes, signatures, spills, areas, slips, checks } = known
  return { lanes, signatures, spills, areas, slips, rails, stages, checks }
}

/** Lanes and signatures as a report's tally gives them; lanes that it does not speak of are untested. */
export function evidenceOfTally(model: BoardModel, tally: Tally): Pick<Known, 'lanes' | 'signatures'> {
  const lanes = new Map<string, LaneState>(model.lanes.map(({ id }) => [id, 'untested']))
  for (const part of tally.parts)
    for (const channel of part.channels) for (const lane of channel.lanes) lanes.set(lane.id, lane.state)
  return { lanes, signatures: new Map(tally.parts.map(({ ref, signature }) => [ref, signature])) }
}
