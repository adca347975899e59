/**
 * How many bits it takes to write labels or parities down, one after the other, each foretold from those before it. What
 * takes fewer bits with a map than without, the map itself counted, has not come about by chance: minimum description
 * length (Rissanen 1978), coded by the estimators of Krichevsky and Trofimov (1981) and of Dirichlet.
 */

/** Counts that a value has before it was ever seen; small, for most places hold one label and few wrong ones. */
const BEFOREHAND = 0.1

/**
 * @param contexts what each value depends on: whole numbers from 0 to 2^40; -1 for a row that does not count
 * @param values whole numbers from 0 to `count` - 1
 * @returns bits for all values, where each context has shares of its own that are not known beforehand
 */
export const codeBits = (contexts: ArrayLike<number>, values: ArrayLike<number>, count: number): number =>
  foretoldBits(contexts, values, { count, beforehand: BEFOREHAND })

/** @returns bits for all values in one context: the fewest of several codes, so that a bad one makes nothing look better */
export function bareBits(values: ArrayLike<number>, count: number): number {
  const contexts = Int32Array.from(values, (value) => (value < 0 ? -1 : 0))
  const rows = contexts.reduce((sum, context) => sum + 1 + context, 0)
  const codes = [BEFOREHAND, 0.5, 1].map((beforehand) => foretoldBits(contexts, values, { count, beforehand }))
  return Math.min(rows * Math.log2(count), ...codes)
}

function foretoldBits(
  contexts: ArrayLike<number>,
  values: ArrayLike<number>,
  { count, beforehand }: { readonly count: number; readonly beforehand: number },
): number {
  const seen = new Map<number, number>()
  const seenOf = new Map<number, number>()
  let bits = 0
  for (let i = 0; i < values.length; i++) {
    const context = contexts[i] ?? -1
    if (context < 0) continue
    const key = context * count + (values[i] ?? 0)
    const all = seen.get(context) ?? 0
    const same = seenOf.get(key) ?? 0
    bits -= Math.log2((same + beforehand) / (all + beforehand * count))
    seen.set(context, all + 1)
    seenOf.set(key, same + 1)
  }
  return bits
}

/** @returns bits for `all` zeros and ones in their order, `ones` of them ones: for numbers up to `most` */
export function parityBits(most: number): (all: number, ones: number) => number {
  const halves = new Float64Array(most + 1)
  const wholes = new Float64Array(most + 1)
  for (let i = 1; i <= most; i++) {
    halves[i] = (halves[i - 1] ?? 0) + Math.log2(i - 0.5)
    wholes[i] = (wholes[i - 1] ?? 0) + Math.log2(i)
  }
  return (all, ones) => (wholes[all] ?? 0) - (halves[ones] ?? 0) - (halves[all - ones] ?? 0)
}
