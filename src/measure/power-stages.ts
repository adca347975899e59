/** What cold readings at the points of the stages say about power, and which stages are yet to be read. */
import { joined, say } from '../base/index.ts'
import { isAsked } from './lines.ts'
import { measuredReason, placeOf, type PowerReason, reasonOf, whenWords } from './power-reason.ts'
import { isOfCore, stagePointWords } from './practice.ts'
import type { LineName, Measurement, Phase, StagePoint } from './schema.ts'
import type { LineVerdict } from './verdict.ts'
import { powerWeightOf } from './verdict-words.ts'

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
    ...single.flatMap((each) => reasonOf(each)),
    ...unreadReasons(points, when.phase),
    ...inductorNote(points, when),
  ]
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
  const rail = first?.line.rail ?? say('the rail')
  const names = joined(lines.map(({ name }) => name))
  const said = say('Stages {names}, {point}: all short. {rail}', {
    names,
    point: stagePointWords(point),
    rail: SHARED[point](rail),
  })
  return measuredReason(powerWeightOf('short', placeOf(point)) ?? 'unknown', said, lines)
}

const SHARED: Readonly<Record<StagePoint, (rail: string) => string>> = {
  input: (rail) =>
    say(
      'A high-side switch is shorted, and with power the input goes straight to {rail}. The windings join them all: which it is, the PWM and driver pins tell, or an inductor that is lifted.',
      { rail },
    ),
  switch: (rail) => say('Through the windings that is {rail} itself: no stage is found by it.', { rail }),
  driver: () => say('They share that supply: lift its feed, then read each by itself.'),
  enable: () => say('They may share one line: read it at the controller.'),
  pwm: () => say('Look at the controller, which drives them all.'),
}

/** Without a look across the upper switches nobody knows whether the input goes straight to the core. */
function unreadReasons(points: readonly LineVerdict[], phase: Phase): PowerReason[] {
  const when = whenWords(phase)
  const atInput = points.filter(({ line, measurement }) => isAsked(line) && measurement === undefined)
  const names = (lines: readonly LineName[]): string => joined(lines.map(({ name }) => name))
  const ofCore = atInput.filter(({ line }) => isOfCore(line.use)).map(({ line }) => line.line)
  const others = atInput.filter(({ line }) => !isOfCore(line.use)).map(({ line }) => line.line)
  return [
    ...(ofCore.length === 0
      ? []
      : [
          measuredReason(
            'unknown',
            say(
              'Input to switch node not read{when} at stages of the core: {ofCore}. A shorted high-side switch puts the input on the core.',
              { when, ofCore: names(ofCore) },
            ),
            ofCore,
          ),
        ]),
    ...(others.length === 0
      ? []
      : [
          measuredReason(
            'note',
            say('Input to switch node not read{when} at {others}.', { when, others: names(others) }),
            others,
          ),
        ]),
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
  const sentence = say(
    'Read at the inductors of {names}: kept, and not counted. Through the windings every one of them reads the rail.',
    { names },
  )
  return [measuredReason('note', sentence)]
}
