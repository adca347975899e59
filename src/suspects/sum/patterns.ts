/**
 * What a state of a shared variable does to one group, as numbers: what it leaves good of each bit (by which part would have
 * to come off for it), how well the package's passing lanes bear it by margin, and which kinds of cause touch it. Equal
 * patterns get one number, so that many states are few patterns.
 */
import type { CauseKind } from '../result.ts'
import { type Dependence, MARGIN_PAIRS, rowsOf } from './margins.ts'

/** Kinds of shared causes, in the order of a pattern's last entries. */
export const SHARED_KINDS = [
  'rail',
  'rail-branch',
  'power-stage',
  'core',
  'core-patch',
  'spill',
  'unreported-spill',
  'slip',
  // of a stack on the core
  'die',
  'joints',
  'command-joints',
] as const satisfies readonly CauseKind[]

/** Place of a shared kind among a pattern's last entries; -1 for a kind that no shared variable has. */
export const sharedKind = (kind: CauseKind): number => SHARED_KINDS.findIndex((each) => each === kind)

/** Where the entries of a pattern of so many bits stand. */
export interface Layout {
  readonly bits: number
  /** By bit: what is left good by harm at the package itself, and by harm at the core. */
  readonly memory: number
  readonly core: number
  /** By pair of margins, by bit: what everything else leaves good. */
  readonly other: number
  /** By pair of margins: probability that the package's passing lanes pass. */
  readonly pass: number
  /** By shared kind: the most that it does to any bit. */
  readonly kinds: number
  readonly length: number
}

/** Where each entry stands in a pattern for so many bad bits. */
export function layoutOf(bits: number): Layout {
  const other = 2 * bits
  const pass = other + MARGIN_PAIRS * bits
  const kinds = pass + MARGIN_PAIRS
  return { bits, memory: 0, core: bits, other, pass, kinds, length: kinds + SHARED_KINDS.length }
}

export interface PatternBook {
  readonly layout: Layout
  /** Number of an equal pattern; the book keeps a copy. */
  readonly numberOf: (pattern: Float64Array) => number
  readonly pattern: (number: number) => Float64Array
  /** Number of the pattern of two states at once. */
  readonly both: (a: number, b: number) => number
  /** On which margins its bits depend. */
  readonly dependence: (number: number) => Dependence
  /** True where it leaves a bit less than good at that end of the package's lanes. */
  readonly touches: (number: number, end: 'memory' | 'core') => boolean
}

/** Pattern 0 touches nothing. */
export const NEUTRAL = 0

/** A new pattern that touches nothing: all left good, no kind at work. */
export function neutralPattern({ kinds, length }: Layout): Float64Array {
  return new Float64Array(length).fill(1).fill(0, kinds)
}

/**
 * A book of patterns of so many bits, with number 0 for the neutral one. Equal patterns are found by hash and
 * compared in full, so that numbers never mix two up.
 */
export function createPatternBook(bits: number): PatternBook {
  const layout = layoutOf(bits)
  const patterns: Float64Array[] = []
  const margins: Dependence[] = []
  const touched: number[] = []
  const known = new Map<number, number[]>()
  const words = new Int32Array(2 * layout.length)
  const copy = new Float64Array(words.buffer)
  const pairs = new Map<number, number>()
  const numberOf = (pattern: Float64Array): number => {
    copy.set(pattern)
    const hash = hashOf(words)
    const alike = known.get(hash) ?? []
    const before = alike.find((number) => isEqual(patterns[number], pattern))
    if (before !== undefined) return before
    const number = patterns.push(pattern.slice()) - 1
    margins.push(dependenceOf(layout, pattern))
    touched.push(endsOf(layout, pattern))
    known.set(hash, [...alike, number])
    return number
  }
  numberOf(neutralPattern(layout))
  const both = (a: number, b: number): number => {
    if (a === NEUTRAL) return b
    if (b === NEUTRAL) return a
    const key = a < b ? a * 2 ** 26 + b : b * 2 ** 26 + a
    const before = pairs.get(key)
    if (before !== undefined) return before
    const number = numberOf(productOf(layout, patterns[a], patterns[b]))
    pairs.set(key, number)
    return number
  }
  const empty = neutralPattern(layout)
  return {
    layout,
    numberOf,
    both,
    pattern: (number) => patterns[number] ?? empty,
    dependence: (n) => margins[n] ?? 0,
    touches: (n, end) => ((touched[n] ?? 0) & (end === 'memory' ? MEMORY_END : CORE_END)) !== 0,
  }
}

const MEMORY_END = 1
const CORE_END = 2

function endsOf({ bits, memory, core }: Layout, pattern: Float64Array): number {
  const isTouched = (from: number): boolean => pattern.subarray(from, from + bits).some((good) => good < 1)
  return (isTouched(memory) ? MEMORY_END : 0) | (isTouched(core) ? CORE_END : 0)
}

/** FNV-1a over words instead of bytes (Fowler, Noll and Vo, RFC 9923). */
function hashOf(words: Int32Array): number {
  let hash = 0x811c9dc5
  for (let at = 0; at < words.length; at++) {
    hash = Math.imul(hash ^ (words[at] ?? 0), 0x01000193)
    hash ^= hash >>> 15
  }
  return hash
}

function isEqual(a: Float64Array | undefined, b: Float64Array): boolean {
  for (let at = 0; at < b.length; at++) if (a?.[at] !== b[at]) return false
  return true
}

function dependenceOf({ bits, other, pass }: Layout, pattern: Float64Array): Dependence {
  const isAs = (pair: number, like: number): boolean => {
    if (pattern[pass + pair] !== pattern[pass + like]) return false
    for (let bit = 0; bit < bits; bit++) {
      if (pattern[other + pair * bits + bit] !== pattern[other + like * bits + bit]) return false
    }
    return true
  }
  const firsts = rowsOf(1)
  const pairs = rowsOf(2)
  const bySecond = pairs.some((pair) => !isAs(pair, firsts.findLast((first) => first <= pair) ?? 0))
  if (bySecond) return 2
  return firsts.every((first) => isAs(first, 0)) ? 0 : 1
}

function productOf(layout: Layout, a: Float64Array | undefined, b: Float64Array | undefined): Float64Array {
  const product = new Float64Array(layout.length)
  for (let i = 0; i < layout.kinds; i++) product[i] = (a?.[i] ?? 1) * (b?.[i] ?? 1)
  for (let i = layout.kinds; i < layout.length; i++) product[i] = Math.max(a?.[i] ?? 0, b?.[i] ?? 0)
  return product
}
