/** Which column is what: from headings where there are any, else from the numbers themselves, and how sure that is. */
import type { ColumnLook } from './columns.ts'
import type { ColumnRole } from './recipe.ts'

export interface Roles {
  /** By place in the list of looks. */
  readonly roles: readonly ColumnRole[]
  /** From 0 to 1. */
  readonly confidence: number
  readonly why: readonly string[]
  /** Expected and actual could as well be the other way round. */
  readonly swappable: boolean
}

/** What is known of the memory, to tell addresses by. */
export type IsMapped = ((address: bigint) => boolean) | undefined

/** What is left of the confidence for bare decimal numbers: counters, times, percentages. */
const PLAIN_NUMBERS = 0.2

interface Draft {
  readonly roles: ColumnRole[]
  confidence: number
  readonly why: string[]
  swappable: boolean
}

/** Gives each column its role. Confidence 0: nothing in it tells where an error is. */
export function assignRoles(looks: readonly ColumnLook[], isMapped: IsMapped): Roles {
  const draft: Draft = { roles: looks.map(() => 'ignore'), confidence: 1, why: [], swappable: false }
  fromHeadings(draft, looks)
  fromLabels(draft, looks)
  findAddress(draft, looks, isMapped)
  const labelled = draft.roles.some((role) => role === 'part' || role === 'channel' || role === 'lane')
  if (draft.roles.includes('address')) {
    findWords(draft, looks)
    judgeAddress(draft, looks)
    judgeMapping(draft, looks, isMapped)
  } else if (labelled) findCount(draft, looks)
  else draft.confidence = 0
  return draft
}

const NUMERIC: ReadonlySet<ColumnRole> = new Set(['address', 'expected', 'actual', 'difference', 'count'])

function fromHeadings(draft: Draft, looks: readonly ColumnLook[]): void {
  for (const [i, look] of looks.entries()) {
    const role = look.role
    if (role === undefined || draft.roles.includes(role)) continue
    if (NUMERIC.has(role) && look.base === undefined) continue
    if (role === 'bit' && !look.texts.every((text) => /^\D*\d{1,2}\D*$/.test(text))) continue
    draft.roles[i] = role
    draft.why.push(`${nameOf(look)} is the ${role}, by its name ${JSON.stringify(look.heading)}.`)
  }
}

function fromLabels(draft: Draft, looks: readonly ColumnLook[]): void {
  for (const [i, look] of looks.entries()) {
    if (draft.roles[i] !== 'ignore' || look.label === undefined || draft.roles.includes(look.label)) continue
    draft.roles[i] = look.label
    draft.why.push(`${nameOf(look)} names a ${look.label} of the board in each row.`)
  }
  laneBesidePart(draft, looks)
}

/** A lane's own name says which lane it is only together with its part. */
function laneBesidePart(draft: Draft, looks: readonly ColumnLook[]): void {
  if (!draft.roles.includes('part') || draft.roles.includes('lane')) return
  const i = looks.findIndex((look, at) => draft.roles[at] === 'ignore' && look.laneNames)
  const look = looks[i]
  if (look === undefined) return
  draft.roles[i] = 'lane'
  draft.why.push(`${nameOf(look)} names a lane of that part in each row.`)
}

const nameOf = (look: ColumnLook): string => (typeof look.at === 'number' ? `Column ${look.at + 1}` : look.at)

const free = (draft: Draft, looks: readonly ColumnLook[]): number[] =>
  looks.flatMap((look, i) =>
    draft.roles[i] === 'ignore' && look.base !== undefined && look.role === undefined ? [i] : [],
  )

function findAddress(draft: Draft, looks: readonly ColumnLook[], isMapped: IsMapped): void {
  if (draft.roles.includes('address')) return
  const scored = free(draft, looks)
    .map((i) => ({ i, score: addressScore(looks[i], i, isMapped) }))
    .toSorted((a, b) => b.score - a.score)
  const [best, second] = scored
  if (best === undefined || best.score <= 0) return
  const labelled = draft.roles.some((role) => role === 'part' || role === 'channel' || role === 'lane')
  const look = looks[best.i]
  if (look === undefined || (labelled && look.base === 'decimal')) return
  draft.roles[best.i] = 'address'
  const clear = second === undefined || best.score - second.score > 1
  draft.confidence *= clear ? 0.9 : 0.6
  draft.why.push(
    `${nameOf(look)} is taken for the address${clear ? '' : ', though another column could be it'}: ${look.distinct} different values in ${look.texts.length} rows.`,
  )
}

/** Addresses are long, differ from row to row, mostly rise, are even or a multiple of 4, lie in the memory, stand first. */
function addressScore(look: ColumnLook | undefined, place: number, isMapped: IsMapped): number {
  if (look === undefined) return 0
  const { values } = look
  const n = Math.max(1, values.length)
  const share = (test: (value: bigint, i: number) => boolean): number => values.filter(test).length / n
  const wide = values.some((value) => value > 0xffn)
  if (!wide) return -1
  const rising = n < 3 ? 0.5 : share((value, i) => i > 0 && value >= (values[i - 1] ?? 0n))
  const mapped = isMapped === undefined ? 0 : 2 * share(isMapped) - 1
  return (
    2 * (look.distinct / n) +
    rising +
    share((value) => (value & 3n) === 0n) +
    mapped +
    (look.base === 'hex' ? 0.5 : 0) -
    0.3 * place
  )
}

function findWords(draft: Draft, looks: readonly ColumnLook[]): void {
  const has = (role: ColumnRole): boolean => draft.roles.includes(role)
  if ((has('expected') && has('actual')) || (has('difference') && !has('expected') && !has('actual'))) return
  const left = free(draft, looks).filter((i) => (looks[i]?.texts.length ?? 0) > 0)
  if (has('expected') !== has('actual')) {
    if (has('difference')) return
    completePair(draft, looks, left)
    return
  }
  const triple = findTriple(looks, left)
  const pair = triple === undefined ? closestPair(looks, left) : triple.pair
  if (triple !== undefined) {
    draft.roles[triple.difference] = 'difference'
    draft.why.push(`${describe(looks, triple.difference)} is the XOR of two others in every row.`)
  }
  if (pair !== undefined) orderPair(draft, looks, pair)
  else loneWord(draft, looks, left)
}

const describe = (looks: readonly ColumnLook[], i: number): string => {
  const look = looks[i]
  return look === undefined ? `Column ${i + 1}` : nameOf(look)
}

function completePair(draft: Draft, looks: readonly ColumnLook[], left: readonly number[]): void {
  const missing = draft.roles.includes('expected') ? 'actual' : 'expected'
  const [only] = left
  if (only === undefined) {
    const lone = draft.roles.indexOf(missing === 'actual' ? 'expected' : 'actual')
    draft.roles[lone] = 'ignore'
    draft.confidence *= 0.5
    draft.why.push(`There is no ${missing} word, so that no bits can be told.`)
    return
  }
  draft.roles[only] = missing
  draft.confidence *= 0.8
  draft.why.push(`${describe(looks, only)} is left, so it is taken for the ${missing} word.`)
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
      `${describe(looks, expected)} is taken for the expected word: it has ${values} different values, mostly test patterns; ${describe(looks, actual)} has ${others}. Fairly sure.`,
    )
    return
  }
  draft.confidence *= 0.55
  draft.why.push(
    `${describe(looks, expected)} is taken for the expected word only because it stands first, as is usual; not sure.`,
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
  const [only] = left
  const look = only === undefined ? undefined : looks[only]
  if (only === undefined || look === undefined) {
    if (draft.roles.includes('bit')) return
    draft.confidence *= 0.6
    draft.why.push('There are no words, only addresses: the channel can be told, lanes and bits not.')
    return
  }
  const isCount = look.base === 'decimal' && !draft.roles.includes('count')
  draft.roles[only] = isCount ? 'count' : 'difference'
  draft.confidence *= 0.5
  draft.why.push(
    `${nameOf(look)} is the only number beside the address, so it is taken for ${isCount ? 'a count' : 'the XOR'}.`,
  )
}

function findCount(draft: Draft, looks: readonly ColumnLook[]): void {
  if (draft.roles.includes('count') || draft.roles.includes('difference') || draft.roles.includes('expected')) return
  const left = free(draft, looks)
  const count = left.filter((i) => looks[i]?.base === 'decimal').at(-1) ?? left.at(-1)
  if (count === undefined) {
    draft.confidence *= 0.5
    draft.why.push('There is no count: each row counts as one error.')
    return
  }
  draft.roles[count] = 'count'
  draft.confidence *= 0.8
  draft.why.push(`${describe(looks, count)} is taken for the count.`)
}

/** Small bare decimal numbers may be anything, whatever word stands before them. */
function judgeAddress(draft: Draft, looks: readonly ColumnLook[]): void {
  const look = looks[draft.roles.indexOf('address')]
  if (look === undefined || look.base !== 'decimal' || look.baseShown) return
  const named = look.role === 'address'
  if (!named || look.values.every((value) => value <= 0xffffn)) draft.confidence *= PLAIN_NUMBERS
}

function judgeMapping(draft: Draft, looks: readonly ColumnLook[], isMapped: IsMapped): void {
  const values = looks[draft.roles.indexOf('address')]?.values ?? []
  if (isMapped === undefined || values.length === 0) return
  const share = values.filter(isMapped).length / values.length
  if (share > 0.99) draft.why.push('All addresses looked at lie in the board’s memory.')
  else {
    draft.confidence *= 0.3 + 0.7 * share
    draft.why.push(`${Math.round(100 * (1 - share))} % of the addresses lie beyond the board’s memory.`)
  }
}
