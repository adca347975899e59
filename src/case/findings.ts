/** Marks and tallies of a case, as the findings that the suspects room weighs. */
import type { BoardModel } from '../board/index.ts'
import { shortRails } from './power.ts'
import { type GoodReadings, type Leads, lineStates, type Measurement } from '../measure/index.ts'
import { evidenceFrom, type PassLog } from '../plan/index.ts'
import type { Signature, Tally } from '../report/index.ts'
import type { AreaMark, DamMark, Mark, SlipMark, SpillMark } from '../spill/index.ts'
import type { CheckAnswer, Findings } from '../suspects/index.ts'
import { lanesOf, roundsOf, type RunsAfterWork } from './runs.ts'
import type { Case } from './schema.ts'

export interface SortedMarks {
  readonly spills: readonly SpillMark[]
  readonly areas: readonly AreaMark[]
  readonly dams: readonly DamMark[]
  readonly slips: readonly SlipMark[]
}

/** The marks by kind, in their order; notes say nothing to the reasoning. */
export function sortMarks(marks: readonly Mark[]): SortedMarks {
  const spills: SpillMark[] = []
  const areas: AreaMark[] = []
  const dams: DamMark[] = []
  const slips: SlipMark[] = []
  for (const mark of marks) {
    if (mark.kind === 'spill') spills.push(mark)
    else if (mark.kind === 'dam') dams.push(mark)
    else if (mark.kind === 'slip') slips.push(mark)
    else if (mark.kind !== 'note') areas.push(mark)
  }
  return { spills, areas, dams, slips }
}

/** The marks of a case with those that its log of passes adds: what was found under lifted parts. */
export function marksWithFound(caseFile: Pick<Case, 'marks' | 'passes'>, model: BoardModel): Mark[] {
  const known = new Set(caseFile.marks.map(({ id }) => id))
  return [...caseFile.marks, ...evidenceFrom(model, caseFile.passes).filter(({ id }) => !known.has(id))]
}

/** Lanes without a tally are untested; of measurements the last reading of each line counts. */
export function findingsOf(
  model: BoardModel,
  entered: {
    readonly tally: Tally | undefined
    readonly measurements: readonly Measurement[]
    readonly leads?: Leads | undefined
    readonly goodReadings: readonly GoodReadings[]
    readonly checks: readonly CheckAnswer[]
    readonly told?: Findings['told'] | undefined
    readonly passes?: PassLog | undefined
  } & RunsAfterWork,
  marks: SortedMarks,
): Findings {
  const { tally, measurements, goodReadings, checks, told = 'unknown', passes = [] } = entered
  const lanes = lanesOf(model, tally)
  const signatures = new Map<string, Signature>()
  for (const part of tally?.parts ?? []) signatures.set(part.ref, part.signature)
  const { rails, stages } = lineStates(model, measurements, goodReadings, entered.leads)
  const { spills, areas, slips } = marks
  const rounds = roundsOf(model, passes, entered)
  const shorted = new Set(shortRails(model, entered, 'before'))
  return { lanes, signatures, spills, areas, slips, rails, shorted, stages, checks, told, rounds }
}
