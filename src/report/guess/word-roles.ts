/** Which columns hold the words of a row with an address: expected, actual, difference, or the end of a range. */
import { say } from '../../base/index.ts'
import type { ColumnLook } from './columns.ts'
import { describe, type Draft, free, isOut, nameOf } from './roles-draft.ts'
import type { ColumnRole } from '../recipe.ts'

/**
 * Gives roles in place: `draft.roles` and `draft.why` change, columns that have a role keep it. Three columns of
 * which one is the XOR of the others in 95 % of the rows count first, then the closest pair, then a lone word.
 */
export function findWords(draft: Draft, looks: readonly ColumnLook[]): void {
  const has = (role: ColumnRole): boolean => draft.roles.includes(role)
  if (has('expected') && has('actual')) return
  if (has('difference') && !has('expected') && !has('actual')) {
    pairOfDifference(draft, looks)
    return
  }
  if (has('bits') || has('bit')) return
  findEnd(draft, looks)
  const left = free(draft, looks).filter((i) => looks[i] !== undefined && couldBeWord(looks[i]))
  if (has('expected') !== has('actual')) {
    if (has('difference')) return
    completePair(draft, looks, left)
    return
  }
  const triple = findTriple(looks, left)
  const pair = triple === undefined ? closestPair(looks, left) : triple.pair
  if (triple !== undefined) {
    draft.roles[triple.difference] = 'difference'
    draft.why.push(say('{looks} is the XOR of two others in every row.', { looks: describe(looks, triple.difference) }))
  }
  if (pair !== undefined) orderPair(draft, looks, pair)
  else loneWord(draft, looks, left)
}

/** Two more words whose XOR is the difference in every row: what was written and what was read. */
function pairOfDifference(draft: Draft, looks: readonly ColumnLook[]): void {
  const difference = looks[draft.roles.indexOf('difference')]?.values ?? []
  const left = free(draft, looks).filter((i) => couldBeWord(looks[i]))
  for (const [x, a] of left.entries()) {
    for (const b of left.slice(x + 1)) {
      const [one, other] = [looks[a]?.values ?? [], looks[b]?.values ?? []]
      if (difference.every((value, row) => ((one[row] ?? 0n) ^ (other[row] ?? 0n)) === value)) {
        orderPair(draft, looks, [a, b])
        return
      }
    }
  }
}

/** Memory words are written in hexadecimal, or are large. */
const couldBeWord = (look: ColumnLook | undefined): boolean =>
  look !== undefined && (look.base === 'hex' || look.values.some((value) => value > 0xffffn))

const LONGEST_RANGE = 1n << 30n

/** A second column of addresses, a little above the first in every row: the end of a range. */
function findEnd(draft: Draft, looks: readonly ColumnLook[]): void {
  const first = looks[draft.roles.indexOf('address')]
  if (first === undefined || first.values.length < 2 || draft.roles.includes('end')) return
  const i = free(draft, looks).find((at) => {
    const steps = looks[at]?.values.map((value, row) => value - (first.values[row] ?? 0n)) ?? []
    return (
      steps.length > 0 &&
      steps.every((step) => step > 0n && step < LONGEST_RANGE) &&
      new Set(steps).size <= Math.max(2, steps.length / 3)
    )
  })
  if (i === undefined) return
  draft.roles[i] = 'end'
  draft.why.push(
    say('{looks} lies a little above the address in every row, so it is taken for the end of a range.', {
      looks: describe(looks, i),
    }),
  )
}

function completePair(draft: Draft, looks: readonly ColumnLook[], left: readonly number[]): void {
  const missing = draft.roles.includes('expected') ? 'actual' : 'expected'
  const [only] = left
  if (only === undefined) {
    const lone = draft.roles.indexOf(missing === 'actual' ? 'expected' : 'actual')
    draft.roles[lone] = 'ignore'
    draft.confidence *= 0.5
    draft.why.push(
      say('There is no {missing, select, expected {expected} other {actual}} word, so that no bits can be told.', {
        missing,
      }),
    )
    draft.doubts.push(
      say('{looks} is a word that was {way, select, written {written} other {read}}, and the other one is not found', {
        looks: describe(looks, lone),
        way: missing === 'actual' ? 'written' : 'read',
      }),
    )
    return
  }
  draft.roles[only] = missing
  draft.confidence *= 0.8
  draft.why.push(
    say('{looks} is left, so it is taken for the {missing, select, expected {expected} other {actual}} word.', {
      looks: describe(looks, only),
      missing,
    }),
  )
}

/** Columns a, b, c with a ^ b = c in nearly every row; which of them is the XOR, `differenceOf` says. */
function findTriple(
  looks: readonly ColumnLook[],
  left: readonly number[],
): { pair: readonly [number, number]; difference: number } | undefined {
  for (const [x, a] of left.entries()) {
    for (const [y, b] of left.entries()) {
      for (const c of left.slice(y + 1)) {
        if (y <= x) continue
        const [va, vb, vc] = [looks[a]?.values ?? [], looks[b]?.values ?? [], looks[c]?.values ?? []]
        const agree = va.filter((value, i) => (value ^ (vb[i] ?? 0n)) === vc[i]).length
        if (agree < 0.95 * va.length || va.every((value) => value === 0n)) continue
        const difference = differenceOf(looks, [a, b, c])
        const [first = a, second = b] = [a, b, c].filter((i) => i !== difference)
        return { pair: [first, second], difference }
      }
    }
  }
  return undefined
}

/** Of three columns each of which is the XOR of the others: the one with by far the fewest bits set, else the last. */
function differenceOf(looks: readonly ColumnLook[], three: readonly [number, number, number]): number {
  const [fewest, next] = three
    .map((i) => ({ i, bits: bitsSet(looks[i]?.values ?? []) }))
    .toSorted((a, b) => a.bits - b.bits)
  return fewest !== undefined && next !== undefined && fewest.bits > 0 && 2 * fewest.bits < next.bits
    ? fewest.i
    : three[2]
}

function bitsSet(values: readonly bigint[]): number {
  return values.reduce((sum, value) => sum + value.toString(2).replaceAll('0', '').length, 0)
}

/** The two columns whose words are most alike; counts and small numbers don't qualify. */
function closestPair(looks: readonly ColumnLook[], left: readonly number[]): readonly [number, number] | undefined {
  let best: { pair: readonly [number, number]; cost: number } | undefined
  for (const [x, a] of left.entries()) {
    for (const b of left.slice(x + 1)) {
      const [first, second] = [looks[a], looks[b]]
      if (first === undefined || second === undefined) continue
      const unlike = Math.abs(meanLength(first.texts) - meanLength(second.texts)) + (first.base === second.base ? 0 : 4)
      const cost = unlike + 0.5 * (b - a)
      if (best === undefined || cost < best.cost) best = { pair: [a, b], cost }
    }
  }
  return best?.pair
}

const meanLength = (texts: readonly string[]): number =>
  texts.reduce((sum, text) => sum + text.length, 0) / Math.max(1, texts.length)

/** With fewer rows a pair of numbers may be anything, such as the ends of what a test went over. */
const FEWEST_ROWS = 3

/** The expected word comes from few values that look like test patterns; without a sign of that, it stands first. */
function orderPair(draft: Draft, looks: readonly ColumnLook[], pair: readonly [number, number]): void {
  const [first, second] = [looks[pair[0]], looks[pair[1]]]
  if (first === undefined || second === undefined) return
  const lead = expectedness(first) - expectedness(second)
  const firstIsExpected = lead >= 0
  const [expected, actual] = firstIsExpected ? pair : [pair[1], pair[0]]
  draft.roles[expected] = 'expected'
  draft.roles[actual] = 'actual'
  draft.swappable = true
  const values = looks[expected]?.distinct ?? 0
  const others = looks[actual]?.distinct ?? 0
  if (Math.abs(lead) > 0.5) {
    draft.confidence *= 0.85
    draft.why.push(
      say(
        '{expected} is taken for the expected word: it has {values} different values, mostly test patterns; {actual} has {others}. Fairly sure.',
        { expected: describe(looks, expected), values, actual: describe(looks, actual), others },
      ),
    )
    return
  }
  draft.confidence *= 0.55
  if (looks[expected] !== undefined && looks[expected].values.length < FEWEST_ROWS) {
    const both = say('{expected} and {actual}', {
      expected: describe(looks, expected),
      actual: describe(looks, actual),
    })
    draft.doubts.push(say('nothing but their order says that {both} are what was expected and what was read', { both }))
  }
  draft.why.push(
    say('{looks} is taken for the expected word only because it stands first, as is usual; not sure.', {
      looks: describe(looks, expected),
    }),
  )
}

function expectedness(look: ColumnLook): number {
  const n = Math.max(1, look.values.length)
  const width = Math.max(1, ...look.texts.map((text) => text.replace(/^0x/i, '').replace(/[^0-9a-f]/gi, '').length))
  const patterns = look.values.filter((value) => isPattern(value, width * 4)).length / n
  return patterns - Math.log2(look.distinct) / 4
}

/** All bytes the same, or one bit set, or all but one. */
function isPattern(value: bigint, bits: number): boolean {
  const byte = value & 0xffn
  const bytes = Math.ceil(bits / 8)
  let repeated = 0n
  for (let i = 0; i < bytes; i++) repeated = (repeated << 8n) | byte
  if (repeated === value) return true
  const inverse = ((1n << BigInt(bits)) - 1n) ^ value
  return (value & (value - 1n)) === 0n || (inverse & (inverse - 1n)) === 0n
}

function loneWord(draft: Draft, looks: readonly ColumnLook[], left: readonly number[]): void {
  const count = looks.findIndex(
    (look, i) => draft.roles[i] === 'ignore' && look.says === 'quantity' && !isOut(look) && look.role === undefined,
  )
  const only = left[0] ?? (count < 0 ? undefined : count)
  const look = only === undefined ? undefined : looks[only]
  if (only === undefined || look === undefined) {
    if (draft.roles.includes('bit') || draft.roles.includes('count')) return
    draft.confidence *= 0.6
    draft.why.push(say('There are no words, only addresses: the channel can be told, lanes and bits not.'))
    return
  }
  const address = looks[draft.roles.indexOf('address')]
  const isTold = address?.role === 'address' || address?.baseShown === true
  if (look.role === undefined && (!isTold || look.values.length < FEWEST_ROWS))
    draft.doubts.push(
      say('nothing says that {look} tells of bits, or the other number of a place', { look: nameOf(look) }),
    )
  const isCount = look.base === 'decimal' && look.says === 'quantity' && !draft.roles.includes('count')
  draft.roles[only] = isCount ? 'count' : 'difference'
  draft.confidence *= 0.5
  draft.why.push(
    isCount
      ? say('{look} is the only number beside the address, so it is taken for a count.', { look: nameOf(look) })
      : say('{look} is the only number beside the address, so it is taken for the XOR.', { look: nameOf(look) }),
  )
}
