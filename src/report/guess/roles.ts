/** Which column is what: from headings where there are any, else from the numbers themselves, and how sure that is. */
import { percent, say } from '../../base/index.ts'
import type { ColumnLook } from './columns.ts'
import { findCount } from './count-roles.ts'
import { describe, type Draft, free, isInherited, isOut, nameOf } from './roles-draft.ts'
import type { ColumnRole } from '../recipe.ts'
import { roleSaid } from '../role-words.ts'
import { findWords } from './word-roles.ts'

export interface Roles {
  /** By place in the list of looks. */
  readonly roles: readonly ColumnRole[]
  /** From 0 to 1. */
  readonly confidence: number
  readonly why: readonly string[]
  /** Expected and actual could as well be the other way round. */
  readonly swappable: boolean
  /** What makes it a question. */
  readonly doubts: readonly string[]
}

/** What is known of the memory, to tell addresses by. */
export type IsMapped = ((address: bigint) => boolean) | undefined

/** What is left of the confidence for bare decimal numbers: counters, times, percentages. */
const PLAIN_NUMBERS = 0.2

/** Gives each column its role. Confidence 0: nothing in it tells where an error is. */
export function assignRoles(looks: readonly ColumnLook[], isMapped: IsMapped, prefer: 'names' | 'addresses'): Roles {
  const draft: Draft = { roles: looks.map(() => 'ignore'), confidence: 1, why: [], swappable: false, doubts: [] }
  if (prefer === 'names') fromLabels(draft, looks)
  fromHeadings(draft, looks)
  fromLabels(draft, looks)
  const named = draft.roles.some((role) => role === 'part' || role === 'channel' || role === 'lane')
  if (prefer === 'names' && named) {
    for (const [i, role] of draft.roles.entries()) if (role === 'address') draft.roles[i] = 'ignore'
  } else findAddress(draft, looks, isMapped)
  const labelled = draft.roles.some((role) => role === 'part' || role === 'channel' || role === 'lane')
  if (draft.roles.includes('address')) {
    findWords(draft, looks)
    judgeAddress(draft, looks)
    judgeMapping(draft, looks, isMapped)
  } else if (labelled) findCount(draft, looks)
  else draft.confidence = 0
  doubtUnused(draft, looks)
  return draft
}

/** A name that another column of the row tells more finely. */
function isRepeated(draft: Draft, look: ColumnLook): boolean {
  const finer = draft.roles.includes('address') ? ['part', 'channel', 'lane'] : look.label === 'lane' ? [] : ['lane']
  return (
    look.label !== undefined && (draft.roles.includes('address') || draft.roles.some((role) => finer.includes(role)))
  )
}

const WORDS: ReadonlySet<ColumnRole> = new Set(['expected', 'actual', 'difference'])
const isByte = (look: ColumnLook): boolean => look.texts.every((text) => /^\W*[0-9a-fA-F]{2}\W*$/.test(text))

/** What changes from row to row and is not said to be something else may be what tells of the errors. */
function doubtUnused(draft: Draft, looks: readonly ColumnLook[]): void {
  const isPlaceOnly =
    draft.roles.includes('address') && !draft.roles.some((role) => WORDS.has(role) || role === 'bit' || role === 'bits')
  const unused = looks.filter((look, i) => {
    if (draft.roles[i] !== 'ignore') return false
    if (look.label !== undefined || look.laneNames) return !isRepeated(draft, look)
    if (isOut(look) || look.distinct < 2) return false
    const isWord = look.base === 'hex' && look.baseShown
    if (isPlaceOnly && look.base === undefined && look.texts.every((text) => /\d/.test(text))) return true
    return (
      isWord ||
      (look.says === 'quantity' &&
        (look.heading === undefined || (look.role === undefined && !draft.roles.includes('count'))))
    )
  })
  const bytes = looks.filter((look, i) => draft.roles[i] === 'ignore' && isByte(look) && !isOut(look))
  if (bytes.length >= 2 && looks.some((look, i) => WORDS.has(draft.roles[i] ?? 'ignore') && isByte(look))) {
    draft.doubts.push(say('each row has several bytes, and only one of them is read'))
  }
  const [first] = unused
  const named = draft.roles.some((role) => role === 'part' || role === 'channel' || role === 'lane')
  const isMere = named && first?.says !== 'quantity' && first?.label === undefined && first?.laneNames !== true
  if (first === undefined || (isMere && draft.roles.includes('count'))) return
  draft.doubts.push(say('{first} is not used, and nothing says what it is', { first: nameOf(first) }))
  draft.confidence *= 0.8
}

/** What is left of the confidence where a heading speaks of parts, and the cells name nothing on the board. */
const STRANGE_NAMES = 0.3

const NUMERIC: ReadonlySet<ColumnRole> = new Set(['address', 'expected', 'actual', 'difference', 'count'])

function fromHeadings(draft: Draft, looks: readonly ColumnLook[]): void {
  for (const [i, look] of looks.entries()) {
    const role = roleByHeading(look)
    if (role === undefined || draft.roles[i] !== 'ignore' || draft.roles.includes(role)) continue
    if (isInherited(look) && role !== 'part' && role !== 'channel' && role !== 'lane') continue
    const counts = role === 'count' || role === 'tested'
    if (counts && (look.isCounter || (look.says !== 'quantity' && look.says !== 'verdict'))) continue
    if (NUMERIC.has(role) && !counts && look.base === undefined) continue
    if (role === 'status' && look.says !== 'verdict') continue
    if (role === 'bit' && !look.texts.every((text) => /^\D*\d{1,2}\D*$/.test(text))) continue
    draft.roles[i] = role
    draft.why.push(
      say('{look} is the {role}, by its name {heading}.', {
        look: nameOf(look),
        role: roleSaid[role],
        heading: JSON.stringify(look.heading),
      }),
    )
    if ((role === 'part' || role === 'channel' || role === 'lane') && !look.named) draft.confidence *= STRANGE_NAMES
  }
}

/** A heading is taken at its word only where the cells are such: `bad bits` over masks is a difference. */
function roleByHeading(look: ColumnLook): ColumnRole | undefined {
  if (look.role === 'bits' || look.says === 'bits') {
    if (look.says === 'bits') return look.label === undefined ? 'bits' : undefined
    if (look.base === 'hex' && look.baseShown) return 'difference'
    return look.texts.every((text) => /^\d{1,2}(?:[ ,]+\d{1,2})*$/.test(text)) ? 'bits' : undefined
  }
  if (look.role === 'bit' && look.says === 'quantity' && look.texts.some((text) => /[ ,]/.test(text.trim())))
    return 'bits'
  return look.role
}

function fromLabels(draft: Draft, looks: readonly ColumnLook[]): void {
  for (const [i, look] of looks.entries()) {
    if (draft.roles[i] !== 'ignore' || look.label === undefined || look.says === 'time') continue
    const role = roleOfLabel(draft, look)
    if (role === undefined) continue
    draft.roles[i] = role
    draft.why.push(
      say('{look} names a {label} of the board in each row.', { look: nameOf(look), label: roleSaid[look.label] }),
    )
  }
  laneBesidePart(draft, looks)
  halfBesidePart(draft, looks)
}

/** Which half a row speaks of is part of its name, even where the board has no such word. */
function halfBesidePart(draft: Draft, looks: readonly ColumnLook[]): void {
  if (!draft.roles.includes('part') && !draft.roles.includes('channel')) return
  const i = looks.findIndex((look, at) => draft.roles[at] === 'ignore' && look.areHalves)
  const role = (['lane', 'channel'] as const).find((one) => !draft.roles.includes(one))
  const look = looks[i]
  if (look === undefined || role === undefined) return
  draft.roles[i] = role
  draft.why.push(say('{look} says which half.', { look: nameOf(look) }))
}

/** What the cells name; two columns that both name lanes, or parts, can't both be read. */
function roleOfLabel(draft: Draft, look: ColumnLook): 'part' | 'channel' | 'lane' | undefined {
  const { label } = look
  return label === undefined || draft.roles.includes(label) ? undefined : label
}

/** A lane's own name says which lane it is only together with its part. */
function laneBesidePart(draft: Draft, looks: readonly ColumnLook[]): void {
  if (!draft.roles.includes('part') || draft.roles.includes('lane')) return
  const i = looks.findIndex((look, at) => draft.roles[at] === 'ignore' && look.laneNames)
  const look = looks[i]
  if (look === undefined) return
  draft.roles[i] = 'lane'
  draft.why.push(say('{look} names a lane of that part in each row.', { look: nameOf(look) }))
}

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
  if (!clear)
    draft.doubts.push(
      say('the address is {look} or {looks}', { look: nameOf(look), looks: describe(looks, second?.i ?? 0) }),
    )
  draft.why.push(
    say('{look} is taken for the address{value}: {distinct} different values in {length} rows.', {
      look: nameOf(look),
      value: clear ? '' : say(', though another column could be it'),
      distinct: look.distinct,
      length: look.texts.length,
    }),
  )
}

/** Addresses are long, differ from row to row, mostly rise, are even or a multiple of 4, lie in the memory, stand first. */
function addressScore(look: ColumnLook | undefined, place: number, isMapped: IsMapped): number {
  if (look === undefined) return 0
  const { values } = look
  const n = Math.max(1, values.length)
  const share = (test: (value: bigint, i: number) => boolean): number => values.filter(test).length / n
  const wide = values.some((value) => value > 0xffn)
  if (!wide || look.isCounter) return -1
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

/** Small bare decimal numbers may be anything, whatever word stands before them. */
function judgeAddress(draft: Draft, looks: readonly ColumnLook[]): void {
  const look = looks[draft.roles.indexOf('address')]
  if (look === undefined || look.base !== 'decimal' || look.baseShown) return
  const named = look.role === 'address'
  if (!named)
    draft.doubts.push(
      say('{look} is taken for an address, though its numbers are plain decimal ones', { look: nameOf(look) }),
    )
  if (!named || look.values.every((value) => value <= 0xffffn)) draft.confidence *= PLAIN_NUMBERS
}

function judgeMapping(draft: Draft, looks: readonly ColumnLook[], isMapped: IsMapped): void {
  const values = looks[draft.roles.indexOf('address')]?.values ?? []
  if (isMapped === undefined || values.length === 0) return
  const share = values.filter(isMapped).length / values.length
  if (share > 0.99) draft.why.push(say('All addresses looked at lie in the board’s memory.'))
  else {
    draft.confidence *= 0.3 + 0.7 * share
    draft.why.push(say('{percent} of the addresses lie beyond the board’s memory.', { percent: percent(1 - share) }))
  }
}
