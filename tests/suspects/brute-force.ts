/**
 * The straightforward reference: every set of causes, every state of every rail, stage, core and spill, every margin of
 * every package, each with its weight, by the formula of the noisy-OR network alone. Exponential; for boards of a handful of
 * causes. What a part has to come off for is read off each world: a cause of its own that is there, or harm at its end
 * of a lane, which did not happen with Π (1 - q).
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

const SEVERITIES = ['weak', 'low', 'gone'] as const
const MARGINS = ['thin', 'usual', 'ample'] as const

/** What may be bad or good, by name; `lastBad` and `good` are runs, as in a visit with rounds of work. */
interface Observed {
  readonly lastBad: number
  readonly good: number
  readonly leak: number
  /** How surely the run in which it was good missed that something is wrong. */
  readonly missed?: number
  readonly part?: string
  readonly isArea: boolean
}

/** How an option acts on one thing. */
interface Effect {
  readonly q: number
  readonly byMargin?: readonly number[]
  readonly end: 'memory' | 'core' | 'other'
  /** From this run on it is put right. */
  readonly rightFrom: number
}

/** A cause, or a state of something: how it makes things bad, what it has come off, and its name in stories. */
interface Option {
  readonly kind: CauseKind
  readonly name: string
  readonly weight: number
  readonly effects: readonly (readonly [string, Effect])[]
  readonly lifts: readonly string[]
  /** The package whose own cause it is. */
  readonly own?: string
  readonly isAbsent?: boolean
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

/**
 * The judge takes supplies that touch nothing bad one by one: what two of them at once do to the margin of a package that
 * passes is left out, a product of two priors. Without rails nothing is.
 */
export const toleranceFor = ({ rails }: BoardModel): number => (rails.length > 0 ? 2e-5 : 1e-9)

/** @param tellsStories false leaves `stories` empty, which is quicker by half */
export function bruteForce(model: BoardModel, input: JudgeInput, tellsStories = true): Brute {
  const assumptions = withAssumptions(input.assumptions)
  const observed = observe(model, input, assumptions)
  const variables = variablesOf(model, input, assumptions, observed).map((options) =>
    options.filter(({ weight }) => weight > 0),
  )
  const parts = [
    ...new Set([
      ...variables.flat().flatMap(({ lifts }) => lifts),
      ...variables
        .flat()
        .flatMap(({ effects }) => effects.flatMap(([name, { end }]) => endRef(model, observed, name, end))),
    ]),
  ]
  const packages = [...new Set([...observed.values()].flatMap(({ part }) => part ?? []))]
  const sound = new Float64Array(1 << parts.length)
  const world = { model, input, assumptions, observed, parts, packages, variables }
  const prepared = variables.map((options) => options.map((option) => prepare(world, option)))
  const names = [...observed.keys()]
  const seen = names.map((name) => observed.get(name))
  const ends = names.map((name) => [
    maskOf(parts, endRef(model, observed, name, 'memory')),
    maskOf(parts, endRef(model, observed, name, 'core')),
  ])
  const ofPackage = seen.map((each) => packages.indexOf(each?.part ?? ''))
  const shares = MARGINS.map((margin) => assumptions.severity[`margin-${margin}`])
  const sparing = Array.from(sound, (_, set) => ends.map(([memory = 0, core = 0]) => sparingOf(set, memory, core)))
  const marginsIn = Array.from({ length: 3 ** packages.length }, (_, combination) => ({
    share: packages.reduce((product, __, i) => product * (shares[digitOf(combination, i)] ?? 0), 1),
    of: ofPackage.map((at) => (at < 0 ? USUAL : digitOf(combination, at))),
  }))
  const alike = [{ share: 1, of: names.map(() => USUAL) }]
  const factors = new Float64Array(names.length * MARGINS.length * SPARINGS)
  // One room a depth, written anew: millions of worlds are gone through.
  const rooms = variables.map(() => new Float64Array(names.length * WIDTH))
  const looked = lookedAt(world)
  const chosen: Prepared[] = []
  const masses = new Map<number, number>()
  /** @param story the told options so far, as a number with a digit a variable */
  const visit = (
    depth: number,
    weight: number,
    left: Float64Array,
    byMargin: boolean,
    forced: number,
    story: number,
  ): void => {
    const options = prepared[depth]
    if (options !== undefined) {
      for (const [index, option] of options.entries()) {
        const next = option.left === undefined ? left : multiplied(rooms[depth] ?? left, left, option.left)
        if (option.option.isAbsent !== true) chosen.push(option)
        visit(
          depth + 1,
          weight * option.option.weight,
          next,
          byMargin || option.byMargin,
          forced | option.forced,
          story * (options.length + 1) + (option.told ? index + 1 : 0),
        )
        if (option.option.isAbsent !== true) chosen.pop()
      }
      return
    }
    const mass = weight * lookFactor(assumptions, looked, chosen)
    fillFactors(factors, seen, left)
    for (const { share, of } of byMargin ? marginsIn : alike) {
      for (let set = 0; set < sound.length; set++) {
        if ((set & forced) !== 0) continue
        const spared = sparing[set] ?? []
        let value = mass * share
        for (let i = 0; i < seen.length; i++)
          value *= factors[(i * MARGINS.length + (of[i] ?? USUAL)) * SPARINGS + (spared[i] ?? 0)] ?? 0
        sound[set] = (sound[set] ?? 0) + value
        if (set === 0 && tellsStories) masses.set(story, (masses.get(story) ?? 0) + value)
      }
    }
  }
  visit(0, 1, new Float64Array(names.length * WIDTH).fill(1), false, 0, 0)
  const stories = new Map<string, number>()
  for (const [number, mass] of masses) {
    const name = storyOf(prepared, number)
    stories.set(name, (stories.get(name) ?? 0) + mass)
  }
  const total = sound[0] ?? 0
  const noneNeeds = (refs: readonly string[]): number => (sound[maskOf(parts, refs)] ?? 0) / total
  return {
    stories: new Map([...stories].map(([key, weight]) => [key, weight / total])),
    lift: new Map(parts.map((ref) => [ref, 1 - noneNeeds([ref])])),
    noneNeeds,
    evidence: total,
    needs: exactSets(parts, sound),
  }
}

/** Number of the usual margin, which stands for all where nothing acts by margin. */
const USUAL = 1
/** Neither end of a thing spared, the package's, the core's, both: as two bits. */
const SPARINGS = 4

/** The story whose told options a number has as digits, the last variable's first. */
function storyOf(prepared: readonly (readonly Prepared[])[], number: number): string {
  if (number > Number.MAX_SAFE_INTEGER) throw new RangeError('more stories than numbers')
  const told: string[] = []
  let rest = number
  for (const options of prepared.toReversed()) {
    const option = options[(rest % (options.length + 1)) - 1]?.option
    if (option !== undefined) told.push(`${option.kind} ${option.name}`)
    rest = Math.floor(rest / (options.length + 1))
  }
  return told.toSorted().join(' + ')
}

const sparingOf = (set: number, memory: number, core: number): number =>
  ((memory & set) !== 0 ? 1 : 0) + ((core & set) !== 0 ? 2 : 0)

const digitOf = (combination: number, place: number): number => Math.floor(combination / 3 ** place) % 3

function multiplied(into: Float64Array, a: Float64Array, b: Float64Array): Float64Array {
  for (let i = 0; i < into.length; i++) into[i] = (a[i] ?? 1) * (b[i] ?? 1)
  return into
}

/** By thing, by margin, by what is spared: P(what was seen of it). */
function fillFactors(factors: Float64Array, seen: readonly (Observed | undefined)[], left: Float64Array): void {
  let at = 0
  for (let i = 0; i < seen.length; i++)
    for (let margin = 0; margin < MARGINS.length; margin++)
      for (let spared = 0; spared < SPARINGS; spared++) factors[at++] = factorOf(seen[i], left, i, spared, margin)
}

const maskOf = (parts: readonly string[], refs: readonly string[]): number =>
  refs.reduce((bits, ref) => (parts.includes(ref) ? bits | (1 << parts.indexOf(ref)) : bits), 0)

/** From "none of A needs lifting" for every A to "exactly B does". */
function exactSets(parts: readonly string[], sound: Float64Array): Map<string, number> {
  const size = sound.length
  const values = Float64Array.from(sound, (_, set) => sound[size - 1 - set] ?? 0)
  for (let bit = 1; bit < size; bit <<= 1) {
    for (let set = 0; set < size; set++) if (set & bit) values[set] = (values[set] ?? 0) - (values[set ^ bit] ?? 0)
  }
  const named = (set: number): string =>
    parts
      .filter((_, i) => (set >> i) & 1)
      .toSorted()
      .join(' ')
  return new Map([...values].flatMap((weight, set) => (weight > 0 ? [[named(set), weight] as const] : [])))
}

interface World {
  readonly model: BoardModel
  readonly input: JudgeInput
  readonly assumptions: Assumptions
  readonly observed: ReadonlyMap<string, Observed>
  readonly parts: readonly string[]
  readonly packages: readonly string[]
  readonly variables: readonly (readonly Option[])[]
}

/**
 * With which q a cause explains what was bad, and with which it speaks against what was good. One that was there before and
 * after did not do it, or did and was missed: the first with 1 - q, the second with q times the chance of that.
 */
function acts({ lastBad, good, missed = 0 }: Observed, rightFrom: number, q: number): { bad: number; good: number } {
  const wasBad = lastBad >= 0 && rightFrom > lastBad
  if (!(good < Infinity && rightFrom > good)) return { bad: wasBad ? q : 0, good: 0 }
  if (!wasBad) return { bad: 0, good: q }
  const passes = 1 - q + q * missed
  return { bad: passes > 0 ? (q * missed) / passes : 0, good: 1 - passes }
}

function endRef(
  model: BoardModel,
  observed: ReadonlyMap<string, Observed>,
  name: string,
  end: Effect['end'],
): string[] {
  if (end === 'core') return model.core === undefined ? [] : [model.core.ref]
  const part = observed.get(name)?.part
  return end === 'memory' && part !== undefined ? [part] : []
}

/** Per observation: left good at the package's end, at the core's, elsewhere by margin; passing by margin. */
const WIDTH = 8

interface Prepared {
  readonly option: Option
  readonly left: Float64Array | undefined
  readonly byMargin: boolean
  readonly forced: number
  readonly told: boolean
}

function prepare({ observed, parts }: World, option: Option): Prepared {
  const names = [...observed.keys()]
  const left = new Float64Array(names.length * WIDTH).fill(1)
  for (const [name, effect] of option.effects) {
    const seen = observed.get(name)
    if (seen === undefined) continue
    const from = names.indexOf(name) * WIDTH
    const by = (at: number, q: number): number => (left[from + at] = (left[from + at] ?? 1) * (1 - q))
    for (const margin of [0, 1, 2]) {
      const as = acts(seen, effect.rightFrom, effect.byMargin?.[margin] ?? effect.q)
      by(5 + margin, as.good)
      if (effect.end === 'other') by(2 + margin, as.bad)
    }
    const { bad } = acts(seen, effect.rightFrom, effect.q)
    if (effect.end === 'memory') by(0, bad)
    if (effect.end === 'core') by(1, bad)
  }
  return {
    option,
    left: option.isAbsent === true ? undefined : left,
    byMargin: option.effects.some(([, { byMargin }]) => byMargin !== undefined),
    forced: maskOf(parts, option.lifts),
    told: touchesTold(option, observed),
  }
}

/** P(what was seen of one thing): bad unless all is left good; where an end is spared, its harm did not happen. */
function factorOf(
  seen: Observed | undefined,
  left: Float64Array,
  index: number,
  spared: number,
  margin: number,
): number {
  const at = index * WIDTH
  const [memory, core] = [left[at] ?? 1, left[at + 1] ?? 1]
  const spareMemory = (spared & 1) !== 0
  const spareCore = (spared & 2) !== 0
  const good = (left[at + 2 + margin] ?? 1) * (spareMemory ? 1 : memory) * (spareCore ? 1 : core)
  const undamaged = (spareMemory ? memory : 1) * (spareCore ? core : 1)
  const leak = seen?.leak ?? 0
  const outcome = (seen?.lastBad ?? -1) >= 0 ? 1 - (1 - leak) * good : 1 - leak
  return (left[at + 5 + margin] ?? 1) * undamaged * outcome
}

/** What a package with a look is to be held to: how likely the look is where nothing is known, and by option what it adds. */
interface Looked {
  readonly leak: number
  readonly adds: ReadonlyMap<Option, { readonly key: string; readonly q: number }>
  readonly look: keyof Assumptions['signature']['die']
}

function lookedAt({ input, observed, packages, variables }: World): Looked[] {
  return packages.flatMap((part) => {
    const kind = input.findings.signatures.get(part)?.kind
    const names = [...observed].filter(([, seen]) => seen.part === part && seen.lastBad >= 0).map(([name]) => name)
    if (kind === undefined || kind === 'clean' || names.length === 0) return []
    const look = kind === 'byte' || kind === 'channel' || kind === 'package' ? 'whole' : kind
    const lanes = names.filter((name) => !name.startsWith('check'))
    const touches = (option: Option, among: readonly string[]): number[] =>
      option.effects.flatMap(([name, { q, rightFrom }]) => {
        const seen = observed.get(name)
        const bad = among.includes(name) && seen !== undefined ? acts(seen, rightFrom, q).bad : 0
        return bad > 0 ? [bad] : []
      })
    const most = (option: Option): number => Math.max(0, ...touches(option, lanes))
    const isSingle = (option: Option): boolean =>
      option.own === part &&
      (option.kind === 'joints' || option.kind === 'corridor') &&
      touches(option, names).length === 1
    const options = variables.flat().filter(({ own }) => own === undefined || own === part)
    const singles = options.filter(isSingle)
    const addsOf = (option: Option): { key: string; q: number } => {
      const alike = singles.filter(({ kind: other }) => other === option.kind)
      if (singles.includes(option)) return { key: `${option.kind} single`, q: Math.max(...alike.map(most)) }
      return { key: `${option.kind}${option.own === undefined ? '' : ' own'}`, q: most(option) }
    }
    const leak = Math.max(1e-9, ...lanes.map((name) => observed.get(name)?.leak ?? 0))
    return [{ leak, adds: new Map(options.map((option) => [option, addsOf(option)])), look }]
  })
}

/** P(look of each package): the mean of the looks of the kinds that touch its failing lanes, by how surely each fails one. */
function lookFactor({ signature }: Assumptions, packages: readonly Looked[], chosen: readonly Prepared[]): number {
  let factor = 1
  for (const { leak, adds, look } of packages) {
    const weights = new Map<string, number>([['unknown', leak]])
    for (const { option } of chosen) {
      const added = adds.get(option)
      if (added !== undefined) weights.set(added.key, Math.max(added.q, weights.get(added.key) ?? 0))
    }
    let weight = 0
    let looks = 0
    for (const [key, q] of weights) {
      const named = key.split(' ')[0]
      const of = Object.entries(signature).find(([name]) => name === named)?.[1]
      weight += q
      looks += q * (of?.[look] ?? 0)
    }
    factor *= weight > 0 ? looks / weight : 1
  }
  return factor
}

const touchesTold = (option: Option, observed: ReadonlyMap<string, Observed>): boolean =>
  option.effects.some(([name, { q, rightFrom }]) => {
    const seen = observed.get(name)
    return seen !== undefined && !seen.isArea && acts(seen, rightFrom, q).bad > 0
  })

function observe(model: BoardModel, input: JudgeInput, assumptions: Assumptions): Map<string, Observed> {
  const { findings } = input
  const observed = new Map<string, Observed>()
  const add = (name: string, bad: boolean, leak: number, part?: string, isArea = false): unknown =>
    observed.set(name, {
      lastBad: bad ? 0 : -1,
      good: bad ? Infinity : 0,
      leak,
      isArea,
      ...(part === undefined ? {} : { part }),
    })
  const runs = [findings.lanes, ...(findings.rounds ?? []).map(({ lanes }) => lanes)]
  for (const lane of model.lanes) {
    let lastBad = -1
    let good = Infinity
    let failing = 0
    for (const [run, states] of runs.entries()) {
      if (states.get(lane.id) === 'fail') {
        failing++
        lastBad = run
        good = Infinity
      }
      if (states.get(lane.id) === 'pass') good = run
    }
    if (lastBad < 0 && good === Infinity) continue
    // by hand from the figures that ship: a run misses 2 % of what fails, 15 % of what fails now and then
    const missed = findings.signatures.get(lane.part)?.kind === 'sparse' ? 0.15 : 0.02
    const leak = assumptions.fails.leak * 0.2 ** Math.max(0, failing - 1)
    observed.set(lane.id, { lastBad, good, missed, leak, part: lane.part, isArea: false })
  }
  for (const [name, state] of findings.rails) {
    add(
      `rail ${name}`,
      state !== 'fine',
      input.findings.shorted?.has(name) === true
        ? assumptions.evidence.railShortElsewhere
        : assumptions.evidence.railBadElsewhere,
    )
  }
  for (const [ref, state] of findings.stages ?? []) {
    add(`stage ${ref}`, state !== 'fine', assumptions.evidence.stageBadElsewhere)
  }
  const anySpill = input.spills.length > 0 || (input.unreported ?? []).length > 0
  for (const [index, { kind }] of findings.areas.entries()) {
    const clean = kind === 'clean'
    if (clean || anySpill)
      add(`area ${index}`, !clean, clean ? 0 : assumptions.evidence.residueElsewhere, undefined, true)
  }
  for (const { check, at, found } of findings.checks ?? []) {
    const entry = checkById(check)
    if (entry?.evidence !== 'check') continue
    const ref = model.laneById.get(at)?.part ?? at
    const part = model.memories.some((memory) => memory.ref === ref) ? ref : undefined
    add(`check ${check} ${at}`, found, entry.falseAlarm, part)
  }
  return observed
}

const absent = (weight: number): Option => ({ kind: 'die', name: '', weight, effects: [], lifts: [], isAbsent: true })

/** What a cause of a kind makes of the checks that were done at one of the places where it can be met. */
function checkEffects(
  input: JudgeInput,
  kind: CauseKind,
  places: readonly string[],
  rightFrom: number,
): [string, Effect][] {
  const last = new Map((input.findings.checks ?? []).map((answer) => [`${answer.check} ${answer.at}`, answer]))
  return [...last.values()].flatMap(({ check, at }) => {
    const entry = checkById(check)
    if (entry?.evidence !== 'check' || !places.includes(at)) return []
    const q = entry.finds[kind === 'unreported-spill' ? 'spill' : kind]
    return q === undefined ? [] : [[`check ${check} ${at}`, { q, end: 'other', rightFrom }]]
  })
}

function variablesOf(
  model: BoardModel,
  input: JudgeInput,
  assumptions: Assumptions,
  observed: ReadonlyMap<string, Observed>,
): Option[][] {
  const right = (ref: string): number => {
    const round = (input.findings.rounds ?? []).findIndex(({ lifted, putRight = [] }) =>
      [...lifted, ...putRight].includes(ref),
    )
    return round < 0 ? Infinity : round + 1
  }
  const context: Context = { model, input, assumptions, observed, right }
  const reported = input.spills.map(({ mark, hypotheses }) => {
    const name = placeWords(model, mark.at, mark.side)
    const prior = assumptions.prior.spill
    return [absent(1 - prior), ...spillOptions(context, 'spill', () => name, hypotheses, prior)]
  })
  const sides = input.unreported ?? []
  const times =
    (input.findings.told === 'no-accident' ? assumptions.told.noAccident : 1) *
    (input.spills.length > 0 ? assumptions.told.reported : 1)
  const prior = assumptions.prior['unreported-spill'] * times
  const unreported =
    sides.length === 0
      ? []
      : [
          [
            absent(1 - prior),
            ...sides.flatMap((hypotheses) =>
              spillOptions(
                context,
                'unreported-spill',
                (at) => placeWords(model, at, hypotheses.side),
                hypotheses,
                prior / sides.length,
              ),
            ),
          ],
        ]
  const core = coreOptions(context)
  return [
    ...ownOptions(context),
    ...powerOptions(context),
    ...(core.length > 0 ? [core] : []),
    ...unreported,
    ...reported,
  ]
}

interface Context {
  readonly model: BoardModel
  readonly input: JudgeInput
  readonly assumptions: Assumptions
  readonly observed: ReadonlyMap<string, Observed>
  readonly right: (ref: string) => number
}

const lanesOf = (model: BoardModel, refs: readonly string[]): string[] =>
  model.lanes.filter((lane) => refs.includes(lane.part)).map((lane) => lane.id)

const acting = (names: readonly string[], effect: Effect): [string, Effect][] => names.map((name) => [name, effect])

function ownOptions({ model, input, assumptions, right }: Context): Option[][] {
  const { prior, fails } = assumptions
  const causes: Option[] = []
  for (const { ref } of model.memories) {
    const rightFrom = right(ref)
    const lifts = rightFrom === Infinity ? [ref] : []
    const add = (
      kind: 'die' | 'joints' | 'command-joints',
      name: string,
      lanes: readonly string[],
      q: number,
    ): unknown =>
      causes.push({
        kind,
        name,
        weight: prior[kind],
        effects: [
          ...acting(lanes, { q, end: 'other', rightFrom }),
          ...checkEffects(input, kind, [ref, ...lanes], rightFrom),
        ],
        lifts,
        own: ref,
      })
    add('die', ref, lanesOf(model, [ref]), fails.die)
    for (const region of model.regions.filter(({ part }) => part === ref)) {
      const kind = region.role === 'command' ? 'command-joints' : 'joints'
      add(kind, region.id, region.lanes, fails[kind])
    }
  }
  for (const { lane } of model.corridors) {
    const own = model.laneById.get(lane)?.part ?? ''
    const effects = [
      ...acting([lane], { q: fails.corridor, end: 'other', rightFrom: right(lane) }),
      ...checkEffects(input, 'corridor', [lane], Infinity),
    ]
    causes.push({ kind: 'corridor', name: lane, weight: prior.corridor, effects, lifts: [], own })
  }
  return causes.map((cause) => [absent(1 - cause.weight), cause])
}

function powerOptions({ model, input, assumptions, right }: Context): Option[][] {
  const { prior, evidence, severity } = assumptions
  const supply = (
    feeds: readonly string[],
    how: (typeof SEVERITIES)[number],
    rightFrom: number,
  ): [string, Effect][] => {
    const byMargin = MARGINS.map((margin) => severity[`${how}-${margin}`])
    return acting(lanesOf(model, feeds), { q: severity[`${how}-usual`], byMargin, end: 'other', rightFrom })
  }
  const reads = (name: string, q: number): [string, Effect][] =>
    acting([name], { q, end: 'other', rightFrom: Infinity })
  const shareOf = (of: 'rail' | 'stage', how: (typeof SEVERITIES)[number]): number =>
    severity[`${of}-${how}`] / SEVERITIES.reduce((sum, each) => sum + severity[`${of}-${each}`], 0)
  const readingOf = (name: string, how: (typeof SEVERITIES)[number]): number =>
    input.findings.shorted?.has(name) === true ? severity[`shorts-${how}`] : severity[`reads-${how}`]
  const variables: Option[][] = []
  for (const { name, feeds, branches, stages } of model.rails) {
    const whole = SEVERITIES.map(
      (how): Option => ({
        kind: 'rail',
        name: `rail ${name}`,
        weight: prior.rail * shareOf('rail', how),
        effects: [
          ...supply(feeds, how, right(`rail ${name}`)),
          ...reads(`rail ${name}`, readingOf(name, how)),
          ...stages.flatMap((ref) => reads(`stage ${ref}`, evidence.stageBadIfRail)),
          ...checkEffects(input, 'rail', [name, ...feeds], Infinity),
        ],
        lifts: [],
      }),
    )
    variables.push([absent(1 - prior.rail), ...whole])
    for (const branch of branches) {
      const states = SEVERITIES.map(
        (how): Option => ({
          kind: 'rail-branch',
          name: `branch ${branch.name} of rail ${name}`,
          weight: prior['rail-branch'] * shareOf('rail', how),
          effects: [
            ...supply(branch.feeds, how, right(`rail ${name}`)),
            ...reads(`rail ${name}`, readingOf(name, how) * evidence.railBadIfBranch),
            ...checkEffects(input, 'rail-branch', [name, ...branch.feeds], Infinity),
          ],
          lifts: [],
        }),
      )
      variables.push([absent(1 - prior['rail-branch']), ...states])
    }
    for (const ref of stages) {
      const states = SEVERITIES.map(
        (how): Option => ({
          kind: 'power-stage',
          name: ref,
          // of more than two stages the others carry on: together they are felt as often as two
          weight:
            prior['power-stage'] *
            Math.min(1, 2 / stages.length) *
            shareOf(stages.length === 1 ? 'rail' : 'stage', how),
          effects: [
            ...supply(feeds, how, right(ref)),
            ...reads(`rail ${name}`, readingOf(name, how)),
            ...reads(`stage ${ref}`, evidence.stageBadIfStage),
            ...checkEffects(input, 'power-stage', [ref, name, ...feeds], Infinity),
          ],
          lifts: right(ref) === Infinity ? [ref] : [],
        }),
      )
      variables.push([absent(1 - prior['power-stage'] * Math.min(1, 2 / stages.length)), ...states])
    }
  }
  return variables
}

/** The core as a whole, its sides, its controllers, and discs of bad joints. */
function coreOptions({ model, input, assumptions, right }: Context): Option[] {
  const { core } = model
  if (core === undefined) return []
  const { fails, prior, core: shares, patch } = assumptions
  const rightFrom = right(core.ref)
  const lifts = rightFrom === Infinity ? [core.ref] : []
  const regions = model.regions.filter(({ part }) => part === core.ref)
  const middle = core.placement.at
  const angleOf = ({ x, y }: Point): number => Math.atan2(y - middle.y, x - middle.x)
  const option = (
    kind: 'core' | 'core-patch',
    name: string,
    weight: number,
    covered: typeof regions,
    q: number,
  ): Option => ({
    kind,
    name,
    weight,
    // a check is met once, however many regions are bad
    effects: [
      ...covered.flatMap(({ lanes }) => acting(lanes, { q, end: 'other', rightFrom })),
      ...checkEffects(input, kind, [core.ref, ...covered.flatMap(({ lanes }) => lanes)], rightFrom),
    ],
    lifts,
  })
  const lanes = model.lanes.map(({ id }) => id)
  const quarters = [0, 1, 2, 3]
    .map((quarter) => regions.filter(({ centre }) => (Math.round(angleOf(centre) / (Math.PI / 2)) + 4) % 4 === quarter))
    .filter((covered) => covered.length > 0 && covered.length < regions.length)
  const channels = model.channels
    .map(({ id, lanes: own }) => ({
      id,
      covered: regions.filter((region) => region.lanes.some((lane) => own.includes(lane))),
    }))
    .toSorted((a, b) => angleOf(meanOf(a.covered)) - angleOf(meanOf(b.covered)))
  const singles = channels.length < 2 ? [] : channels.map(({ covered }) => covered)
  const pairs =
    channels.length < 3
      ? []
      : channels.map(({ covered }, i) => [...covered, ...(channels[(i + 1) % channels.length]?.covered ?? [])])
  const controllers = [...singles, ...pairs]
  const total = shares.whole + shares.side + shares.controller
  const [side, controller] = [
    quarters.length > 0 ? shares.side / total : 0,
    controllers.length > 0 ? shares.controller / total : 0,
  ]
  const names = new Map(
    [...quarters, ...controllers].map((covered, i) => {
      const of = i < quarters.length ? undefined : channels[(i - quarters.length) % channels.length]
      const next = channels[(i - quarters.length + 1) % channels.length]
      if (of === undefined) return [covered, `the ${compass(middle, meanOf(covered))} side of ${core.ref}`]
      if (i - quarters.length < singles.length) return [covered, `the controller of channel ${of.id} in ${core.ref}`]
      return [covered, `the controllers of channels ${of.id} and ${next?.id ?? ''} in ${core.ref}`]
    }),
  )
  const whole = (['core-few', 'core-whole', 'core-most'] as const).map(
    (degree): Option => ({
      kind: 'core',
      name: core.ref,
      weight: (prior.core * (1 - side - controller)) / 3,
      effects: [
        ...acting(lanes, { q: fails[degree], end: 'other', rightFrom }),
        ...checkEffects(input, 'core', [core.ref, ...lanes], rightFrom),
      ],
      lifts,
    }),
  )
  const parts = [
    ...quarters.map((covered) =>
      option('core', names.get(covered) ?? '', (prior.core * side) / quarters.length, covered, fails.core),
    ),
    ...controllers.map((covered) =>
      option('core', names.get(covered) ?? '', (prior.core * controller) / controllers.length, covered, fails.core),
    ),
  ]
  const discs: { name: string; covered: typeof regions }[] = []
  for (let y = core.box.minY + patch.stepMm / 2; y < core.box.maxY; y += patch.stepMm) {
    for (let x = core.box.minX + patch.stepMm / 2; x < core.box.maxX; x += patch.stepMm) {
      if (!polygonContains(core.outline, { x, y })) continue
      for (const radiusMm of patch.radiiMm) {
        const covered = regions.filter(({ centre }) => Math.hypot(centre.x - x, centre.y - y) <= radiusMm)
        if (covered.length > 0) discs.push({ name: placeWithin(core, { x, y }), covered })
      }
    }
  }
  const patches = discs.map(({ name, covered }) =>
    option('core-patch', name, prior['core-patch'] / discs.length, covered, fails['core-patch']),
  )
  const priors = prior.core + (discs.length > 0 ? prior['core-patch'] : 0)
  return [absent(1 - priors), ...whole, ...parts, ...patches]
}

function meanOf(list: readonly { readonly centre: Point }[]): Point {
  const sum = list.reduce((acc, { centre }) => ({ x: acc.x + centre.x, y: acc.y + centre.y }), { x: 0, y: 0 })
  return { x: sum.x / list.length, y: sum.y / list.length }
}

function compass(from: Point, to: Point): string {
  const words = ['east', 'north-east', 'north', 'north-west', 'west', 'south-west', 'south', 'south-east']
  return words[(Math.round(Math.atan2(to.y - from.y, to.x - from.x) / (Math.PI / 4)) + 8) % 8] ?? ''
}

const BITES = [
  ['none', 0],
  ['some', 0.5],
  ['full', 1],
] as const

function spillOptions(
  { model, input, assumptions, observed, right }: Context,
  kind: 'spill' | 'unreported-spill',
  name: (at: Point) => string,
  hypotheses: JudgeInput['spills'][number]['hypotheses'],
  prior: number,
): Option[] {
  const { fails, evidence, bite } = assumptions
  return hypotheses.groups.flatMap((group, index) => {
    const at = { x: hypotheses.members.xMm[index] ?? 0, y: hypotheses.members.yMm[index] ?? 0 }
    return BITES.map(([how, strength]): Option => {
      const effects: [string, Effect][] = []
      for (const number of group.regions) {
        const region = model.regions[number]
        if (region === undefined) continue
        const rightFrom = right(region.part)
        const atCore = region.part === model.core?.ref
        const q = strength * (atCore ? fails['spill-at-core'] : fails['spill-at-memory'])
        const end = rightFrom < Infinity ? 'other' : atCore ? 'core' : 'memory'
        effects.push(...acting(region.lanes, { q, end, rightFrom }))
        effects.push(...checkEffects(input, kind, [region.part, ...region.lanes, region.side], Infinity))
      }
      for (const number of group.corridors) {
        const corridor = model.corridors[number]
        const q = strength * fails['spill-on-corridor']
        if (corridor !== undefined)
          effects.push(...acting([corridor.lane], { q, end: 'other', rightFrom: right(corridor.lane) }))
      }
      for (const number of group.areas) {
        if (!observed.has(`area ${number}`)) continue
        const clean = input.findings.areas[number]?.kind === 'clean'
        const q = clean ? 1 - evidence.cleanOverlooksReached : evidence.residueWhereReached
        effects.push([`area ${number}`, { q, end: 'other', rightFrom: Infinity }])
      }
      const shares = BITES.reduce((sum, [each]) => sum + bite[each], 0)
      return { kind, name: name(at), weight: (prior * group.weight * bite[how]) / shares, effects, lifts: [] }
    })
  })
}
