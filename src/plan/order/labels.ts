/**
 * The labels of the exact search: for each state a short list of ways to reach it, none of which is beaten by another in
 * cost and in the melts that each part has seen while on. Melt counts stand in two words, four bits a part, seven parts a word.
 */
const FIRST_CAPACITY = 1 << 16
const GUARD = 0x08888888

export const NIBBLES_PER_WORD = 7

/** No label: the end of a list, or of a way. */
export const NO_LABEL = 0

/** True where every count of `a` is at most that of `b`; counts are 0 … 7 in four-bit fields. */
const noneAbove = (a: number, b: number): boolean => (((b | GUARD) - a) & GUARD) === GUARD

export class Labels {
  cost = new Float64Array(FIRST_CAPACITY)
  lowMelts = new Int32Array(FIRST_CAPACITY)
  highMelts = new Int32Array(FIRST_CAPACITY)
  /** 0 top, 1 bottom, 2 none yet. */
  side = new Uint8Array(FIRST_CAPACITY)
  parent = new Int32Array(FIRST_CAPACITY)
  pass = new Int16Array(FIRST_CAPACITY)
  /** Next label of the same state, or none. */
  next = new Int32Array(FIRST_CAPACITY)
  readonly first: Int32Array
  /** The first of them stands for none. */
  private count = 1

  constructor(stateCount: number) {
    this.first = new Int32Array(stateCount)
  }

  /** Adds a label to a state unless one there is as good in everything; those that it beats leave the list. */
  offer(state: number, cost: number, low: number, high: number, side: number, parent: number, pass: number): void {
    let previous = NO_LABEL
    for (let at = this.first[state] ?? NO_LABEL; at !== NO_LABEL; ) {
      const following = this.next[at] ?? NO_LABEL
      const otherCost = this.cost[at] ?? 0
      const otherLow = this.lowMelts[at] ?? 0
      const otherHigh = this.highMelts[at] ?? 0
      if (this.side[at] === side) {
        if (otherCost <= cost && noneAbove(otherLow, low) && noneAbove(otherHigh, high)) return
        if (cost <= otherCost && noneAbove(low, otherLow) && noneAbove(high, otherHigh)) {
          if (previous === NO_LABEL) this.first[state] = following
          else this.next[previous] = following
          at = following
          continue
        }
      }
      previous = at
      at = following
    }
    this.push(state, cost, low, high, side, parent, pass)
  }

  private push(state: number, cost: number, low: number, high: number, side: number, parent: number, pass: number) {
    if (this.count === this.cost.length) this.grow()
    const at = this.count++
    this.cost[at] = cost
    this.lowMelts[at] = low
    this.highMelts[at] = high
    this.side[at] = side
    this.parent[at] = parent
    this.pass[at] = pass
    this.next[at] = this.first[state] ?? NO_LABEL
    this.first[state] = at
  }

  private grow(): void {
    const size = this.cost.length * 2
    this.cost = widened(this.cost, new Float64Array(size))
    this.lowMelts = widened(this.lowMelts, new Int32Array(size))
    this.highMelts = widened(this.highMelts, new Int32Array(size))
    this.side = widened(this.side, new Uint8Array(size))
    this.parent = widened(this.parent, new Int32Array(size))
    this.pass = widened(this.pass, new Int16Array(size))
    this.next = widened(this.next, new Int32Array(size))
  }
}

function widened<T extends Float64Array | Int32Array | Int16Array | Uint8Array>(from: ArrayLike<number>, to: T): T {
  to.set(from)
  return to
}
