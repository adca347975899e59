/** A binary heap of node numbers, least key first; among equal keys the one that is further along, then the older one. */
export class OrderHeap {
  readonly #keys: number[] = []
  readonly #depths: number[] = []
  readonly #nodes: number[] = []

  get size(): number {
    return this.#nodes.length
  }

  /** Least key, or infinity where nothing is left. */
  get leastKey(): number {
    return this.#keys[0] ?? Number.POSITIVE_INFINITY
  }

  push(key: number, depth: number, node: number): void {
    this.#keys.push(key)
    this.#depths.push(depth)
    this.#nodes.push(node)
    let at = this.#nodes.length - 1
    while (at > 0) {
      const above = (at - 1) >> 1
      if (!this.#before(at, above)) return
      this.#swap(at, above)
      at = above
    }
  }

  pop(): number | undefined {
    const top = this.#nodes[0]
    this.#swap(0, this.#nodes.length - 1)
    this.#keys.pop()
    this.#depths.pop()
    this.#nodes.pop()
    const size = this.#nodes.length
    for (let at = 0; ; ) {
      let least = at
      for (const below of [2 * at + 1, 2 * at + 2]) if (below < size && this.#before(below, least)) least = below
      if (least === at) return top
      this.#swap(at, least)
      at = least
    }
  }

  #before(a: number, b: number): boolean {
    const byKey = (this.#keys[a] ?? 0) - (this.#keys[b] ?? 0)
    if (byKey !== 0) return byKey < 0
    const byDepth = (this.#depths[b] ?? 0) - (this.#depths[a] ?? 0)
    return byDepth === 0 ? (this.#nodes[a] ?? 0) < (this.#nodes[b] ?? 0) : byDepth < 0
  }

  #swap(a: number, b: number): void {
    for (const list of [this.#keys, this.#depths, this.#nodes]) {
      const kept = list[a]
      const other = list[b]
      if (kept === undefined || other === undefined) continue
      list[a] = other
      list[b] = kept
    }
  }
}
