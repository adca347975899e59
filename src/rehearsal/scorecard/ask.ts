/** What the program answers about a simulated card: the same chain of rooms that a case goes through. */
import type { BoardModel, Side } from '../../board/index.ts'
import { judgePower, type Leads, lineStates, type Measurement } from '../../measure/index.ts'
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
  type AtTheBench,
  type CheckAnswer,
  checkInstances,
  createJudge,
  type Findings,
  harmOf,
  learnableCures,
  type JudgeInput,
  type LaneState,
  lookPlaces,
  plainProposal,
  type RankedCheck,
  type RemedyProposal,
  type ReportedSpill,
  type Round,
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
  /** Checks that told nothing: a reading without a reference, a line that was read before. */
  readonly unanswered?: Findings['unanswered']
  readonly told: 'accident' | 'no-accident' | 'unknown'
  readonly rounds: readonly Round[]
}

export type Action =
  | { readonly kind: 'check'; readonly check: string; readonly at: string }
  | { readonly kind: 'lift'; readonly refs: readonly string[] }
  /** Rails (`rail VMEM`), tracks by lane, slips (`slip s1`). */
  | { readonly kind: 'put-right'; readonly names: readonly string[] }
  | { readonly kind: 'run-again' }
  | { readonly kind: 'hand-back' }

export interface Asker {
  readonly model: BoardModel
  readonly ask: (known: Known) => SuspectsResult
  /** What each of these lists of parts to lift is expected to cost. */
  readonly costsOf: (known: Known, lists: readonly (readonly string[])[]) => readonly number[]
  /** What to do first. */
  readonly propose: (known: Known) => Action
  /** The cheapest plan of remedies as the work stands, with a check first where one pays. */
  readonly remedies: (known: Known, bench: AtTheBench) => RemedyProposal
  /** The same by lifts and tests alone. */
  readonly proposeWithoutChecks: (known: Known) => Action
  /** Every check that could be made now. */
  readonly open: (known: Known) => readonly Action[]
}

/** Who measures milliohms takes off what touching probes read. */
export const ZEROED: Leads = { kind: 'zeroed' }

const GRID_CELL_MM = 1
/**
 * In the shop of these cards a part that was worked on comes back right, and so does what was gone into: its own record
 * would have taught that. Who works in steps reckons with it; else he would take the same part off again and again, as may
 * be right elsewhere.
 */
const ALWAYS_CURES = Object.fromEntries(Object.keys(learnableCures).map((cure) => [cure, 0.995]))

/** Of so many checks it is reckoned what they save. */
const TOLD = 8

/** One for each board: what was marched for one card serves the next. */
export function createAsker(model: BoardModel): Asker {
  const engine = createReachEngine(model, { cellMm: GRID_CELL_MM })
  const judge = createJudge(model)
  const sides: Side[] = model.memories.some(({ side }) => side === 'bottom') ? ['top', 'bottom'] : ['top']
  const inputOf = (known: Known): JudgeInput => {
    const spills = reportedSpills(engine, known.spills, known.areas)
    const unreported = sides.map((side) => engine.unreportedHypotheses({ side, areas: known.areas, dams: [] }))
    return { findings: findingsOf(model, known), spills, unreported }
  }
  const questionOf = (known: Known, told: number) => {
    const findings = findingsOf(model, known)
    const places = lookPlaces(model, findings)
    const areas = [...known.areas, ...places.map(({ mark }) => mark)]
    const spills = reportedSpills(engine, known.spills, areas)
    const unreported = sides.map((side) => engine.unreportedHypotheses({ side, areas, dams: [] }))
    return {
      findings,
      spills,
      unreported,
      places,
      told,
      mayPower: isWorkedOn(known) || !railAgainstPower(model, known),
    }
  }
  const proposed = (known: Known, told: number): Action =>
    (
      plainProposal(findingsOf(model, known)) ??
      judge.propose({ ...questionOf(known, told), assumptions: { cures: ALWAYS_CURES } })
    ).action
  return {
    model,
    ask: (known) => judge.judge(inputOf(known)),
    costsOf: (known, lists) => judge.costsOfLists(inputOf(known), lists),
    propose: (known) => proposed(known, TOLD),
    remedies: (known, bench) => {
      const question = questionOf(known, TOLD)
      const { checks, ...ranked } = judge.rankChecks(question)
      const isAway = ({ powered, refs }: RankedCheck): boolean =>
        (powered && !question.mayPower) ||
        (bench.offNow.length > 0 && (powered || refs.some((ref) => bench.offNow.includes(ref))))
      const open = checks.filter((check) => !isAway(check))
      return judge.proposeRemedies({ ...inputOf(known), bench }, { ...ranked, checks: open })
    },
    proposeWithoutChecks: (known) => proposed(known, 0),
    open: (known) => {
      const findings = findingsOf(model, known)
      const { instances } = checkInstances(model, findings, lookPlaces(model, findings))
      return instances.map(({ check, at }) => ({ kind: 'check', check: check.id, at }))
    },
  }
}

/** The rail that speaks against power on the card, as the judge of power says. */
export function railAgainstPower(model: BoardModel, { measurements }: Pick<Known, 'measurements'>) {
  const { reasons } = judgePower(model, { measurements, goodReadings: [], leads: ZEROED, phase: 'before' })
  return reasons.find(({ weight, lines }) => weight === 'against' && lines.some(({ kind }) => kind === 'rail'))
}

/** Somebody has lifted something or gone into it; a run alone changes nothing. */
export const isWorkedOn = ({ rounds }: Pick<Known, 'rounds'>): boolean =>
  rounds.some(({ putRight }) => putRight !== undefined)

function reportedSpills(engine: ReachEngine, marks: readonly SpillMark[], areas: readonly AreaMark[]): ReportedSpill[] {
  return marks.flatMap((mark) => {
    const substance = substances.find(({ id }) => id === mark.substance)
    if (substance === undefined) return []
    const hypotheses = engine.hypotheses(mark, [], substance, areas)
    return hypotheses.ok ? [{ mark, hypotheses: hypotheses.value, harm: harmOf(substance) }] : []
  })
}

function findingsOf(model: BoardModel, known: Known): Findings {
  const { rails, stages } = lineStates(model, known.measurements, [], ZEROED)
  const { lanes, signatures, spills, areas, slips, checks, rounds, told, unanswered = [] } = known
  return { lanes, signatures, spills, areas, slips, rails, stages, checks, rounds, told, unanswered }
}

/** Lanes and signatures as a report's tally gives them; lanes that it does not speak of are untested. */
export function evidenceOfTally(model: BoardModel, tally: Tally): Pick<Known, 'lanes' | 'signatures'> {
  const lanes = new Map<string, LaneState>(model.lanes.map(({ id }) => [id, 'untested']))
  for (const part of tally.parts)
    for (const channel of part.channels) for (const lane of channel.lanes) lanes.set(lane.id, lane.state)
  return { lanes, signatures: new Map(tally.parts.map(({ ref, signature }) => [ref, signature])) }
}
