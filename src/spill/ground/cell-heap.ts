/** A binary min-heap of cells by key, with back pointers so that a key can be lowered, over typed arrays. */

export class CellHeap {
  private readonly keys: Float64Array
  private readonly heap: Int32Array
  /** Where a cell waits in the heap, from 1; 0 while it doesn't. */
  private readonly slot: Int32Array
  private waiting = 0

  constructor(size: number) {
    this.keys = new Float64Array(size).fill(Infinity)
    this.heap = new Int32Array(size + 2)
    this.slot = new Int32Array(size)
  }

  /** The waiting cell with the lowest key, or -1. */
  first(): number {
    return this.waiting === 0 ? -1 : (this.heap[1] ?? -1)
  }

  keyOf(cell: number): number {
    return this.keys[cell] ?? Infinity
  }

  /** Puts a cell in, or lowers its key; a higher key changes nothing. */
  lower(cell: number, key: number): void {
    const { keys, heap, slot } = this
    if (key >= (keys[cell] ?? 0)) return
    keys[cell] = key
    let at = slot[cell] ?? 0
    if (at === 0) at = ++this.waiting
    while (at > 1) {
      const above = heap[at >> 1] ?? 0
      if ((keys[above] ?? 0) <= key) break
      heap[at] = above
      slot[above] = at
      at >>= 1
    }
    heap[at] = cell
    slot[cell] = at
  }

  dropFirst(): void {
    const { keys, heap, slot } = this
    const gone = heap[1] ?? 0
    keys[gone] = Infinity
    slot[gone] = 0
    const cell = heap[this.waiting--] ?? 0
    const { waiting } = this
    if (waiting === 0) return
    const key = keys[cell] ?? 0
    let at = 1
    for (let child = 2; child <= waiting; child = at * 2) {
      let below = heap[child] ?? 0
      let least = keys[below] ?? 0
      if (child < waiting) {
        const other = heap[child + 1] ?? 0
        const otherKey = keys[other] ?? 0
        if (otherKey < least) {
          child++
          below = other
          least = otherKey
        }
      }
      if (least >= key) break
      heap[at] = below
      slot[below] = at
      at = child
    }
    heap[at] = cell
    slot[cell] = at
  }

  clear(): void {
    for (let i = 1; i <= this.waiting; i++) {
      const cell = this.heap[i] ?? 0
      this.keys[cell] = Infinity
      this.slot[cell] = 0
    }
    this.waiting = 0
  }
}
