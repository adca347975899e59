/** One damaged card from a seed: what happened is drawn, carried through the board, tested, measured and looked at. */
import { type Random, seededRandom } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { accountOf } from './account.ts'
import { testCard } from './card-memory.ts'
import { chance, pickWeighted } from './draw.ts'
import { drawLooks } from './looks.ts'
import { marchCMinus, matsPlus } from './march-tests.ts'
import { type AccidentKind, middleMixture, type Mixture } from './mixture.ts'
import { oracleOf } from './oracle.ts'
import {
  commandAccident,
  coreControllerAccident,
  corePatchAccident,
  coreSideAccident,
  coreWholeAccident,
  dieAccident,
  jointsAccident,
} from './parts-accidents.ts'
import { branchAccident, railAccident, slipAccident, stageAccident } from './power-accidents.ts'
import { drawReadings } from './readings.ts'
import { drawReport } from './report.ts'
import type { Accident, Scene } from './scene.ts'
import { pastyAccident, wetAccident } from './spill-accidents.ts'
import type { Damage, Observations, SimulatedCard, Truth } from './types.ts'
import { drawWalk } from './walk.ts'

const ACCIDENTS: Readonly<Record<Exclude<AccidentKind, 'nothing'>, (scene: Scene) => Accident>> = {
  die: dieAccident,
  joints: jointsAccident,
  'command-joints': commandAccident,
  'core-patch': corePatchAccident,
  'core-controller': coreControllerAccident,
  'core-side': coreSideAccident,
  'core-whole': coreWholeAccident,
  rail: railAccident,
  'rail-branch': branchAccident,
  'power-stage': stageAccident,
  slip: slipAccident,
  'wet-spill': wetAccident,
  'pasty-spill': pastyAccident,
}

/** A card comes in because it fails: what spoils nothing is drawn again, up to so often. */
const ATTEMPTS = 40
/** Shop's own walks: the longer test in two cases of three. */
const LONGER_TEST = 0.65
const SPILT_HARMLESSLY = 0.3

/** @param seed decides everything about the card, together with the board and the mixture */
export function simulateCard(model: BoardModel, seed: number, mixture: Mixture = middleMixture()): SimulatedCard {
  const random = seededRandom(seed)
  const walk = drawWalk(model, random)
  const scene: Scene = { model, seed, mixture, walk, random }
  const truth = truthOf(drawAccidents(scene))
  const observations = observe(scene, truth)
  const oracle = oracleOf({ model, seed, mixture, walk, truth, observations })
  return { seed, model, mixture: mixture.name, figures: mixture.figures, truth, observations, walk, ...oracle }
}

function drawAccidents(scene: Scene): Accident[] {
  const { random, mixture } = scene
  const kind = pickWeighted(random, mixture.weights)
  if (kind === 'nothing') return [nothing(scene)]
  const first = harmful(kind, scene)
  if (!chance(random, mixture.figures.secondAccident)) return [first]
  const second = pickWeighted(random, { ...mixture.weights, nothing: 0 })
  return second === 'nothing' ? [first] : [first, ACCIDENTS[second](scene)]
}

function harmful(kind: Exclude<AccidentKind, 'nothing'>, scene: Scene): Accident {
  for (let attempt = 1; ; attempt++) {
    const accident = ACCIDENTS[kind](scene)
    if (attempt >= ATTEMPTS || accident.damages.some(({ lanes }) => lanes.length > 0)) return accident
  }
}

/** A good card, or one whose fault does not show; now and then with a spill that did no harm. */
function nothing(scene: Scene): Accident {
  if (!chance(scene.random, SPILT_HARMLESSLY)) return { cause: { kind: 'nothing', at: '' }, damages: [] }
  const { cause } = wetAccident(scene)
  return { cause: { ...cause, kind: 'nothing' }, damages: [] }
}

function truthOf(accidents: readonly Accident[]): Truth {
  const damages = accidents.flatMap(({ damages: own }, cause) => own.map((damage): Damage => ({ ...damage, cause })))
  const spoiled = new Set(damages.flatMap(({ lanes }) => lanes.map(({ lane }) => lane)))
  const atFault = damages.filter(({ lanes, lines }) => lanes.length > 0 || lines.length > 0)
  const needs = new Set(atFault.flatMap(({ ref }) => ref ?? []))
  return { causes: accidents.map(({ cause }) => cause), damages, spoiled: [...spoiled], needs: [...needs] }
}

function observe(scene: Scene, truth: Truth): Observations {
  const { model, seed, mixture, walk, random } = scene
  const test = chance(random, LONGER_TEST) ? marchCMinus : matsPlus
  const bad = testCard({ model, walk }, truth.damages, test, random)
  const report = drawReport({ model, walk, bad, mixture, random })
  const account = accountOf({ model, mixture, random }, truth.causes)
  const measurements = drawReadings({ model, seed, mixture, random }, truth.damages)
  const areas = drawLooks({ model, mixture, random: fork(random) }, truth.causes, account.spills)
  return { report, ...account, measurements, areas }
}

const fork = (random: Random): Random => seededRandom(random.whole(2 ** 31))
