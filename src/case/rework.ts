/** From a lift list to a rework plan: heat solves of parts and groups, then the order, as the log of passes leaves it. */
import { bad, good, type Result, percent, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import {
  defaultEquipment,
  type Equipment,
  type Exposure,
  exposureFrom,
  type HeatCaution,
  heatCautions,
  type HeatRun,
  type JointWindow,
  jointWindow,
  searchFor,
} from '../heat/index.ts'
import {
  type BenchTick,
  type FloorLife,
  type PassLog,
  type PlanAnswer,
  type PlannedRow,
  planRework,
  replan,
  resolveShopSettings,
  type ShopSettingsInput,
  standing,
} from '../plan/index.ts'
import { type Substance, substances as shippedSubstances } from '../spill/index.ts'
import { type CauseKind, type Story, type SuspectsResult } from '../suspects/index.ts'
import {
  type ExposureShelf,
  heatForPlan,
  type HeatQuestion,
  MOST_GROUPS_SOLVED,
  type PlanHeat,
  type ReworkWatch,
  shieldsAt,
} from './plan-heat.ts'
import type { PadRepair } from './pad-repairs.ts'
import type { LookFirst } from './power.ts'
import { tornBallsOf } from './pad-repairs/meaning.ts'
import { paceInForce } from './own-record.ts'
import type { Case } from './schema.ts'

export interface ReworkQuestion {
  /** Refs to take off, usually `SuspectsResult.lift`. */
  readonly lift: readonly string[]
  /** That the card works once these were seen to, 0 … 1; see `SuspectsResult.works`. */
  readonly successProbability: number
  /** By ref: that the part needs lifting; what can't be lifted with this equipment takes that from the success. */
  readonly needs?: ReadonlyMap<string, number>
  readonly equipment: Equipment | undefined
  readonly shop: ShopSettingsInput | undefined
  readonly passes: PassLog
  /** Steps as they stood when something was last noted: they keep their numbers. */
  readonly planned?: readonly PlannedRow[] | undefined
  /** Bench work that was ticked off. */
  readonly ticks?: readonly BenchTick[] | undefined
  readonly floorLife: ReadonlyMap<string, FloorLife>
  /** Refs of listed parts that are bad themselves. */
  readonly replace?: ReadonlySet<string> | undefined
  /** Torn pads that were noted by their ball. */
  readonly padRepairs?: readonly PadRepair[] | undefined
  /** The board was cleaned and dried, as was noted. */
  readonly cleaned?: boolean | undefined
  readonly substances: readonly Substance[]
  /** Shields that the user chose, by the target at which they are put on. */
  readonly shields: readonly { readonly target: string; readonly ref: string; readonly kind: 'tape' | 'heat-sink' }[]
}

export interface Rework {
  readonly answer: PlanAnswer
  readonly exposures: readonly Exposure[]
  /** What the logged passes changed, in sentences. */
  readonly changes: readonly string[]
  /** Parts that this equipment can't lift, and what is missing. */
  readonly cannot: readonly { readonly ref: string; readonly missing: readonly string[] }[]
}

export interface HeatWatch {
  readonly onProgress?: (share: number) => void
  readonly signal?: { readonly aborted: boolean }
}

/**
 * Solves the heat of each target and of the likeliest groups under one nozzle, then orders the passes.
 * @returns the plan; or the faults of the question. Parts that can't be lifted with this equipment are left out and named.
 */
export function planCase(
  model: BoardModel,
  question: ReworkQuestion,
  watch: ReworkWatch = {},
  shelf: ExposureShelf = new Map(),
): Result<Rework> {
  const shop = resolveShopSettings(question.shop)
  if (!shop.ok) return shop
  const lift = [...new Set(question.lift)]
  const heat = heatForPlan(model, lift, question, shop.value, watch, shelf)
  if (!heat.ok) return heat
  const { exposures, cannot } = heat.value
  if (exposures.size === 0 && cannot.length > 0) {
    return bad(
      ...cannot.map(({ ref, missing }) => ({
        path: `heat of ${ref}`,
        found: missing.join('; '),
        expected: say('equipment that melts its joints'),
        todo: say('Change the equipment, or give the part to somebody who has it.'),
      })),
    )
  }
  return order(model, { ...question, lift: lift.filter((ref) => exposures.has(ref)) }, heat.value)
}

function order(model: BoardModel, question: ReworkQuestion, heat: PlanHeat): Result<Rework> {
  const { exposures, groups, groupsThatFail, cannot } = heat
  const input = {
    model,
    lift: question.lift,
    exposures,
    groups,
    groupsThatFail,
    nozzles: (question.equipment ?? defaultEquipment).nozzles,
    floorLife: question.floorLife,
    successProbability: successWithout(question, cannot),
    substances: question.substances,
    tornBalls: tornBallsOf(model, question.padRepairs ?? []),
    ...(question.replace === undefined ? {} : { replace: question.replace }),
    ...(question.cleaned === true ? {} : { cleanFirst: question.substances }),
    ...(question.shop === undefined ? {} : { settings: question.shop }),
  }
  const { passes, ticks = [] } = question
  const planned = passes.length + ticks.length === 0 ? planRework(input) : replan(input, passes, ticks)
  if (!planned.ok) return planned
  const { answer, changes } = 'answer' in planned.value ? planned.value : { answer: planned.value, changes: [] }
  const notes = [...answer.notes, ...capNote(heat)]
  const { open } = standing(question.planned ?? [], answer.best.steps, passes, ticks)
  const best = { ...answer.best, steps: open }
  return good({ answer: { ...answer, best, notes }, exposures: [...exposures.values()], changes, cannot })
}

/** What can't be lifted or was skipped takes its need from the success; a part that stays off takes all of it. */
function successWithout({ successProbability, needs, passes }: ReworkQuestion, cannot: Rework['cannot']): number {
  const last = new Map(passes.flatMap(({ refs, action, outcome }) => refs.map((ref) => [ref, { action, outcome }])))
  const skipped = [...last].filter(([, { outcome }]) => outcome === 'skipped')
  if (skipped.some(([, { action }]) => action === 'refit')) return 0
  const lost = new Set([...cannot.map(({ ref }) => ref), ...skipped.map(([ref]) => ref)])
  const need = [...lost].reduce((sum, ref) => sum + (needs?.get(ref) ?? 0), 0)
  return Math.max(0, successProbability - need)
}

const capNote = ({ candidates }: PlanHeat): string[] =>
  candidates > MOST_GROUPS_SOLVED
    ? [
        say(
          'Heat was solved for {solved} of the {candidates} groups that one nozzle would cover, those first whose parts melt each other anyway and that one plan can take together; a plan with one of the others may cost less.',
          { solved: MOST_GROUPS_SOLVED, candidates },
        ),
      ]
    : []

/** A supply out of tolerance and a cut track stay what they are, whatever comes off. */
const NO_LIFT_MENDS: ReadonlySet<CauseKind> = new Set(['rail', 'rail-branch', 'corridor'])

const isBeyondLifts = (story: Story): boolean => story.causes.some(({ kind }) => NO_LIFT_MENDS.has(kind))

/** From this share on it is said beside the plan that something is suspected which lifting leaves as it is. */
const WORTH_SAYING = 0.1

const BEFORE_HEAT = say(
  'Before any heat measure there with the card off and repair it, then run the memory test again.',
)

/** What no lift mends and is likely enough to be looked at before any heat. */
export const findBeyondLifts = ({ stories }: SuspectsResult): LookFirst[] =>
  stories
    .filter((story) => isBeyondLifts(story) && story.probability >= WORTH_SAYING)
    .map(({ sentence, probability }) => ({
      what: say('{sentence} ({probability}), and no lift mends that', {
        sentence: sentence.replace(/\.$/, ''),
        probability: percent(probability),
      }),
      todo: BEFORE_HEAT,
    }))

/** What is looked at before any heat: rails that read short, as `shortsFirst` has them; where none does, what no lift mends. */
export function lookFirst(shorts: LookFirst | undefined, suspects: SuspectsResult | undefined): LookFirst[] {
  // a run from before the short tells nothing of rails that are only suspected
  if (shorts !== undefined) return [shorts]
  return suspects === undefined ? [] : findBeyondLifts(suspects)
}

/** The question that a case asks once its suspects are judged. */
export function reworkQuestion(caseFile: Case, suspects: SuspectsResult): ReworkQuestion {
  const { equipment, shop, passes, ticks, planned, floorLife, shields, padRepairs } = caseFile
  // What is on the log was on the list once: evidence from under it may have taken it off since.
  const lift = [...new Set([...suspects.lift, ...passes.flatMap(({ refs }) => refs)])]
  return {
    lift,
    successProbability: suspects.works,
    needs: new Map(suspects.parts.map(({ ref, probability }) => [ref, probability])),
    equipment,
    shop: { ...shop, pace: paceInForce(caseFile) },
    passes,
    planned,
    ticks,
    floorLife: new Map(floorLife.map(({ ref, state }) => [ref, state])),
    replace: new Set(suspects.parts.flatMap(({ ref, remedy }) => (remedy.action === 'replace' ? [ref] : []))),
    padRepairs,
    cleaned: caseFile.cleaned !== undefined,
    substances: substancesOf(caseFile),
    shields,
  }
}

function substancesOf(caseFile: Case): Substance[] {
  const used = new Set(caseFile.marks.flatMap((mark) => (mark.kind === 'spill' ? [mark.substance] : [])))
  return [...caseFile.substances, ...shippedSubstances].filter(({ id }) => used.has(id))
}

export interface SolvedHeat {
  /** Undefined where the equipment can't do it; then `missing` says what it lacks. */
  readonly run: HeatRun | undefined
  readonly minutes: number
  readonly joints?: JointWindow | undefined
  readonly liftFromS?: number | undefined
  /** Of a refit outside of the usual window or with a wider nozzle: what is had instead, in sentences. */
  readonly short?: string | undefined
  readonly missing: readonly string[]
  readonly cautions: readonly HeatCaution[]
}

/** The heat of one part by itself, lifted or put on again, whether it is on any list or not. */
export function solveHeat(
  model: BoardModel,
  ref: string,
  purpose: 'lift' | 'refit',
  question: HeatQuestion,
  watch: HeatWatch = {},
): Result<SolvedHeat> {
  const shields = shieldsAt([ref], question)
  const found = searchFor(purpose)(model, {
    ref,
    equipment: question.equipment ?? defaultEquipment,
    shields,
    ...watch,
  })
  if (!found.ok) return found
  if ('cannot' in found.value) return good({ run: undefined, minutes: 0, missing: found.value.cannot, cautions: [] })
  const { run, short, window = purpose } = found.value
  const { minutes, liftFromS } = exposureFrom(run, ref)
  const part = model.partByRef.get(ref)
  const joints = part && jointWindow([part], window)
  const cautions = heatCautions(run.setting, model)
  return purpose === 'refit'
    ? good({ run, minutes, joints, short, missing: [], cautions })
    : good({ run, minutes, joints, liftFromS, missing: [], cautions })
}
