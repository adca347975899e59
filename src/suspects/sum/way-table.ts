/**
 * The ways of the kept bundles in flat tables, for sums over them that are asked again and again: what each has come off
 * whatever fails, and which of its variables could have done something while they were quiet. Ways of a bundle that are
 * alike in both make up one row.
 */
import type { Bundle } from './bundle.ts'
import type { Kept } from './posterior.ts'
import type { ReducedVariable } from './states.ts'

export interface WayTable {
  readonly bundles: number
  /** By kept way: number of its two bundles. */
  readonly rareOf: Int32Array
  readonly likelyOf: Int32Array
  /** Rows of bundle b: from `rowFrom[b]` to `rowFrom[b + 1]`. */
  readonly rowFrom: Int32Array
  /** By row: parts that come off (indices; `other` where what is wrong is no part). */
  readonly parts: readonly (readonly number[])[]
  /** Variables that are in one of their states, those of row r from `loudFrom[r]` to `loudFrom[r + 1]`. */
  readonly loud: Int32Array
  readonly loudFrom: Int32Array
  /** By row: its share of the bundle's weight. */
  readonly share: Float64Array
  /**
   * @param goodOf by variable and state: how surely it leaves something good
   * @returns by row: its share times that, of all variables that are in one of their states
   */
  readonly sharesGood: (goodOf: (variable: number, state: number) => number) => Float64Array
}

/** @param other the index that stands for what no lift puts right */
export function wayTable(variables: readonly ReducedVariable[], kept: readonly Kept[], other: number): WayTable {
  const numberOf = new Map<Bundle, number>()
  const bundles: Bundle[] = []
  const numbered = (bundle: Bundle): number => {
    const known = numberOf.get(bundle) ?? bundles.push(bundle) - 1
    numberOf.set(bundle, known)
    return known
  }
  const rareOf = Int32Array.from(kept, ({ rare }) => numbered(rare))
  const likelyOf = Int32Array.from(kept, ({ likely }) => numbered(likely))
  const rowFrom = new Int32Array(bundles.length + 1)
  const parts: number[][] = []
  const loud: number[] = []
  const loudFrom: number[] = [0]
  const wayRow: number[] = []
  const wayShare: number[] = []
  const chosenFrom: number[] = [0]
  const chosenVariable: number[] = []
  const chosenState: number[] = []
  for (const [number, { ways, weight }] of bundles.entries()) {
    const rowOf = new Map<string, number>()
    for (const way of ways) {
      const off = way.chosen
        .map(({ variable, state }) => whatIsWrong(variables[variable], state, other))
        .filter((part) => part >= 0)
      const present = way.chosen.map(({ variable }) => variable)
      const key = `${off.join()}/${present.join()}`
      const row = rowOf.get(key) ?? parts.push(off) - 1
      if (!rowOf.has(key)) {
        rowOf.set(key, row)
        loud.push(...present)
        loudFrom.push(loud.length)
      }
      wayRow.push(row)
      wayShare.push(weight > 0 ? way.weight / weight : 0)
      for (const { variable, state } of way.chosen) {
        chosenVariable.push(variable)
        chosenState.push(state)
      }
      chosenFrom.push(chosenVariable.length)
    }
    rowFrom[number + 1] = parts.length
  }
  const sharesGood: WayTable['sharesGood'] = (goodOf) => {
    const shares = new Float64Array(parts.length)
    for (let way = 0; way < wayRow.length; way++) {
      let share = wayShare[way] ?? 0
      for (let at = chosenFrom[way] ?? 0; at < (chosenFrom[way + 1] ?? 0); at++) {
        share *= goodOf(chosenVariable[at] ?? 0, chosenState[at] ?? 0)
      }
      const row = wayRow[way] ?? 0
      shares[row] = (shares[row] ?? 0) + share
    }
    return shares
  }
  const share = sharesGood(() => 1)
  return {
    bundles: bundles.length,
    rareOf,
    likelyOf,
    rowFrom,
    parts,
    loud: Int32Array.from(loud),
    loudFrom: Int32Array.from(loudFrom),
    share,
    sharesGood,
  }
}

function whatIsWrong(variable: ReducedVariable | undefined, state: number, other: number): number {
  const lifts = variable?.states[state]?.lifts ?? -1
  return lifts < 0 && variable?.isOpen === true ? other : lifts
}

/**
 * @param shares by row, as they are or with something left good
 * @param spared by row: 1 where nothing that is asked for comes off
 * @param quiet by variable: how surely it would have been good, and spared what is asked for, had it been quiet
 * @returns by bundle: share of its weight that spares what is asked for
 */
export function bundleShares(
  { bundles, rowFrom, loud, loudFrom }: WayTable,
  shares: Float64Array,
  spared: Uint8Array,
  quiet: Float64Array,
): Float64Array {
  const result = new Float64Array(bundles)
  const times = quiet.map((share) => 1 / share)
  for (let bundle = 0; bundle < bundles; bundle++) {
    let sum = 0
    for (let row = rowFrom[bundle] ?? 0; row < (rowFrom[bundle + 1] ?? 0); row++) {
      if (spared[row] === 0) continue
      let share = shares[row] ?? 0
      const until = loudFrom[row + 1] ?? 0
      for (let at = loudFrom[row] ?? 0; at < until; at++) share *= times[loud[at] ?? 0] ?? 1
      sum += share
    }
    result[bundle] = sum
  }
  return result
}
