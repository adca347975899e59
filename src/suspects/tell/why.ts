/** Why a part is suspected or not: sentences for a technician that cite what was observed. */
import { decimals, joined, percent, roughMoney, say } from '../../base/index.ts'
import { type BoardModel, type PlacedPart, standsOnBoard } from '../../board/index.ts'
import { type AreaMark, nearestOfArea } from '../../spill/index.ts'
import { compassWord, gapMm, placeWords, compassSaid } from '../causes/places.ts'
import { lastAnswers } from '../checks/asked.ts'
import { checkById, checkWords } from '../checks/check-catalogue.ts'
import type { LiftQuestion } from '../lift/lift-list.ts'
import type { ReportedSpill } from '../sum/card.ts'
import { nameOf } from './sentences.ts'
import { type Reason, type Reasons, reasonsOf, type Weighed } from './weighed.ts'
import { hypothesisMasses } from './where.ts'

const WORTH_SAYING = 0.01
const NEARBY_MM = 15

/** What all reasons of one card draw on, computed once. */
export interface Grounds {
  readonly weighed: Weighed
  readonly question: LiftQuestion
  readonly reasons: Reasons
  /** By reported spill, by ref: probability that it reached the part, by its flow alone and given all that was seen. */
  readonly flows: readonly {
    readonly spill: ReportedSpill
    readonly before: ReadonlyMap<string, number>
    readonly after: ReadonlyMap<string, number>
  }[]
}

/**
 * What sentences about parts rest on. `before` and `after` are how likely the spill reached each part by flow alone,
 * and by all that was seen.
 */
export function groundsOf(weighed: Weighed, question: LiftQuestion): Grounds {
  const { posterior, spillNumbers } = weighed
  const flows = weighed.spills.map((spill, at) => {
    const { groups } = spill.hypotheses
    const masses = hypothesisMasses(posterior, spillNumbers[at] ?? -1, 0, groups.length)
    const flow = Float64Array.from(groups, ({ weight }) => weight)
    return { spill, before: reachedBy(weighed, spill, flow), after: reachedBy(weighed, spill, masses) }
  })
  return { weighed, question, reasons: reasonsOf(weighed), flows }
}

/** By ref: the mass of all hypotheses that reach one of its regions. */
function reachedBy(weighed: Weighed, { hypotheses }: ReportedSpill, masses: Float64Array): Map<string, number> {
  const { model } = weighed.card.context
  const sums = new Map<string, number>()
  for (const [number, { regions }] of hypotheses.groups.entries()) {
    const refs = new Set<string>()
    for (const region of regions) refs.add(model.regions[region]?.part ?? '')
    for (const ref of refs) sums.set(ref, (sums.get(ref) ?? 0) + (masses[number] ?? 0))
  }
  return sums
}

interface Told {
  readonly why: string[]
  /** Those of `why` that tell how likely a spill got to the part. */
  readonly whyReached: string[]
}

/** @param index of the part among the network's parts */
export function reasonsFor(grounds: Grounds, ref: string, index: number, listed: Listed): Told {
  const { weighed } = grounds
  const { model } = weighed.card.context
  const part = model.partByRef.get(ref)
  if (part === undefined) return { why: [], whyReached: [] }
  const whyReached = spillSentences(grounds, part)
  const marks = weighed.findings.areas.flatMap((area) => areaSentence(part, area))
  const why = [
    ...laneSentences(model, weighed, part),
    ...whyReached,
    ...marks,
    ...stageSentence(weighed, ref),
    ...checkSentences(model, weighed, ref),
    ...causeSentences(grounds, ref, index),
    moneySentence(grounds, index, listed),
  ]
  return { why, whyReached }
}

function laneSentences(model: BoardModel, weighed: Weighed, part: PlacedPart): string[] {
  if (part.kind === 'core') return coreSentences(model, weighed, part.ref)
  if (part.kind !== 'memory') return []
  const { lanes } = weighed.findings
  const own = model.lanes.filter((lane) => lane.part === part.ref)
  const named = (state: string): string[] =>
    own.filter((lane) => (lanes.get(lane.id) ?? 'untested') === state).map((lane) => lane.name)
  const fail = named('fail')
  const pass = named('pass')
  if (fail.length === 0) {
    if (pass.length === 0) return [say('No lane of {ref} was tested.', { ref: part.ref })]
    return [
      pass.length === own.length
        ? say('All of its {lanes} lanes pass.', { lanes: own.length })
        : say('{passing} of its {lanes} lanes pass.', { passing: pass.length, lanes: own.length }),
    ]
  }
  const lanesText =
    pass.length === 0 && fail.length > 1
      ? say('All {length} tested lanes fail', { length: fail.length })
      : say('{count, plural, one {Lane {lanes} fails} other {Lanes {lanes} fail}}', {
          count: fail.length,
          lanes: joined(fail),
        })
  const whole =
    pass.length === 0
      ? lanesText
      : say('{failing}, {passing} {count, plural, one {passes} other {pass}}', {
          failing: lanesText,
          passing: joined(pass),
          count: pass.length,
        })
  const signature = weighed.findings.signatures.get(part.ref)
  return [`${whole}.`, ...(signature === undefined ? [] : [signature.sentence])]
}

const stackSentence = (stacks: readonly string[], core: string): string =>
  stacks.length === 1
    ? say('{stacks} fails; it stands on {core} and comes off with it alone.', { stacks: joined(stacks), core })
    : say('{stacks} fail; they stand on {core} and come off with it alone.', { stacks: joined(stacks), core })

function coreSentences(model: BoardModel, weighed: Weighed, ref: string): string[] {
  const failing = model.memories.filter((memory) =>
    model.lanes.some((lane) => lane.part === memory.ref && weighed.findings.lanes.get(lane.id) === 'fail'),
  )
  const hidden = say('Under a core nobody can see; it is judged by what hangs on it.')
  if (failing.length === 0) return [say('No tested lane fails.'), hidden]
  const onIt = failing.filter((memory) => !standsOnBoard(memory)).map((stack) => stack.ref)
  if (onIt.length > 0) return [stackSentence(onIt, ref), hidden]
  const refs = failing.map((memory) => memory.ref)
  if (refs.length === 1)
    return [say('Only {refs} fails; a fault of the core seldom stays with one package.', { refs: refs[0] }), hidden]
  return [say('{refs} fail together, and the core is what they share.', { refs: joined(refs) }), hidden]
}

function spillSentences(grounds: Grounds, part: PlacedPart): string[] {
  const { model } = grounds.weighed.card.context
  return grounds.flows.flatMap(({ spill, before, after: given }) => {
    const flow = before.get(part.ref) ?? 0
    const after = given.get(part.ref) ?? 0
    if (flow < WORTH_SAYING && after < WORTH_SAYING) return []
    const { at, side } = spill.mark
    const gap = gapMm(part, at)
    const where =
      gap < 0.5
        ? placeWords(model, at, side)
        : say('{gap} {at} of it', { gap: mm(gap), at: compassSaid[compassWord(part.placement.at, at)] })
    const under = part.kind === 'core' ? say(' underneath') : ''
    return [
      say(
        'Chance that the spill reported {where} reached it{under}: {flow} from its flow only, {after} with test results and what was seen.',
        { where, under, flow: percent(flow), after: percent(after) },
      ),
    ]
  })
}

const mm = (length: number): string => `${length < 10 ? decimals(length, 1) : Math.round(length)} mm`

const AREA_WORDS: Record<AreaMark['kind'], string> = {
  residue: say('Residue was seen'),
  film: say('A film was seen'),
  corrosion: say('Corrosion was seen'),
  clean: say('The board was seen to be clean'),
}

function areaSentence(part: PlacedPart, area: AreaMark): string[] {
  if (part.side !== area.side) return []
  const nearest = nearestOfArea(area, part.placement.at)
  const gap = gapMm(part, nearest)
  if (gap > NEARBY_MM) return []
  const where =
    gap < 0.5
      ? say('at its body')
      : say('{gap} {at} of it', { gap: mm(gap), at: compassSaid[compassWord(part.placement.at, nearest)] })
  return [`${AREA_WORDS[area.kind]} ${where}.`]
}

const STAGE_WORDS = {
  low: say('Measured cold, it read low.'),
  open: say('Measured cold, it read open.'),
  fine: say('Measured cold, it read like its siblings.'),
} as const

function stageSentence({ findings }: Weighed, ref: string): string[] {
  const state = findings.stages?.get(ref)
  return state === undefined ? [] : [STAGE_WORDS[state]]
}

/** What checks found at the part, at its lanes, and on the rails that it makes. */
function checkSentences(model: BoardModel, { findings }: Weighed, ref: string): string[] {
  return lastAnswers(findings.checks ?? []).flatMap(({ check, at, found }) => {
    const entry = checkById(check)
    const isAbout =
      at === ref ||
      model.laneById.get(at)?.part === ref ||
      model.rails.some(({ name, stages }) => name === at && stages.includes(ref))
    return entry !== undefined && isAbout ? [checkWords(found ? entry.found : entry.notFound, at)] : []
  })
}

const inWords = (reasons: readonly Reason[]): string =>
  joined(reasons.slice(0, 4).map(({ at, probability }) => `${nameOf(at)} ${percent(probability)}`))

const byProbability = (a: Reason, b: Reason): number => b.probability - a.probability

/** What is less than so much of a part's own chance is no reason beside what carries it, such as what lies under it. */
const LEAST_OF_CHANCE = 0.02

function causeSentences({ reasons, question }: Grounds, ref: string, index: number): string[] {
  const own = (reasons.own.get(ref) ?? []).filter(({ probability }) => probability >= WORTH_SAYING)
  const shared = reasons.shared.filter(({ probability }) => probability >= WORTH_SAYING)
  const least = LEAST_OF_CHANCE * (question.probability[index] ?? 0)
  const lift = [...own.filter(({ lifts }) => lifts), ...shared.filter(({ lifts }) => lifts.includes(index))].filter(
    ({ probability }) => probability >= least,
  )
  const touching = shared.filter(({ lifts, touches }) => !lifts.includes(index) && touches.has(ref))
  const other = [...own.filter(({ lifts }) => !lifts), ...touching]
  return [
    ...(lift.length > 0
      ? [say('Reasons to lift it: {byProbability}.', { byProbability: inWords(lift.toSorted(byProbability)) })]
      : []),
    ...(other.length > 0
      ? [
          say('What else would explain its failing lanes: {byProbability}.', {
            byProbability: inWords(other.toSorted(byProbability)),
          }),
        ]
      : []),
  ]
}

/** Of a part: whether it is on the list, and the chance that it must come off once what a wash cures is taken off. */
interface Listed {
  readonly lift: boolean
  readonly comesOff: number
}

/** Chances of a wash that are not worth words. */
const WASH_TOLD_FROM = 0.005

function moneySentence({ question, weighed }: Grounds, index: number, { lift, comesOff }: Listed): string {
  const probability = question.probability[index] ?? 0
  const now = question.liftCost[index] ?? 0
  const left = probability * (question.comebackCost + now)
  const costs = say('lifting costs about {now}, leaving it about {left} on average', {
    now: roughMoney(now, weighed.prices.currency),
    left: roughMoney(left, weighed.prices.currency),
  })
  const washMayDo = probability - comesOff
  const chance = { comesOff: percent(comesOff), washMayDo: percent(washMayDo) }
  const needs =
    washMayDo < WASH_TOLD_FROM
      ? say('It must come off with a chance of {comesOff}', chance)
      : say('It must come off with a chance of {comesOff} (a wash may do: {washMayDo})', chance)
  if (lift === left > now) return `${needs}: ${costs}.`
  return lift
    ? say('{needs}: {costs}; it is on the list because of what the others leave open.', { needs, costs })
    : say('{needs}: {costs}; it stays because a comeback for the others would find it too.', { needs, costs })
}
