/** From a case to what the shop's own record counts of it, and the draft of what was wrong that log and retests offer. */
import { type BoardModel, partKinds, type PlacedPart } from '../board/index.ts'
import { lineStates } from '../measure/index.ts'
import { evidenceFrom, type PassLog } from '../plan/index.ts'
import {
  branchesOf,
  type CausesFound,
  type ClosedCard,
  type Foretold,
  placesOf,
  type WorkedKind,
  type WorkedPart,
} from '../rehearsal/index.ts'
import type { Tally } from '../report/index.ts'
import { type AreaMark, type Mark, substanceOf } from '../spill/index.ts'
import { harmOf, type SuspectsResult } from '../suspects/index.ts'
import { lastAnswer } from './follow-up.ts'
import type { Case } from './schema.ts'

/** Handed back, and its causes confirmed: invented cards and good cards that were only measured teach nothing. */
export const isCounted = ({ demo, goodCard, handBack }: Case): boolean =>
  !demo && !goodCard && handBack.outcome !== undefined && handBack.causes?.settled !== undefined

/**
 * What the owner says weeks after the card went back counts too: where it still works, the mended fault stayed away; where
 * the same fault is back, what was taken for all that was wrong is taken back, and so is the repair. Another fault tells
 * of something else.
 * @param failing lanes that failed as the card came, where the case does not keep what was foretold
 * @returns undefined for a case that does not count
 */
export function closedCardOf(
  caseFile: Case,
  model: BoardModel,
  failing: readonly string[] = [],
): ClosedCard | undefined {
  const { handBack, marks, foretold, checks } = caseFile
  const { causes, on, outcome } = handBack
  if (causes === undefined || !isCounted(caseFile)) return undefined
  const parts = workedParts(caseFile, model, foretold?.failing ?? failing)
  const allKnown = causes.settled !== 'some' && !parts.some(({ was }) => was === 'unknown')
  const later = lastAnswer(caseFile)?.answer
  const isBack = later === 'same fault back'
  const { rails, stages } = lineStates(model, caseFile.measurements, caseFile.goodReadings)
  const lines = (states: ReadonlyMap<string, string>) =>
    [...states].map(([name, state]) => ({ name, bad: state !== 'fine' }))
  return {
    board: model.name,
    month: on?.slice(0, 'yyyy-mm'.length),
    repaired: outcome === 'repaired' && !isBack,
    held: allKnown && (isBack || later === 'works') ? !isBack : undefined,
    metal: hasMetal(caseFile),
    known: allKnown && !isBack,
    places: placesOf(model),
    parts,
    others: causes.settled === 'nothing-wrong' ? [] : causes.others.map(({ what, at }) => ({ what, at })),
    spillReported: marks.some(({ kind }) => kind === 'spill'),
    noAccidentTold: caseFile.arrival.accident === 'none',
    slipMarks: marks.filter(({ kind }) => kind === 'slip').length,
    rails: lines(rails),
    stages: lines(stages),
    railParts: new Map(model.rails.map(({ name, stages: makers, feeds }) => [name, { stages: makers, feeds }])),
    branches: branchesOf(model),
    checks,
    foretold,
  }
}

/** Rows of the hand-back, and parts that the log has lifted without one: nobody said what these were. */
function workedParts(caseFile: Case, model: BoardModel, failing: readonly string[]): WorkedPart[] {
  const { causes } = caseFile.handBack
  const rows = new Map(causes?.parts.map((row) => [row.ref, row]))
  const made = new Set(evidenceFrom(model, caseFile.passes).map(({ id }) => id))
  const marks = caseFile.marks.filter(({ id }) => !made.has(id))
  return [...new Set([...rows.keys(), ...partsWorkedOn(caseFile.passes)])].flatMap((ref): WorkedPart[] => {
    const part = model.partByRef.get(ref)
    if (part === undefined) return []
    const row = rows.get(ref)
    const was = causes?.settled === 'nothing-wrong' ? 'fine' : (row?.was ?? 'unknown')
    const lanes = model.lanes.filter((lane) => lane.part === ref).map(({ id }) => id)
    return [
      {
        ref,
        kind: kindOf(part),
        was,
        harmed: row?.harmed ?? false,
        minutes: row?.minutes,
        lifts: liftsOf(caseFile.passes, ref),
        refitted: refittedOf(caseFile.passes, ref),
        under: underOf(caseFile.passes, ref, was),
        look: lookOf(part, marks),
        lanes,
        commandLanes: model.regions.flatMap((region) =>
          region.part === ref && region.role === 'command' ? [region.lanes] : [],
        ),
        failing: lanes.filter((lane) => failing.includes(lane)),
      },
    ]
  })
}

const hasMetal = ({ marks, substances }: Case): boolean =>
  marks.some((mark) => {
    const substance = mark.kind === 'spill' ? substanceOf(mark.substance, substances) : undefined
    return substance !== undefined && harmOf(substance) === 'metal'
  })

function refittedOf(passes: PassLog, ref: string): WorkedPart['refitted'] {
  const last = passes.findLast(
    ({ action, outcome, refs }) => action === 'refit' && outcome === 'done' && refs.includes(ref),
  )
  if (last === undefined) return undefined
  return last.replaced ? 'a new one' : 'the same'
}

const kindOf = ({ kind }: PlacedPart): WorkedKind => partKinds[kind].workedAs

/** In the order of the log; what was only skipped was not worked on. */
export const partsWorkedOn = (passes: PassLog): string[] => [
  ...new Set(passes.flatMap(({ refs, outcome }) => (outcome === 'skipped' ? [] : refs))),
]

/** A try that did not come off heated it all the same. */
const liftsOf = (passes: PassLog, ref: string): number =>
  passes.filter(({ action, outcome, refs }) => action === 'lift' && outcome !== 'skipped' && refs.includes(ref)).length

const foundUnder = (passes: PassLog, ref: string): string[] =>
  passes.flatMap(({ found }) => found.flatMap((each) => (each.ref === ref ? each.what : [])))

function underOf(passes: PassLog, ref: string, was: WorkedPart['was']): WorkedPart['under'] {
  const found = foundUnder(passes, ref)
  if (was === 'under' || found.includes('wet') || found.includes('corroded')) return 'reached'
  return found.includes('clean') ? 'clean' : undefined
}

/** As far from a body's edge as its rim of residue is still taken for its own; common practice, no source. */
const RIM_MM = 1

/** Marks of inspection at a part's edge or across it: residue, film or corrosion tells more than a clean place. */
function lookOf(part: PlacedPart, marks: readonly Mark[]): WorkedPart['look'] {
  const near = marks.filter(isArea).filter((mark) => mark.side === part.side && isNear(part, mark))
  if (near.length === 0) return undefined
  return near.some(({ kind }) => kind !== 'clean') ? 'residue' : 'clean'
}

const isArea = (mark: Mark): mark is AreaMark =>
  mark.kind !== 'spill' && mark.kind !== 'dam' && mark.kind !== 'slip' && mark.kind !== 'note'

function isNear({ box }: PlacedPart, { at, radiusMm }: AreaMark): boolean {
  const dx = Math.max(box.minX - at.x, 0, at.x - box.maxX)
  const dy = Math.max(box.minY - at.y, 0, at.y - box.maxY)
  return Math.hypot(dx, dy) <= radiusMm + RIM_MM
}

/** Lanes that a run shows to fail. */
export const failingLanes = (tally: Tally | undefined): string[] =>
  (tally?.parts ?? []).flatMap(({ channels }) =>
    channels.flatMap(({ lanes }) => lanes.flatMap(({ id, state }) => (state === 'fail' ? [id] : []))),
  )

const STORIES_KEPT = 3

/** What is kept of an assessment, small enough to lie in every case. */
export function foretoldOf({ stories, lift, parts }: SuspectsResult, tally: Tally | undefined): Foretold {
  return {
    lift: [...lift],
    stories: stories.slice(0, STORIES_KEPT).map(({ probability, causes }) => ({
      probability: rounded(probability),
      causes: causes.map(({ kind, at, refs }) => ({ kind, at, refs: [...refs] })),
    })),
    parts: parts.map(({ ref, probability }) => ({ ref, probability: rounded(probability) })),
    failing: failingLanes(tally),
  }
}

const rounded = (probability: number): number => Math.min(1, Math.max(0, Math.round(probability * 1e5) / 1e5))

/** The row of a part that was looked into, before anybody said what it was. */
export const newRow = (ref: string, was: CausesFound['parts'][number]['was']): CausesFound['parts'][number] => ({
  ref,
  was,
  harmed: false,
})

/** A copy stands for another card: what was taken down, told, written, confirmed and foretold of the first one does not hold for it. */
export function copyOf(caseFile: Case, title: string): Case {
  const {
    foretold: _foretold,
    intake: _intake,
    quote: _quote,
    invoice: _invoice,
    followUps: _followUps,
    ...present
  } = caseFile
  const { causes: _causes, ...handBack } = present.handBack
  return { ...present, handBack, title }
}
