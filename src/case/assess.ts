/** From everything entered about a card to what it means: reach of each spill, stories, lift list. */
import { type Fault, type Result, say } from '../base/index.ts'
import type { BoardModel, Side } from '../board/index.ts'
import type { GoodReadings, Leads, Measurement, PowerUp } from '../measure/index.ts'
import type { PassLog } from '../plan/index.ts'
import type { Tally } from '../report/index.ts'
import {
  createReachEngine,
  type Mark,
  type ReachEngine,
  type ReachResult,
  type SpillHypotheses,
  type SpillMark,
  type Substance,
  substanceOf,
} from '../spill/index.ts'
import {
  type AssumptionOverrides,
  type AtTheBench,
  type CheckAnswer,
  createJudge,
  type Harm,
  harmOf,
  type Judge,
  type JudgeInput,
  type PriceBookInput,
  lookPlaces,
  type Findings,
  type RankedChecks,
  type RemedyProposal,
  type ReportedSpill,
  type SuspectsResult,
} from '../suspects/index.ts'
import { hostAnswer } from './bench-machine/evidence.ts'
import { cleanedAfter, isTakenUp, isWashed } from './cleaning-done.ts'
import { findingsOf, marksWithFound, type SortedMarks, sortMarks } from './findings.ts'
import type { OpenedCase } from './open.ts'
import { assumptionsInForce, pricesInForce } from './own-record.ts'
import { powerOf, shortRails, usualPhase } from './power.ts'
import { checksAsItIs, heldToBench, heldToPower } from './powered-checks.ts'
import { type EarlierRun, isUntested, standingAfter } from './runs.ts'
import type { Case } from './schema.ts'

export interface Entered {
  readonly marks: readonly Mark[]
  readonly tally: Tally | undefined
  /** Substances that the user added; they come before shipped ones of the same id. */
  readonly substances: readonly Substance[]
  readonly assumptions: AssumptionOverrides | undefined
  /** Prices and minutes of the shop that differ from the shipped ones. */
  readonly prices?: PriceBookInput | undefined
  /** As reasons tell amounts. */
  readonly currency?: string | undefined
  readonly measurements: readonly Measurement[]
  readonly leads?: Leads | undefined
  readonly goodReadings: readonly GoodReadings[]
  readonly checks: readonly CheckAnswer[]
  /** What the owner says; unknown where left out. */
  readonly told?: Findings['told'] | undefined
  /** The log of passes, and the runs after them. */
  readonly passes?: PassLog | undefined
  readonly retest?: Tally | undefined
  /** Runs that work went on after. */
  readonly earlier?: readonly EarlierRun[] | undefined
  /** Something was put right and not tested since. */
  readonly untested?: boolean | undefined
  /** The card was washed and dried already. */
  readonly washed?: boolean | undefined
  /** Metal was taken up by hand. */
  readonly takenUp?: boolean | undefined
  /** So many passes were on the log when the whole board was first cleaned. */
  readonly washedAfter?: number | undefined
  /** What the judge of power says of the card as it is; checks under power are held to it. */
  readonly power?: PowerUp['verdict'] | undefined
}

/** What a case gives to the reasoning, with the marks that its log of passes adds. */
export function enteredOf({
  caseFile,
  model,
  tally,
  retest,
  earlier,
}: Pick<OpenedCase, 'caseFile' | 'model' | 'tally' | 'retest' | 'earlier'>): Entered {
  const { substances, measurements, leads, goodReadings, checks, passes, arrival } = caseFile
  return {
    marks: marksWithFound(caseFile, model),
    tally,
    substances,
    assumptions: assumptionsInForce(caseFile),
    prices: pricesInForce(caseFile),
    currency: caseFile.handBack.currency,
    measurements,
    leads,
    goodReadings,
    checks: [...checks, ...hostAnswer(model, caseFile.powered.enumerates, tally !== undefined)],
    passes,
    retest,
    earlier,
    untested: isUntested(caseFile),
    told: toldBy(arrival.accident),
    washed: isWashed(caseFile),
    takenUp: isTakenUp(caseFile),
    washedAfter: cleanedAfter(caseFile),
    power: powerOf(model, caseFile, usualPhase(caseFile)).verdict,
  }
}

/** What the account of the accident says about what was not marked. */
export const toldBy = (accident: Case['arrival']['accident']): NonNullable<Findings['told']> =>
  accident === 'none' ? 'no-accident' : accident === 'unknown' ? 'unknown' : 'accident'

export interface Assessment {
  /** One entry a spill mark that could be computed, in the order of the marks. */
  readonly reaches: readonly { readonly mark: string; readonly reach: ReachResult }[]
  readonly suspects: SuspectsResult
  /** What could not be computed: a spill off the board, a substance without its figures. The rest was. */
  readonly faults: readonly Fault[]
}

export interface Assessor {
  /** Marches from every region ahead of time, so that moving a mark is a lookup. */
  readonly prepare: (entered: Entered, onProgress?: (done: number) => void) => void
  readonly assess: (entered: Entered) => Assessment
  /** What to look at or measure next (see `rankChecks`), and the cheapest plan of remedies with others beside it. */
  readonly nextSteps: (entered: Entered, told?: number) => NextSteps
  /** What to look at or measure next; of the best `told` also what each outcome would change. Marks that could not be computed are left out, as they are of the assessment. */
  readonly rankChecks: (entered: Entered, told?: number) => RankedChecks
}

const GRID_CELL_MM = 1

/** Everything that belongs to one board and is worth keeping from one assessment to the next. */
export function createAssessor(model: BoardModel): Assessor {
  const engine = createReachEngine(model, { cellMm: GRID_CELL_MM })
  const judge = createJudge(model)
  return {
    prepare: (entered, onProgress) => {
      const marks = sortMarks(entered.marks)
      for (const spill of marks.spills) {
        const substance = substanceOf(spill.substance, entered.substances)
        if (substance !== undefined) engine.prepare(spill, marks.dams, substance, onProgress)
      }
    },
    assess: (entered) => assess(model, engine, judge, entered),
    nextSteps: (entered, told) => nextSteps({ model, engine, judge, entered, told }),
    rankChecks: (entered, told) => rankChecks({ model, engine, judge, entered, told }),
  }
}

function assess(model: BoardModel, engine: ReachEngine, judge: Judge, entered: Entered): Assessment {
  const { input, reaches, faults } = questionOf(model, engine, entered)
  return { reaches, suspects: judge.judge(input), faults }
}

export interface NextSteps {
  readonly ranked: RankedChecks
  readonly proposal: RemedyProposal
}

function nextSteps({ model, engine, judge, entered, told }: CheckWish): NextSteps {
  const ranked = rankChecks({ model, engine, judge, entered, told })
  const { input } = questionOf(model, engine, entered)
  return { ranked, proposal: judge.proposeRemedies(input, { ...ranked, checks: checksAsItIs(ranked, entered.power) }) }
}

/** What the judge is asked, with the reach of every spill that could be computed. */
function questionOf(model: BoardModel, engine: ReachEngine, entered: Entered) {
  const marks = sortMarks(entered.marks)
  const faults: Fault[] = []
  const reaches: { mark: string; reach: ReachResult }[] = []
  const spills: ReportedSpill[] = []
  for (const mark of marks.spills) {
    const computed = computeSpill(engine, mark, marks, entered)
    if (!computed.ok) {
      faults.push(...computed.faults)
      continue
    }
    reaches.push({ mark: mark.id, reach: computed.value.reach })
    spills.push({ mark, ...computed.value })
  }
  const unreported = sidesOf(model).map((side) =>
    engine.unreportedHypotheses({ side, areas: marks.areas, dams: marks.dams }),
  )
  const { assumptions, prices, currency } = entered
  const findings = findingsOf(model, entered, marks)
  const input: JudgeInput = {
    findings,
    assumptions,
    prices,
    currency,
    spills,
    unreported,
    bench: benchOf(model, entered),
  }
  return { input, reaches, faults }
}

function benchOf(model: BoardModel, entered: Entered): AtTheBench {
  const { washed = false, takenUp = false, untested = false, passes = [] } = entered
  const lifted = passes.flatMap(({ action, refs, outcome }) => (action === 'lift' && outcome === 'done' ? refs : []))
  return {
    washed,
    takenUp,
    untested,
    lifted: [...new Set(lifted)],
    offNow: [...standingAfter(passes).off],
    shorted: shortRails(model, entered, usualPhase({ passes })),
  }
}

interface CheckWish {
  readonly model: BoardModel
  readonly engine: ReachEngine
  readonly judge: Judge
  readonly entered: Entered
  readonly told: number | undefined
}

function rankChecks({ model, engine, judge, entered, told }: CheckWish): RankedChecks {
  const marks = sortMarks(entered.marks)
  const findings = findingsOf(model, entered, marks)
  const places = lookPlaces(model, findings)
  const areas = [...marks.areas, ...places.map(({ mark }) => mark)]
  const spills = marks.spills.flatMap((mark) => {
    const substance = substanceOf(mark.substance, entered.substances)
    const hypotheses = substance === undefined ? undefined : engine.hypotheses(mark, marks.dams, substance, areas)
    return hypotheses?.ok === true && substance !== undefined
      ? [{ mark, hypotheses: hypotheses.value, harm: harmOf(substance) }]
      : []
  })
  const unreported = sidesOf(model).map((side) => engine.unreportedHypotheses({ side, areas, dams: marks.dams }))
  const input = { findings, assumptions: entered.assumptions, prices: entered.prices, spills, unreported, places }
  const ranked = judge.rankChecks(told === undefined ? input : { ...input, told })
  return heldToPower(heldToBench(ranked, benchOf(model, entered).offNow), entered.power)
}

function computeSpill(
  engine: ReachEngine,
  mark: SpillMark,
  marks: SortedMarks,
  entered: Entered,
): Result<{ reach: ReachResult; hypotheses: SpillHypotheses; harm: Harm }> {
  const substance = substanceOf(mark.substance, entered.substances)
  if (substance === undefined) {
    const fault = {
      path: `spill ${mark.id}`,
      found: say('substance {substance}', { substance: mark.substance }),
      expected: say('a known substance'),
      todo: say('Choose one in the spill station.'),
    }
    return { ok: false, faults: [fault] }
  }
  const reach = engine.reach(mark, marks.dams, substance)
  if (!reach.ok) return reach
  const hypotheses = engine.hypotheses(mark, marks.dams, substance, marks.areas)
  return hypotheses.ok
    ? { ok: true, value: { reach: reach.value, hypotheses: hypotheses.value, harm: harmOf(substance) } }
    : hypotheses
}

const sidesOf = (model: BoardModel): Side[] =>
  model.memories.some((part) => part.side === 'bottom') ? ['top', 'bottom'] : ['top']
