/** What later actions find: checks (the same answer however often they are asked), lifts, and tests after them. */
import { seededRandom } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { type GoodReadings, lineStates, type Measurement } from '../../measure/index.ts'
import { type CauseKind, checkById, type CheckEntry, type LaneState } from '../../suspects/index.ts'
import { errorsByLane, testCard } from './card-memory.ts'
import { lasting } from './draw.ts'
import { edgesToLook, isWetAt } from './looks.ts'
import { marchCMinus } from './march-tests.ts'
import type { Mixture } from './mixture.ts'
import { readingOf } from './readings.ts'
import type { Damage, FoundUnder, Observations, SimulatedCard, Truth } from './types.ts'
import type { Walk } from './walk.ts'

export interface OracleGround {
  readonly model: BoardModel
  readonly seed: number
  readonly mixture: Mixture
  readonly walk: Walk
  readonly truth: Truth
  readonly observations: Observations
}

/** Cut tracks are seen and a rail that reads low is mended while the card is worked on; what shows only under load stays. */
const isMendedInPassing = ({ ref, kind, lines }: Damage): boolean =>
  ref === undefined && (lines.length > 0 || (kind !== 'rail' && kind !== 'rail-branch'))

/** What is still broken after some parts came off and some rails were put right. */
export function leftAfter({ damages }: Truth, lifted: readonly string[], putRight?: readonly string[]): Damage[] {
  const isSeen = lifted.length > 0 || putRight !== undefined
  const isRight = ({ at }: Damage): boolean =>
    putRight?.some((name) => at === name || at.endsWith(` of ${name}`)) ?? false
  return damages.filter((damage) =>
    damage.ref === undefined
      ? !(isSeen && isMendedInPassing(damage)) && !isRight(damage)
      : !lifted.includes(damage.ref),
  )
}

/**
 * Answers about one card. They hang on its seed and on what is asked, not on when: the same question gets the same
 * answer. A check that the catalogue does not have finds nothing.
 */
export function oracleOf(
  ground: OracleGround,
): Pick<SimulatedCard, 'outcomeOf' | 'measure' | 'lift' | 'retest' | 'withLeft'> {
  const { model, seed, truth, walk } = ground
  const tested = (left: readonly Damage[], name: string): ReadonlyMap<string, LaneState> => {
    const random = seededRandom(Math.floor(lasting(seed, name) * 2 ** 31))
    const errors = errorsByLane(model, walk, testCard({ model, walk }, left, marchCMinus, random))
    return new Map(model.lanes.map(({ id }): [string, LaneState] => [id, errors.has(id) ? 'fail' : 'pass']))
  }
  return {
    outcomeOf: (check, at, lifted = [], putRight) => {
      const entry = checkById(check)
      return entry === undefined ? false : outcome(ground, entry, at, leftAfter(truth, lifted, putRight))
    },
    measure: (line, lifted = [], putRight) => readingsOf(ground, leftAfter(truth, lifted, putRight), line),
    lift: (refs) => refs.map((ref) => foundUnder(ground, ref)),
    retest: (lifted, putRight) => tested(leftAfter(truth, lifted, putRight), nameOfRetest(lifted, putRight)),
    withLeft: (left) => ({
      outcomeOf: (check, at) => {
        const entry = checkById(check)
        return entry === undefined ? false : outcome(ground, entry, at, left)
      },
      measure: (line) => readingsOf(ground, left, line),
      test: (name) => tested(left, name),
    }),
  }
}

const nameOfRetest = (lifted: readonly string[], putRight: readonly string[] = []): string =>
  ['retest', [...lifted].toSorted().join(), ...putRight.toSorted()].join(' ').trimEnd()

function foundUnder({ model, truth }: OracleGround, ref: string): FoundUnder {
  const own = truth.damages.filter((damage) => damage.ref === ref)
  const regions = truth.causes.flatMap(({ spill }) => spill?.regions ?? [])
  const wet = regions.filter((id) => model.regionById.get(id)?.part === ref)
  return { ref, atFault: own.length > 0, wet, kinds: [...new Set(own.map(({ kind }) => kind))] }
}

function outcome(ground: OracleGround, check: CheckEntry, at: string, left: readonly Damage[]): boolean {
  const { model, seed, truth, mixture, observations } = ground
  const luck = lasting(seed, `check ${check.id} ${at}`)
  if (check.evidence === 'rail' || check.evidence === 'stage') {
    const line: Measurement['line'] = { kind: check.evidence, name: at }
    return isOff(ground, left, line)
  }
  if (check.evidence !== 'check') {
    const place = edgesToLook(model, observations.spills).find((each) => each.at === at)
    const wet = place !== undefined && isWetAt(truth.causes, place)
    return luck < mixture.figures[wet ? 'residueSeen' : 'residueSeenElsewhere']
  }
  let missed = 1 - check.falseAlarm
  for (const damage of left) if (isMet(model, damage, at)) missed *= 1 - (check.finds[findable(damage.kind)] ?? 0)
  const reached = truth.causes.flatMap(({ spill }) => spill?.regions ?? []).filter((id) => isAt(model, id, at))
  for (const id of reached) {
    const isDamaged = left.some((damage) => damage.kind === 'spill' && damage.at === id)
    if (!isDamaged) missed *= 1 - (check.finds.spill ?? 0) * 0.6
  }
  return luck >= missed
}

/** Here a spill is a spill, whether or not anybody told of it. */
const findable = (kind: CauseKind): Exclude<CauseKind, 'unreported-spill'> =>
  kind === 'unreported-spill' ? 'spill' : kind

const NO_GOOD_CARDS: readonly GoodReadings[] = []

function readingsOf({ model, seed, mixture }: OracleGround, left: readonly Damage[], line: Measurement['line']) {
  const rail = model.rails.find(({ stages }) => stages.includes(line.name))
  const names = line.kind === 'stage' ? (rail?.stages ?? [line.name]) : [line.name]
  return names.map((name): Measurement => {
    const random = seededRandom(Math.floor(lasting(seed, `line ${line.kind} ${name}`) * 2 ** 31))
    return readingOf({ model, seed, mixture, random }, left, { kind: line.kind, name })
  })
}

function isOff(ground: OracleGround, left: readonly Damage[], line: Measurement['line']): boolean {
  const states = lineStates(ground.model, readingsOf(ground, left, line), NO_GOOD_CARDS, { kind: 'zeroed' })
  const state = (line.kind === 'rail' ? states.rails : states.stages).get(line.name)
  return state !== undefined && state !== 'fine'
}

const OF_POWER: readonly CauseKind[] = ['rail', 'rail-branch', 'power-stage', 'slip']

/** Whether a check at a place has to do with a damage: it sits there, spoils that lane, or starves that part. */
function isMet(model: BoardModel, damage: Damage, at: string): boolean {
  if (damage.ref === at || damage.lines.some(({ name }) => name === at)) return true
  if (damage.lanes.some(({ lane }) => lane === at)) return true
  const rail = model.rails.find(({ name }) => name === at)
  if (rail !== undefined)
    return damage.at === `rail ${at}` || damage.at.endsWith(` of rail ${at}`) || rail.stages.includes(damage.at)
  const starves = OF_POWER.includes(damage.kind)
  if (starves && damage.lanes.some(({ lane }) => model.laneById.get(lane)?.part === at)) return true
  return isAt(model, damage.at, at)
}

/** Whether a region lies under a part, on a side, or serves a lane. */
function isAt(model: BoardModel, regionId: string, at: string): boolean {
  const region = model.regionById.get(regionId)
  return region !== undefined && (region.part === at || region.side === at || region.lanes.includes(at))
}
