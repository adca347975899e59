/** What the points of a stage, in ohms and in diode mode, say about that stage beside its siblings; what all of them show alike is none's. */
import type { LineState } from './line-states.ts'
import type { StagePoint } from './schema.ts'
import type { LineVerdict } from './verdict.ts'
import { saysOf } from './verdict-words.ts'

/** Whether a verdict says so. */
const says = ({ verdict }: LineVerdict, state: LineState): boolean => saysOf(verdict.kind) === state

/**
 * Low at the switch node is never a stage's own: the windings join them all. Input and switch node read alike speak of no
 * stage either, so that only its own pins can call one fine.
 */
const TELLS_LOW: readonly StagePoint[] = ['input', 'driver', 'enable', 'pwm']
const TELLS_OPEN: readonly StagePoint[] = ['switch', 'driver', 'enable', 'pwm']
const TELLS_FINE: readonly StagePoint[] = ['driver', 'enable', 'pwm']

/**
 * State of each stage by ref: low counts before open, open before fine. A stage whose points tell nothing has no
 * entry.
 */
export function stageStates(verdicts: readonly LineVerdict[]): Map<string, LineState> {
  const states = new Map<string, LineState>()
  for (const [ref, ofStage] of byStage(verdicts)) {
    const state = stateOf(ofStage, verdicts)
    if (state !== undefined) states.set(ref, state)
  }
  return states
}

function byStage(verdicts: readonly LineVerdict[]): Map<string, LineVerdict[]> {
  const stages = new Map<string, LineVerdict[]>()
  for (const each of verdicts) {
    const { name, point } = each.line.line
    if (point === undefined || each.measurement === undefined) continue
    const known = stages.get(name)
    if (known === undefined) stages.set(name, [each])
    else known.push(each)
  }
  return stages
}

function stateOf(ofStage: readonly LineVerdict[], all: readonly LineVerdict[]): LineState | undefined {
  const some = (points: readonly StagePoint[], holds: (each: LineVerdict) => boolean): boolean =>
    ofStage.some((each) => points.some((point) => point === each.line.line.point) && holds(each))
  if (some(TELLS_LOW, (each) => says(each, 'low') && !isOfAll(each, all))) return 'low'
  if (some(TELLS_OPEN, (each) => says(each, 'open'))) return 'open'
  return some(TELLS_FINE, (each) => says(each, 'fine') || isAboveOneThatIsLow(each, all)) ? 'fine' : undefined
}

/** Shorted at every stage that was read there: the supply or the windings that they share, not this stage. */
function isOfAll({ line, verdict }: LineVerdict, all: readonly LineVerdict[]): boolean {
  if (verdict.kind !== 'short') return false
  const others = siblingsOf(line, all)
  return others.length > 0 && others.every((each) => each.verdict.kind === 'short')
}

/** Of two, one that is low makes the other read high beside it. */
function isAboveOneThatIsLow({ line, verdict }: LineVerdict, all: readonly LineVerdict[]): boolean {
  const [only, ...others] = siblingsOf(line, all)
  return verdict.kind === 'unlike-high' && only !== undefined && others.length === 0 && says(only, 'low')
}

const siblingsOf = ({ line, rail, quantity }: LineVerdict['line'], all: readonly LineVerdict[]): LineVerdict[] =>
  all.filter(
    (each) =>
      rail !== undefined &&
      each.line.quantity === quantity &&
      each.measurement !== undefined &&
      each.line.line.point === line.point &&
      each.line.rail === rail &&
      each.line.line.name !== line.name,
  )
