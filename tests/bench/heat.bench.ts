/**
 * Heat on the 12-package board at 1 mm: 300 s of preheat and hot air by the implicit kernel, against a plain explicit
 * march over the same cells at its longest stable step; and the inverse solve for a memory package and the core.
 */
import { readFileSync } from 'node:fs'
import { performance } from 'node:perf_hooks'
import { type BoardModel, readBoard } from '../../src/board/index.ts'
import {
  buildThermalBoard,
  defaultEquipment,
  driveOf,
  filmsFor,
  findSetting,
  type HeatGain,
  type HeatNetwork,
  type HeatSetting,
  networkOf,
  prepareAdi,
  setGain,
  simulate,
  type ThermalBoard,
  zeroState,
} from '../../src/heat/index.ts'

const DURATION_S = 300
/** The explicit march is timed over so much of it, and its time scaled up; errors are compared at its end. */
const EXPLICIT_S = 15
const REFERENCE_STEP_S = 0.02
const ROUNDS = 5

export async function benchHeat(): Promise<object> {
  const model = shippedBoard('hitch-12')
  const built = buildThermalBoard(model, { cellMm: 1 })
  const at = model.partByRef.get('U12')?.placement.at
  if (!built.ok || at === undefined) throw new Error('the board can’t be set up')
  const setting: HeatSetting = {
    side: 'top',
    preheatC: 240,
    preheatS: 180,
    airC: 380,
    airS: 120,
    nozzle: { name: 'square 16', shape: 'square', sizeMm: 16 },
    at,
    shields: [],
  }
  return {
    transient: transient(built.value, setting),
    wholeRun300SMs: best(ROUNDS, () => void simulate(built.value, setting, { durationS: DURATION_S, keepEveryS: 10 })),
    inverse: { U12: inverse(model, 'U12'), U1: inverse(model, 'U1'), aimedMs: 5000 },
  }
}

function transient(board: ThermalBoard, setting: HeatSetting): object {
  const films = filmsFor(board, setting, 'air')
  const network = networkOf(board, films)
  const gain = { cells: new Float64Array(network.capacity.length), nodes: new Float64Array(network.nodeCell.length) }
  const drive = driveOf(setting)
  setGain(films, drive.preheatRiseK, drive.jetRiseK, gain)
  const implicitMs = best(ROUNDS, () => void implicit(network, gain, DURATION_S, 1))
  const stepS = stableStepS(network)
  const began = performance.now()
  const slow = explicit(network, gain, EXPLICIT_S, stepS)
  const explicitMs = ((performance.now() - began) * DURATION_S) / EXPLICIT_S
  const reference = implicit(network, gain, EXPLICIT_S, REFERENCE_STEP_S)
  const uniformStepS = medianStepS(network)
  const explicitErrorK = worst(slow, reference)
  const equal = equalErrorStep(network, gain, reference, explicitErrorK)
  const equalMs = best(1, () => void implicit(network, gain, DURATION_S, equal.stepS))
  return {
    what: `${DURATION_S} s, ${network.capacity.length} cells and ${network.nodeCell.length} body nodes, no latent heat`,
    implicitMs,
    aimedMs: 500,
    explicitMs,
    explicitTimedOverS: EXPLICIT_S,
    explicitStepS: stepS,
    timesFaster: explicitMs / implicitMs,
    timesFasterHadNoCellBeenCut: (explicitMs * stepS) / uniformStepS / implicitMs,
    atNoGreaterError: { ...equal, implicitMs: equalMs, timesFaster: explicitMs / equalMs },
    errorsK: {
      atS: EXPLICIT_S,
      implicit1S: worst(implicit(network, gain, EXPLICIT_S, 1), reference),
      implicitQuarterS: worst(implicit(network, gain, EXPLICIT_S, 0.25), reference),
      explicit: explicitErrorK,
    },
  }
}

/** The longest of a few halved steps whose error is no greater than the explicit march's. */
function equalErrorStep(network: HeatNetwork, gain: HeatGain, reference: Float64Array, mostK: number) {
  for (const stepS of [1, 0.5, 0.25, 0.1875, 0.15, 0.125]) {
    const errorK = worst(implicit(network, gain, EXPLICIT_S, stepS), reference)
    if (errorK <= mostK) return { stepS, errorK }
  }
  return { stepS: 0.0625, errorK: worst(implicit(network, gain, EXPLICIT_S, 0.0625), reference) }
}

function implicit(network: HeatNetwork, gain: HeatGain, durationS: number, stepS: number): Float64Array {
  const state = zeroState(network.capacity.length, network.nodeCell.length)
  const damped = prepareAdi(network, stepS / 2, 1)
  const plain = prepareAdi(network, stepS, 0.5)
  damped.advance(state, gain)
  damped.advance(state, gain)
  for (let k = 1; k < Math.round(durationS / stepS); k++) plain.advance(state, gain)
  return state.cells
}

/** Plain forward Euler: one pass that gathers the flows of a cell, one over the bodies, one that moves on. */
function explicit(network: HeatNetwork, gain: HeatGain, durationS: number, stepS: number): Float64Array {
  const { columns, capacity, right, up, loss, nodeCell, nodeCapacity, nodeLink, nodeLoss } = network
  const cells = new Float64Array(capacity.length)
  const nodes = new Float64Array(nodeCell.length)
  const power = new Float64Array(capacity.length)
  const perCapacity = capacity.map((c) => (c > 0 ? stepS / c : 0))
  const steps = Math.round(durationS / stepS)
  for (let k = 0; k < steps; k++) {
    for (let i = 0; i < cells.length; i++) {
      const here = cells[i] ?? 0
      let watts = (gain.cells[i] ?? 0) - (loss[i] ?? 0) * here
      if (i + 1 < cells.length) watts += (right[i] ?? 0) * ((cells[i + 1] ?? 0) - here)
      if (i > 0) watts += (right[i - 1] ?? 0) * ((cells[i - 1] ?? 0) - here)
      if (i + columns < cells.length) watts += (up[i] ?? 0) * ((cells[i + columns] ?? 0) - here)
      if (i >= columns) watts += (up[i - columns] ?? 0) * ((cells[i - columns] ?? 0) - here)
      power[i] = watts
    }
    for (let n = 0; n < nodes.length; n++) {
      const cell = nodeCell[n] ?? 0
      const body = nodes[n] ?? 0
      const flow = (nodeLink[n] ?? 0) * ((cells[cell] ?? 0) - body)
      power[cell] = (power[cell] ?? 0) - flow
      nodes[n] = body + (stepS * (flow - (nodeLoss[n] ?? 0) * body + (gain.nodes[n] ?? 0))) / (nodeCapacity[n] ?? 1)
    }
    for (let i = 0; i < cells.length; i++) cells[i] = (cells[i] ?? 0) + (perCapacity[i] ?? 0) * (power[i] ?? 0)
  }
  return cells
}

/** Gershgorin: every row's conductances over its capacity, twice, bound the fastest mode; 2 over that is stable. */
function rates(network: HeatNetwork): number[] {
  const { columns, capacity, right, up, loss } = network
  const links = new Float64Array(capacity.length)
  const all: number[] = []
  for (let n = 0; n < network.nodeCell.length; n++) {
    const cell = network.nodeCell[n] ?? 0
    links[cell] = (links[cell] ?? 0) + (network.nodeLink[n] ?? 0)
    all.push(((network.nodeLink[n] ?? 0) + (network.nodeLoss[n] ?? 0) / 2) / (network.nodeCapacity[n] ?? 1))
  }
  for (let i = 0; i < capacity.length; i++) {
    if (capacity[i] === 0) continue
    const faces = (right[i] ?? 0) + (right[i - 1] ?? 0) + (up[i] ?? 0) + (up[i - columns] ?? 0)
    all.push((faces + (links[i] ?? 0) + (loss[i] ?? 0) / 2) / (capacity[i] ?? 1))
  }
  return all
}

const stableStepS = (network: HeatNetwork): number => 1 / rates(network).reduce((a, b) => Math.max(a, b), 0)

/** As if every cell were as stiff as the middle one, so that no cut cell or body slows the explicit march. */
function medianStepS(network: HeatNetwork): number {
  const sorted = rates(network).toSorted((a, b) => a - b)
  return 1 / (sorted[Math.floor(sorted.length / 2)] ?? 1)
}

function inverse(model: BoardModel, ref: string): object {
  const found = { answer: 'refused' }
  const ms = best(3, () => {
    const result = findSetting(model, { ref, equipment: defaultEquipment })
    if (result.ok) found.answer = 'run' in result.value ? 'found' : 'cannot'
  })
  return { ms, ...found }
}

function best(rounds: number, work: () => void): number {
  let least = Infinity
  for (let k = 0; k < rounds; k++) {
    const began = performance.now()
    work()
    least = Math.min(least, performance.now() - began)
  }
  return least
}

const worst = (a: Float64Array, b: Float64Array): number =>
  a.reduce((most, value, i) => Math.max(most, Math.abs(value - (b[i] ?? 0))), 0)

function shippedBoard(name: string): BoardModel {
  const board = readBoard(readFileSync(`boards/${name}.json`, 'utf8'))
  if (!board.ok) throw new Error(`board ${name} has faults`)
  return board.value
}
