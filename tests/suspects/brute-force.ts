/**
 * The straightforward reference: every set of causes times every state of every spatial cause, each with its weight,
 * by the formula of the noisy-OR network alone. Exponential; for boards of a handful of causes.
 */
import type { Point } from '../../src/base/index.ts'
import { polygonContains } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import {
  type Assumptions,
  type CauseKind,
  checkById,
  type JudgeInput,
  placeWithin,
  placeWords,
  withAssumptions,
} from '../../src/suspects/index.ts'

/** What may be bad or good, by name. */
interface Observed {
  readonly bad: boolean
  readonly leak: number
  readonly part?: string
}

/** A cause, or a state of a spatial one: how it makes things bad, what it lifts, and its name in stories. */
interface Option {
  readonly kind: CauseKind
  readonly name: string
  readonly weight: number
  readonly q: ReadonlyMap<string, number>
  readonly lifts: readonly string[]
}

export interface Brute {
  /** Probability of each story, by its causes' kinds and names joined by ` + `. */
  readonly stories: ReadonlyMap<string, number>
  /** Probability that each part needs lifting. */
  readonly lift: ReadonlyMap<string, number>
  /** Probability that none of some parts needs lifting. */
  readonly noneNeeds: (refs: readonly string[]) => number
  /** P(all that was observed), and by set of parts (sorted, joined by blanks) the share in which exactly it needs lifting. */
  readonly evidence: number
  readonly needs: ReadonlyMap<string, number>
}

export function bruteForce(model: BoardModel, input: JudgeInput): Brute {
  const assumptions = withAssumptions(input.assumptions)
  const observed = observe(model, input, assumptions)
  const variables = variablesOf(model, input, assumptions, observed)
  const names = [...observed.keys()]
  const parts = [...new Set(variables.flat().flatMap(({ lifts }) => lifts))]
  const prepared = variables.map((options) =>
    options
      .filter(({ weight }) => weight > 0)
      .map((option) => ({
        weight: option.weight * signatureRatio(option, input, assumptions, observed),
        good: Float64Array.from(names, (name) => 1 - (option.q.get(name) ?? 0)),
        lifts: option.lifts.reduce((bits, ref) => bits | (1 << parts.indexOf(ref)), 0),
        story: touched(option, observed).length > 0 ? [`${option.kind} ${option.name}`] : [],
      })),
  )
  const bad = names.map((name) => observed.get(name)?.bad ?? false)
  const worlds = new Map<string, number>()
  const lifted = new Float64Array(1 << parts.length)
  const visit = (depth: number, weight: number, good: Float64Array, lifts: number, story: readonly string[]): void => {
    const options = prepared[depth]
    if (options !== undefined) {
      for (const option of options) {
        const left = good.map((value, i) => value * (option.good[i] ?? 1))
        const told = option.story.length === 0 ? story : [...story, ...option.story]
        visit(depth + 1, weight * option.weight, left, lifts | option.lifts, told)
      }
      return
    }
    let likelihood = weight
    for (let i = 0; i < bad.length; i++) likelihood *= bad[i] ? 1 - (good[i] ?? 1) : (good[i] ?? 1)
    const key = [...story].toSorted().join(' + ')
    worlds.set(key, (worlds.get(key) ?? 0) + likelihood)
    lifted[lifts] = (lifted[lifts] ?? 0) + likelihood
  }
  visit(
    0,
    1,
    Float64Array.from(names, (name) => 1 - (observed.get(name)?.leak ?? 0)),
    0,
    [],
  )
  const total = lifted.reduce((sum, weight) => sum + weight, 0)
  const stories = new Map([...worlds].map(([key, weight]) => [key, weight / total]))
  const noneNeeds = (refs: readonly string[]): number => {
    const asked = refs.reduce((bits, ref) => (parts.includes(ref) ? bits | (1 << parts.indexOf(ref)) : bits), 0)
    return lifted.reduce((sum, weight, lifts) => ((lifts & asked) === 0 ? sum + weight : sum), 0) / total
  }
  const lift = new Map(parts.map((ref) => [ref, 1 - noneNeeds([ref])]))
  const needs = new Map<string, number>()
  for (const [lifts, weight] of lifted.entries()) {
    if (weight > 0)
      needs.set(
        parts
          .filter((_, i) => (lifts >> i) & 1)
          .toSorted()
          .join(' '),
        weight,
      )
  }
  return { stories, lift, noneNeeds, evidence: total, needs }
}

const touched = (option: Option, observed: ReadonlyMap<string, Observed>): string[] =>
  [...option.q].flatMap(([name, q]) => (q > 0 && observed.get(name)?.bad === true && !lonely(name) ? [name] : []))

/** An area that only one spatial cause can touch weighs that cause's states and is no part of a story. */
let lonely: (name: string) => boolean = () => false

function observe(model: BoardModel, input: JudgeInput, assumptions: Assumptions): Map<string, Observed> {
  const { findings } = input
  const observed = new Map<string, Observed>()
  for (const lane of model.lanes) {
    const state = findings.lanes.get(lane.id) ?? 'untested'
    if (state !== 'untested')
      observed.set(lane.id, { bad: state === 'fail', leak: assumptions.fails.leak, part: lane.part })
  }
  for (const [name, state] of findings.rails) {
    observed.set(`rail ${name}`, { bad: state !== 'fine', leak: assumptions.evidence.railBadElsewhere })
  }
  for (const [ref, state] of findings.stages ?? []) {
    observed.set(`stage ${ref}`, { bad: state !== 'fine', leak: assumptions.evidence.stageBadElsewhere })
  }
  for (const [index, { kind }] of findings.areas.entries()) {
    const clean = kind === 'clean'
    observed.set(`area ${index}`, { bad: !clean, leak: clean ? 0 : assumptions.evidence.residueElsewhere })
  }
  for (const { check, at, found } of findings.checks ?? []) {
    const entry = checkById(check)
    if (entry?.evidence === 'check') observed.set(`check ${check} ${at}`, { bad: found, leak: entry.falseAlarm })
  }
  const spillCauses = input.spills.length + ((input.unreported ?? []).length > 0 ? 1 : 0)
  lonely = (name) => name.startsWith('area') && spillCauses === 1
  return observed
}

function signatureRatio(
  option: Option,
  input: JudgeInput,
  assumptions: Assumptions,
  observed: ReadonlyMap<string, Observed>,
): number {
  const parts = new Set(touched(option, observed).flatMap((name) => observed.get(name)?.part ?? []))
  let ratio = 1
  for (const part of parts) {
    const kind = input.findings.signatures.get(part)?.kind
    if (kind === undefined || kind === 'clean') continue
    const look = kind === 'byte' || kind === 'channel' || kind === 'package' ? 'whole' : kind
    ratio *= assumptions.signature[option.kind][look] / assumptions.signature.unknown[look]
  }
  return ratio
}

const absent = (weight: number): Option => ({ kind: 'die', name: '', weight, q: new Map(), lifts: [] })

/** With the places at which a check can meet it. */
type Binary = Omit<Option, 'weight'> & { readonly prior: number; readonly met: readonly string[] }

/** What a cause of a kind makes of the checks that were done at one of the places where it can be met. */
function checkQ(input: JudgeInput, kind: CauseKind, places: readonly string[]): [string, number][] {
  return (input.findings.checks ?? []).flatMap(({ check, at }) => {
    const entry = checkById(check)
    if (entry?.evidence !== 'check' || !places.includes(at)) return []
    const q = entry.finds[kind === 'unreported-spill' ? 'spill' : kind]
    return q === undefined ? [] : [[`check ${check} ${at}`, q]]
  })
}

function variablesOf(
  model: BoardModel,
  input: JudgeInput,
  assumptions: Assumptions,
  observed: ReadonlyMap<string, Observed>,
): Option[][] {
  const binaries = binariesOf(model, assumptions, observed).map(({ prior, met, ...cause }) => [
    absent(1 - prior),
    { ...cause, q: new Map([...cause.q, ...checkQ(input, cause.kind, met)]), weight: prior },
  ])
  const patches = patchOptions(model, assumptions, input)
  const patch = patches.length === 0 ? [] : [[absent(1 - assumptions.prior['core-patch']), ...patches]]
  const reported = input.spills.map(({ mark, hypotheses }) => {
    const name = placeWords(model, mark.at, mark.side)
    const options = hypotheses.groups.map((_, i) =>
      spillOption(model, assumptions, input, 'spill', () => name, hypotheses, i, assumptions.prior.spill),
    )
    return [absent(1 - assumptions.prior.spill), ...options]
  })
  const sides = input.unreported ?? []
  const prior = assumptions.prior['unreported-spill']
  const unreported =
    sides.length === 0
      ? []
      : [
          [
            absent(1 - prior),
            ...sides.flatMap((hypotheses) =>
              hypotheses.groups.map((_, i) =>
                spillOption(
                  model,
                  assumptions,
                  input,
                  'unreported-spill',
                  (at) => placeWords(model, at, hypotheses.side),
                  hypotheses,
                  i,
                  prior / sides.length,
                ),
              ),
            ),
          ],
        ]
  return [...binaries, ...patch, ...unreported, ...reported]
}

function binariesOf(model: BoardModel, assumptions: Assumptions, observed: ReadonlyMap<string, Observed>): Binary[] {
  const { prior, fails, evidence } = assumptions
  const qOf = (names: readonly string[], q: number): Map<string, number> =>
    new Map(names.filter((name) => observed.has(name)).map((name) => [name, q]))
  const lanesOf = (refs: readonly string[]): string[] =>
    model.lanes.filter((lane) => refs.includes(lane.part)).map((lane) => lane.id)
  const all = model.lanes.map((lane) => lane.id)
  const causes: Binary[] = []
  for (const { ref } of model.memories) {
    const own = lanesOf([ref])
    causes.push({ kind: 'die', name: ref, prior: prior.die, q: qOf(own, fails.die), lifts: [ref], met: [ref, ...own] })
    for (const region of model.regions.filter(({ part }) => part === ref)) {
      const kind = region.role === 'command' ? 'command-joints' : 'joints'
      const met = [ref, ...region.lanes]
      causes.push({ kind, name: region.id, prior: prior[kind], q: qOf(region.lanes, fails[kind]), lifts: [ref], met })
    }
  }
  for (const { lane } of model.corridors) {
    causes.push({
      kind: 'corridor',
      name: lane,
      prior: prior.corridor,
      q: qOf([lane], fails.corridor),
      lifts: [],
      met: [lane],
    })
  }
  for (const { name, feeds, branches, stages } of model.rails) {
    const own = `rail ${name}`
    const withRail = (refs: readonly string[], q: number, railQ: number): Map<string, number> =>
      new Map([...qOf(lanesOf(refs), q), ...qOf([own], railQ)])
    const ofStages = qOf(
      stages.map((ref) => `stage ${ref}`),
      evidence.stageBadIfRail,
    )
    const q = new Map([...withRail(feeds, fails.rail, evidence.railBadIfRail), ...ofStages])
    causes.push({ kind: 'rail', name: own, prior: prior.rail, q, lifts: [], met: [name, ...feeds] })
    for (const branch of branches) {
      causes.push({
        kind: 'rail-branch',
        name: `branch ${branch.name} of rail ${name}`,
        prior: prior['rail-branch'],
        q: withRail(branch.feeds, fails['rail-branch'], evidence.railBadIfBranch),
        lifts: [],
        met: [name, ...branch.feeds],
      })
    }
    for (const ref of stages) {
      const alone = stages.length === 1 ? fails['power-stage-alone'] : fails['power-stage']
      const touches = new Map([
        ...withRail(feeds, alone, evidence.railBadIfStage),
        ...qOf([`stage ${ref}`], evidence.stageBadIfStage),
      ])
      causes.push({
        kind: 'power-stage',
        name: ref,
        prior: prior['power-stage'],
        q: touches,
        lifts: [ref],
        met: [ref, name, ...feeds],
      })
    }
  }
  if (model.core !== undefined) {
    const { ref } = model.core
    causes.push({
      kind: 'core',
      name: ref,
      prior: prior.core,
      q: qOf(all, fails.core),
      lifts: [ref],
      met: [ref, ...all],
    })
  }
  return causes
}

function patchOptions(model: BoardModel, assumptions: Assumptions, input: JudgeInput): Option[] {
  const core = model.core
  if (core === undefined) return []
  const { radiiMm, stepMm } = assumptions.patch
  const found: Omit<Option, 'weight'>[] = []
  for (let y = core.box.minY + stepMm / 2; y < core.box.maxY; y += stepMm) {
    for (let x = core.box.minX + stepMm / 2; x < core.box.maxX; x += stepMm) {
      if (!polygonContains(core.outline, { x, y })) continue
      for (const radiusMm of radiiMm) {
        const q = new Map<string, number>()
        const covered = model.regions.filter(
          ({ part, centre }) => part === core.ref && Math.hypot(centre.x - x, centre.y - y) <= radiusMm,
        )
        for (const { lanes, side } of covered) {
          for (const lane of lanes) combine(q, lane, assumptions.fails['core-patch'])
          for (const [name, more] of checkQ(input, 'core-patch', [core.ref, ...lanes, side])) combine(q, name, more)
        }
        const name = placeWithin(core, { x, y })
        if (covered.length > 0) found.push({ kind: 'core-patch', name, q, lifts: [core.ref] })
      }
    }
  }
  return found.map((option) => ({ ...option, weight: assumptions.prior['core-patch'] / found.length }))
}

function combine(q: Map<string, number>, name: string, more: number): void {
  q.set(name, 1 - (1 - (q.get(name) ?? 0)) * (1 - more))
}

function spillOption(
  model: BoardModel,
  assumptions: Assumptions,
  input: JudgeInput,
  kind: 'spill' | 'unreported-spill',
  name: (at: Point) => string,
  hypotheses: JudgeInput['spills'][number]['hypotheses'],
  index: number,
  prior: number,
): Option {
  const { fails, evidence } = assumptions
  const group = hypotheses.groups[index]
  const at = { x: hypotheses.members.xMm[index] ?? 0, y: hypotheses.members.yMm[index] ?? 0 }
  const q = new Map<string, number>()
  const lifts = new Set<string>()
  for (const number of group?.regions ?? []) {
    const region = model.regions[number]
    if (region === undefined) continue
    lifts.add(region.part)
    const own = region.part === model.core?.ref ? fails['spill-at-core'] : fails['spill-at-memory']
    for (const lane of region.lanes) combine(q, lane, own)
    const met = [region.part, ...region.lanes, region.side]
    for (const [found, more] of checkQ(input, kind, met)) combine(q, found, more)
  }
  for (const number of group?.corridors ?? []) {
    const corridor = model.corridors[number]
    if (corridor !== undefined) combine(q, corridor.lane, fails['spill-on-corridor'])
  }
  for (const number of group?.areas ?? []) {
    const clean = input.findings.areas[number]?.kind === 'clean'
    q.set(`area ${number}`, clean ? 1 - evidence.cleanOverlooksReached : evidence.residueWhereReached)
  }
  return { kind, name: name(at), weight: prior * (group?.weight ?? 0), q, lifts: [...lifts] }
}
