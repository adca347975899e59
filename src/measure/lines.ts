/** The measuring sheet: every rail of a board with its power stages, where to probe each, and what to hold it against. */
import { say } from '../base/index.ts'
import { type BoardModel, type Rail, standsOnBoard } from '../board/index.ts'
import { coreWindow } from './judge-volts.ts'
import { learnRanges, type LearntRange, learntKey } from './learn.ts'
import { inductorOf, railPoints } from './points.ts'
import { isOfCore, type RailUse, rule, type UsualOhms, usualOhmsOf } from './practice.ts'
import { type MeasuringLine, NO_HABIT, NOTHING, type Reference, withLearnt } from './reference.ts'
import { sayOhms, sayRange, sayVolts } from './say.ts'
import { stageLines } from './stage-lines.ts'
import { suppliesOf } from './supplies.ts'
import type { GoodReadings, LineName, Quantity, Supply } from './schema.ts'

export type { MeasuringLine, Reference } from './reference.ts'

/** Rails in the board's order, each followed by its supplies and its stages; then stages of no rail. */
export function measuringLines(
  model: BoardModel,
  quantity: Quantity,
  goodReadings: readonly GoodReadings[] = [],
  supplies: readonly Supply[] = [],
): MeasuringLine[] {
  const learnt = learnRanges(goodReadings)
  const seen = new Set<string>()
  const lines = model.rails.flatMap((rail) => {
    const stages = rail.stages.flatMap((ref) => model.partByRef.get(ref) ?? []).filter(({ ref }) => !seen.has(ref))
    for (const { ref } of stages) seen.add(ref)
    return [
      railLine(model, rail, quantity, learnt),
      ...(quantity === 'diode' ? [] : supplyLines({ model, rail, quantity, learnt }, supplies)),
      ...stages.flatMap((stage) => stageLines({ model, stage, rail, use: useOfRail(model, rail) }, quantity, learnt)),
    ]
  })
  const alone = model.parts.filter(({ kind, ref }) => kind === 'power-stage' && !seen.has(ref))
  return [
    ...lines,
    ...alone.flatMap((stage) => stageLines({ model, stage, rail: undefined, use: 'any' }, quantity, learnt)),
  ]
}

/**
 * What a rail is for, as far as its parts tell: of those that stages switch for the core alone, the one with the most is
 * the core's, and others are further supplies of the same die. One that feeds only stacks on a core is the stacks’. One stage counts only where its inductor is known by a net:
 * a linear regulator stands alone too.
 */
export function useOfRail(model: BoardModel, rail: Rail): RailUse {
  if ((rail.nominalV ?? 0) >= rule('inputFromV')) return 'input'
  const memories = model.memories.filter(({ ref }) => rail.feeds.includes(ref))
  if (memories.length > 0) return memories.some(standsOnBoard) ? 'memory' : 'stacks'
  const ofCore = model.rails.filter((each) => isSwitchedForCore(model, each))
  if (!ofCore.some(({ name }) => name === rail.name)) return 'any'
  const first = ofCore.toSorted((a, b) => b.stages.length - a.stages.length)[0]
  return first?.name === rail.name && rail.stages.length > 1 ? 'core' : 'second core'
}

function isSwitchedForCore(model: BoardModel, { feeds, stages, nominalV = 0 }: Rail): boolean {
  if (model.core === undefined || nominalV >= rule('inputFromV') || !feeds.includes(model.core.ref)) return false
  if (model.memories.some(({ ref }) => feeds.includes(ref))) return false
  const [only] = stages.flatMap((ref) => model.partByRef.get(ref) ?? [])
  return stages.length > 1 || (only !== undefined && inductorOf(model, only)?.switchPad !== undefined)
}

type Learnt = ReadonlyMap<string, LearntRange>

function railLine(model: BoardModel, rail: Rail, quantity: Quantity, learnt: Learnt): MeasuringLine {
  const line: LineName = { kind: 'rail', name: rail.name }
  const use = useOfRail(model, rail)
  const usual = forPackages(usualOhmsOf(rail.nominalV, use), shareOfPackages(model, rail))
  const own =
    quantity === 'ohms'
      ? (boardOhms(rail, shareOfPackages(model, rail)) ?? (use === 'stacks' ? NO_HABIT : hintOhms(usual)))
      : quantity === 'volts'
        ? (coreVolts(rail, use) ?? boardVolts(rail) ?? NOTHING)
        : (boardDiode(rail) ?? NOTHING)
  return {
    line,
    quantity,
    rail: rail.name,
    use,
    nominalV: rail.nominalV,
    points: railPoints(rail),
    usual,
    ownLowOhm: quantity === 'ohms' ? rail.ohmsToGround?.lowOhm : undefined,
    ...withLearnt(own, learnt.get(learntKey(line, quantity)), quantity),
  }
}

interface LinesOfRail {
  readonly model: BoardModel
  readonly rail: Rail
  readonly quantity: Quantity
  readonly learnt: Learnt
}

/** Held to what its rail is held to. */
function supplyLines({ model, rail, quantity, learnt }: LinesOfRail, own: readonly Supply[]): MeasuringLine[] {
  const ofRail = railLine(model, rail, quantity, learnt)
  return suppliesOf(model, rail, (each) => useOfRail(model, each), own).map(({ name, joined, fuse }) => {
    const line: LineName = { kind: 'supply', name }
    const points =
      fuse === undefined
        ? []
        : [{ number: 1, side: fuse.side, at: fuse.placement.at, words: say('{ref}, supply side', { ref: fuse.ref }) }]
    return {
      ...ofRail,
      line,
      points,
      isApart: !joined,
      ...withLearnt(ofRail.reference, learnt.get(learntKey(line, quantity)), quantity),
    }
  })
}

/** More packages side by side leak more: a memory rail of sixteen reads half of one of eight. */
function shareOfPackages(model: BoardModel, rail: Rail): number {
  const packages = model.memories.filter(({ ref }) => rail.feeds.includes(ref)).length
  return Math.min(1, rule('usualPackages') / Math.max(1, packages))
}

function forPackages(usual: UsualOhms | undefined, share: number): UsualOhms | undefined {
  if (usual === undefined || usual.use !== 'memory' || share === 1) return usual
  const { lowOhm, suspiciousBelowOhm, shortBelowOhm } = usual
  return {
    ...usual,
    lowOhm: roughly(lowOhm * share),
    shortBelowOhm: roughly(shortBelowOhm * share),
    ...(suspiciousBelowOhm === undefined ? {} : { suspiciousBelowOhm: roughly(suspiciousBelowOhm * share) }),
  }
}

/** A habit has two digits at most. */
const roughly = (ohm: number): number => Number(ohm.toPrecision(2))

/** What is no source is said in each language; a source stays as it is. */
const sourceSaid = (from: string): string =>
  from === 'common practice, no source' ? say('common practice, no source') : from

/** A range that the board's file takes from the trade's habit is one for the usual number of packages. */
function boardOhms({ ohmsToGround }: Rail, share: number): Reference | undefined {
  if (ohmsToGround === undefined) return undefined
  const { highOhm, from } = ohmsToGround
  const isHabit = /common practice/i.test(from)
  const lowOhm = isHabit ? roughly(ohmsToGround.lowOhm * share) : ohmsToGround.lowOhm
  const span = sayRange(lowOhm, highOhm, 'ohms')
  return {
    from: 'board',
    low: lowOhm,
    high: highOhm,
    span,
    source: sourceSaid(from),
    words: `${span} (${sourceSaid(from)})`,
    isHabit,
  }
}

function boardDiode({ diodeToGround }: Rail): Reference | undefined {
  if (diodeToGround === undefined) return undefined
  const { lowV: low, highV: high, from } = diodeToGround
  const span = sayRange(low, high, 'diode')
  const isHabit = /common practice/i.test(from)
  return { from: 'board', low, high, span, source: sourceSaid(from), words: `${span} (${sourceSaid(from)})`, isHabit }
}

function hintOhms(usual: UsualOhms | undefined): Reference {
  if (usual === undefined) return NOTHING
  const { lowOhm, highOhm, source } = usual
  const span =
    highOhm === undefined ? say('above {lowOhm}', { lowOhm: sayOhms(lowOhm) }) : sayRange(lowOhm, highOhm, 'ohms')
  return {
    from: 'hint',
    isHabit: true,
    low: lowOhm,
    high: highOhm,
    span,
    source,
    words: say('usual for its voltage: {span} ({source})', { span, source }),
  }
}

/** A core's voltage moves: what is expected of it depends on what the card does. */
function coreVolts({ nominalV }: Rail, use: RailUse): Reference | undefined {
  if (nominalV === undefined || !isOfCore(use)) return undefined
  const [idleLow, idleHigh] = coreWindow(nominalV, 'idle')
  const [loadLow, loadHigh] = coreWindow(nominalV, 'load')
  const span = say('idle {idleLow}, under load {loadLow}', {
    idleLow: sayRange(idleLow, idleHigh, 'volts'),
    loadLow: sayRange(loadLow, loadHigh, 'volts'),
  })
  const source = say('common practice, no source')
  return { from: 'hint', isHabit: true, low: idleLow, high: loadHigh, span, source, words: `${span} (${source})` }
}

function boardVolts({ nominalV, tolerancePct }: Rail): Reference | undefined {
  if (nominalV === undefined) return undefined
  const pct = tolerancePct ?? rule('toleranceWhereUntoldPct')
  const low = rounded(nominalV * (1 - pct / 100))
  const high = rounded(nominalV * (1 + pct / 100))
  const span = sayRange(low, high, 'volts')
  const nominal = `${sayVolts(nominalV)} ± ${pct} %`
  if (tolerancePct !== undefined)
    return { from: 'board', isHabit: false, low, high, span, source: nominal, words: `${nominal}: ${span}` }
  const source = say('{nominal}, a tolerance by common practice, no source', { nominal })
  return { from: 'hint', isHabit: true, low, high, span, source, words: `${source}: ${span}` }
}

const rounded = (volts: number): number => Number(volts.toPrecision(6))

/**
 * What is asked of every card: its rails, and cold a look across every upper switch that has siblings. The other points
 * tell more where something is wrong.
 */
export const isAsked = ({ line, quantity, reference, isApart }: MeasuringLine): boolean =>
  line.kind === 'rail' ||
  (line.kind === 'supply' && isApart === true) ||
  (quantity === 'ohms' && line.point === 'input' && reference.from !== 'none')
