/** What cold readings at the points of the stages say about power, and which stages are yet to be read. */
import { joined } from '../base/index.ts'
import { lineWithKind } from './line-key.ts'
import { isAsked } from './lines.ts'
import { measuredReason, type PowerReason } from './power-reason.ts'
import { isOfCore, stagePointWords } from './practice.ts'
import type { LineName, Measurement, Phase, StagePoint } from './schema.ts'
import type { LineVerdict } from './verdict.ts'
import type { VerdictKind } from './verdict-words.ts'

interface When {
  readonly phase: Phase
  readonly measurements: readonly Measurement[]
}

/** @param verdicts of cold readings, of all lines */
export function stageReasons(verdicts: readonly LineVerdict[], when: When): PowerReason[] {
  const points = verdicts.filter(({ line }) => line.line.kind === 'stage')
  const shared = sharedShorts(points)
  const single = points.filter((each) => !shared.some((group) => group.includes(each)))
  return [
    ...shared.map((group) => sharedReason(group)),
    ...single.flatMap((each) => reasonOfPoint(each)),
    ...unreadReasons(points, when.phase),
    ...inductorNote(points, when),
  ]
}

type Weights = Readonly<Partial<Record<VerdictKind, PowerReason['weight']>>>

/**
 * A short between input and rail, or of a supply, forbids power. A logic pin that is off leaves a stage standing still: it
 * is looked into first, but burns nothing. What reads high or open at a stage can't be made worse by power.
 */
const AT_SUPPLY: Weights = {
  short: 'against',
  low: 'against',
  below: 'unknown',
  'unlike-low': 'unknown',
  unusual: 'unknown',
  'unlike-high': 'note',
  open: 'note',
  above: 'note',
}
const AT_PIN: Weights = { ...AT_SUPPLY, short: 'unknown', low: 'unknown' }
/** The rail that is behind the windings is read by itself. */
const AT_SWITCH: Weights = { ...AT_SUPPLY, 'unlike-low': 'note', below: 'note', low: 'unknown' }

const WEIGHTS: Readonly<Record<StagePoint, Weights>> = {
  input: AT_SUPPLY,
  switch: AT_SWITCH,
  driver: AT_SUPPLY,
  enable: AT_PIN,
  pwm: AT_PIN,
}

function reasonOfPoint({ line, verdict, measurement }: LineVerdict): PowerReason[] {
  const { point } = line.line
  if (measurement === undefined || point === undefined) return []
  const weight = WEIGHTS[point][verdict.kind]
  if (weight === undefined) return []
  return [measuredReason(weight, `${lineWithKind(line.line)}, ${verdict.word}: ${verdict.sentence}`, [line.line])]
}

/** Shorts at the same point of several stages of a rail, which the shared node shows alike: said once. */
function sharedShorts(points: readonly LineVerdict[]): LineVerdict[][] {
  const groups = new Map<string, LineVerdict[]>()
  for (const each of points) {
    const { rail, line } = each.line
    if (each.verdict.kind !== 'short' || rail === undefined) continue
    const key = `${rail} ${line.point ?? ''}`
    groups.set(key, [...(groups.get(key) ?? []), each])
  }
  return [...groups.values()].filter((group) => group.length > 1)
}

function sharedReason(group: readonly LineVerdict[]): PowerReason {
  const lines = group.map(({ line }) => line.line)
  const [first] = group
  const { point = 'switch' } = first?.line.line ?? {}
  const rail = first?.line.rail ?? 'the rail'
  const names = joined(lines.map(({ name }) => name))
  const said = `Stages ${names}, ${stagePointWords(point)}: all short. ${SHARED[point](rail)}`
  return measuredReason(WEIGHTS[point].short ?? 'unknown', said, lines)
}

const SHARED: Readonly<Record<StagePoint, (rail: string) => string>> = {
  input: (rail) =>
    `An upper switch is through, and with power the input goes straight to ${rail}. The windings join them all: which it is, the PWM and driver pins tell, or an inductor that is lifted.`,
  switch: (rail) => `Through the windings that is ${rail} itself: no stage is found by it.`,
  driver: () => 'They share that supply: lift its feed, then read each by itself.',
  enable: () => 'They may share one line: read it at the controller.',
  pwm: () => 'Look at the controller, which drives them all.',
}

/** Without a look across the upper switches nobody knows whether the input goes straight to the core. */
function unreadReasons(points: readonly LineVerdict[], phase: Phase): PowerReason[] {
  const when = phase === 'after' ? ' after the work' : ''
  const atInput = points.filter(({ line, measurement }) => isAsked(line) && measurement === undefined)
  const names = (lines: readonly LineName[]): string => lines.map(({ name }) => name).join(', ')
  const ofCore = atInput.filter(({ line }) => isOfCore(line.use)).map(({ line }) => line.line)
  const others = atInput.filter(({ line }) => !isOfCore(line.use)).map(({ line }) => line.line)
  return [
    ...(ofCore.length === 0
      ? []
      : [
          measuredReason(
            'unknown',
            `Input to switch node not read${when} at stages of the core: ${names(ofCore)}. An upper switch that is through puts the input on the core.`,
            ofCore,
          ),
        ]),
    ...(others.length === 0
      ? []
      : [measuredReason('note', `Input to switch node not read${when} at ${names(others)}.`, others)]),
  ]
}

/** Readings of older cases at the inductors stay in the case and count for nothing. */
function inductorNote(points: readonly LineVerdict[], { measurements, phase }: When): PowerReason[] {
  const stages = new Set(points.map(({ line }) => line.line.name))
  const old = measurements.filter(
    ({ line, quantity, phase: of }) =>
      line.kind === 'stage' && line.point === undefined && quantity === 'ohms' && of === phase && stages.has(line.name),
  )
  if (old.length === 0) return []
  const names = joined([...new Set(old.map(({ line }) => line.name))])
  const sentence = `Read at the inductors of ${names}: kept, and not counted. Through the windings every one of them reads the rail.`
  return [measuredReason('note', sentence)]
}
