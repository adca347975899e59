/** Why a part is suspected or not: sentences for a technician that cite what was observed. */
import type { BoardModel, PlacedPart } from '../board/index.ts'
import type { AreaMark } from '../spill/index.ts'
import type { LiftQuestion } from './lift-list.ts'
import { compassWord, gapMm, placeWords } from './places.ts'
import { listed, nameOf, percent } from './sentences.ts'
import { otherExplanations, type Reason, reachOf, reasonsToLift, spatialsOf, type Weighed } from './weighed.ts'

const WORTH_SAYING = 0.01
const NEARBY_MM = 15

/** @param index of the part among the network's parts */
export function reasonsFor(weighed: Weighed, question: LiftQuestion, ref: string, index: number, lift: boolean) {
  const model = weighed.setting.context.model
  const part = model.partByRef.get(ref)
  if (part === undefined) return []
  const marks = weighed.findings.areas.flatMap((area) => areaSentence(part, area))
  return [
    ...laneSentences(model, weighed, part),
    ...spillSentences(weighed, part, index),
    ...marks,
    ...causeSentences(weighed, ref, index),
    moneySentence(question, index, lift),
  ]
}

function laneSentences(model: BoardModel, weighed: Weighed, part: PlacedPart): string[] {
  if (part.kind === 'core') return coreSentences(model, weighed)
  if (part.kind !== 'memory') return []
  const { lanes } = weighed.findings
  const own = model.lanes.filter((lane) => lane.part === part.ref)
  const named = (state: string): string[] =>
    own.filter((lane) => (lanes.get(lane.id) ?? 'untested') === state).map((lane) => lane.name)
  const fail = named('fail')
  const pass = named('pass')
  if (fail.length === 0) {
    if (pass.length === 0) return [`No lane of ${part.ref} was tested.`]
    return [`${pass.length === own.length ? 'All' : pass.length} of its ${own.length} lanes pass.`]
  }
  const lanesText = pass.length === 0 ? `All ${fail.length} tested lanes fail` : `Lanes ${listed(fail)} fail`
  const rest = pass.length === 0 ? '' : `, ${listed(pass)} pass`
  const signature = weighed.findings.signatures.get(part.ref)
  return [`${lanesText}${rest}.`, ...(signature === undefined ? [] : [signature.sentence])]
}

function coreSentences(model: BoardModel, weighed: Weighed): string[] {
  const failing = model.memories.filter((memory) =>
    model.lanes.some((lane) => lane.part === memory.ref && weighed.findings.lanes.get(lane.id) === 'fail'),
  )
  const hidden = 'Under a core nobody can see; it is judged by what hangs on it.'
  if (failing.length === 0) return ['No tested lane fails.', hidden]
  const refs = failing.map((memory) => memory.ref)
  if (refs.length === 1) return [`Only ${refs[0]} fails; a fault of the core seldom stays with one package.`, hidden]
  return [`${listed(refs)} fail together, and the core is what they share.`, hidden]
}

function spillSentences(weighed: Weighed, part: PlacedPart, index: number): string[] {
  const { problem, posterior, setting } = weighed
  const { model } = setting.context
  return spatialsOf(problem).flatMap((spatial, at) => {
    if (spatial.cause.kind !== 'spill') return []
    const before = priorReach(weighed, spatial.cause.states, index)
    const after = reachOf(spatial, posterior.groups[at] ?? new Float64Array(0), index)
    if (before < WORTH_SAYING && after < WORTH_SAYING) return []
    const spill = weighed.spills.find(({ hypotheses }) => hypotheses.groups === spatial.cause.states)
    if (spill === undefined) return []
    const { at: point, side } = spill.mark
    const gap = gapMm(part, point)
    const where =
      gap < 0.5 ? placeWords(model, point, side) : `${mm(gap)} ${compassWord(part.placement.at, point)} of it`
    const under = part.kind === 'core' ? 'regions under it' : 'it'
    return [
      `The spill reported ${where} reached ${under} with ${percent(before)} by its flow alone, ${percent(after)} given what fails and what was seen.`,
    ]
  })
}

function priorReach(
  weighed: Weighed,
  states: readonly { readonly weight: number; readonly regions: Uint16Array }[],
  index: number,
): number {
  const { regionItems } = weighed.setting.items
  let sum = 0
  for (const { weight, regions } of states) {
    for (let i = 0; i < regions.length; i++) {
      if (regionItems[regions[i] ?? 0]?.part !== index) continue
      sum += weight
      break
    }
  }
  return Math.min(1, sum)
}

const mm = (length: number): string => `${length < 10 ? length.toFixed(1) : Math.round(length)} mm`

const AREA_WORDS: Record<AreaMark['kind'], string> = {
  residue: 'Residue was seen',
  film: 'A film was seen',
  corrosion: 'Corrosion was seen',
  clean: 'The board was seen to be clean',
}

function areaSentence(part: PlacedPart, area: AreaMark): string[] {
  if (part.side !== area.side) return []
  const gap = gapMm(part, area.at)
  if (gap > NEARBY_MM) return []
  const where = gap < 0.5 ? 'at its body' : `${mm(gap)} ${compassWord(part.placement.at, area.at)} of it`
  return [`${AREA_WORDS[area.kind]} ${where}.`]
}

function causeSentences(weighed: Weighed, ref: string, index: number): string[] {
  const say = (reasons: readonly Reason[]): string =>
    listed(reasons.slice(0, 4).map(({ at, probability }) => `${nameOf(at)} ${percent(probability)}`))
  const worth = (reasons: readonly Reason[]): Reason[] =>
    reasons.filter(({ probability }) => probability >= WORTH_SAYING)
  const lift = worth(reasonsToLift(weighed, index))
  const other = worth(otherExplanations(weighed, ref, index))
  return [
    ...(lift.length > 0 ? [`Reasons to lift it: ${say(lift)}.`] : []),
    ...(other.length > 0 ? [`What else would explain its failing lanes: ${say(other)}.`] : []),
  ]
}

function moneySentence(question: LiftQuestion, index: number, lift: boolean): string {
  const probability = question.probability[index] ?? 0
  const now = question.liftCost[index] ?? 0
  const left = probability * (question.comebackCost + now)
  const costs = `lifting costs about ${Math.round(now)}, leaving it about ${Math.round(left)} in expectation`
  const needs = `It needs lifting with ${percent(probability)}`
  if (lift === left > now) return `${needs}: ${costs}.`
  return lift
    ? `${needs}: ${costs}; it is on the list because of what the others leave open.`
    : `${needs}: ${costs}; it stays because a comeback for the others would find it too.`
}
