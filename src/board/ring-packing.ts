/** Puts blocks along a closed ring, each as near to its wish as can be, none over another. */

export interface Block {
  /** Where its middle would like to be, in mm along the ring. */
  readonly wishMm: number
  readonly widthMm: number
}

/**
 * Starts of the blocks along the ring, in mm: as near to their wishes as can be (least squares) without overlap. The ring
 * is cut at its widest gap between wishes; on the cut-open line it is isotonic regression, solved by pooling adjacent
 * violators (Barlow, Bartholomew, Bremner and Brunk 1972; from memory).
 * @param blocks ascending in `wishMm`, together no longer than the ring
 */
export function placedStarts(blocks: readonly Block[], perimeterMm: number): number[] {
  const n = blocks.length
  const first = afterWidestGap(blocks, perimeterMm)
  const order = Array.from({ length: n }, (_, k) => (first + k) % n)
  const shifted: number[] = []
  let before = 0
  for (const i of order) {
    const block = blocks[i]
    if (!block) continue
    const wishMm = block.wishMm + (i < first ? perimeterMm : 0)
    shifted.push(wishMm - block.widthMm / 2 - before)
    before += block.widthMm
  }
  const pooled = squeezed(pooledAscending(shifted), perimeterMm - before)
  const starts = Array.from({ length: n }, () => 0)
  before = 0
  for (const [k, i] of order.entries()) {
    starts[i] = (pooled[k] ?? 0) + before
    before += blocks[i]?.widthMm ?? 0
  }
  return starts
}

function afterWidestGap(blocks: readonly Block[], perimeterMm: number): number {
  let widest = -1
  let first = 0
  for (const [i, block] of blocks.entries()) {
    const previous = blocks[(i + blocks.length - 1) % blocks.length]
    const gap = i === 0 ? block.wishMm + perimeterMm - (previous?.wishMm ?? 0) : block.wishMm - (previous?.wishMm ?? 0)
    if (gap > widest) {
      widest = gap
      first = i
    }
  }
  return first
}

/** The non-decreasing sequence nearest to `values` by least squares. */
function pooledAscending(values: readonly number[]): number[] {
  const pools: { mean: number; count: number }[] = []
  for (const value of values) {
    let pool = { mean: value, count: 1 }
    for (let last = pools.at(-1); last && last.mean > pool.mean; last = pools.at(-1)) {
      pools.pop()
      const count = last.count + pool.count
      pool = { mean: (last.mean * last.count + pool.mean * pool.count) / count, count }
    }
    pools.push(pool)
  }
  return pools.flatMap(({ mean, count }) => Array.from({ length: count }, () => mean))
}

/** Draws an ascending sequence together about its middle until it spans no more than the slack that the ring has. */
function squeezed(ascending: readonly number[], slackMm: number): number[] {
  const low = ascending[0] ?? 0
  const span = (ascending.at(-1) ?? 0) - low
  if (span <= slackMm) return [...ascending]
  const middle = low + span / 2
  return ascending.map((value) => middle + ((value - middle) * slackMm) / span)
}
