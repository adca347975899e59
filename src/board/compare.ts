/** Two versions of a board beside one another: what is new, gone or otherwise, as refs to draw and in words. */
import { distance, millimetres, type Point, someOf, say } from '../base/index.ts'
import { compareMemory } from './compare-memory.ts'
import { compareRails } from './compare-rails.ts'
import type { BoardDescription, Part, Side } from './schema.ts'

export interface MovedPart {
  readonly ref: string
  readonly from: Point
  readonly to: Point
  readonly byMm: number
}

export interface BoardComparison {
  /** Refs of parts that only the later version has. */
  readonly added: readonly string[]
  /** Refs of parts that only the earlier version has. */
  readonly gone: readonly string[]
  /** Parts that stand at the same place with the same body under another ref. */
  readonly renamed: readonly { readonly from: string; readonly to: string }[]
  /** By the ref of the later version. */
  readonly moved: readonly MovedPart[]
  readonly turned: readonly { readonly ref: string; readonly byDeg: number }[]
  readonly sideChanged: readonly { readonly ref: string; readonly to: Side }[]
  /** Other fields of a part, in words: `U13: package, gap`. */
  readonly otherwise: readonly { readonly ref: string; readonly fields: readonly string[] }[]
  /** Sentences without refs to draw. */
  readonly lanes: readonly string[]
  readonly rails: readonly string[]
  readonly addressMap: readonly string[]
  /** Name, outline, holes, thickness and copper. */
  readonly board: readonly string[]
}

/** Less is rounding. */
const LEAST_MM = 1e-4
const LEAST_DEG = 1e-6

/**
 * What changed from one description to the other. How reports speak of a board is learnt from case to case and is no
 * change of it. Distances in mm, turns counter-clockwise in degrees from -180 to 180.
 */
export function compareBoards(before: BoardDescription, after: BoardDescription): BoardComparison {
  const renamed = renamedParts(before, after)
  const newRef = new Map(renamed.map(({ from, to }) => [from, to]))
  const earlier = new Map(before.parts.map((part) => [newRef.get(part.ref) ?? part.ref, part]))
  const later = new Map(after.parts.map((part) => [part.ref, part]))
  const both = after.parts.flatMap((part) => {
    const was = earlier.get(part.ref)
    return was === undefined ? [] : [{ was, is: part }]
  })
  return {
    added: [...later.keys()].filter((ref) => !earlier.has(ref)),
    gone: [...earlier.keys()].filter((ref) => !later.has(ref)),
    renamed,
    moved: both.flatMap(({ was, is }) => movedPart(was, is)),
    turned: both.flatMap(({ was, is }) => turnedPart(was, is)),
    sideChanged: both.flatMap(({ was, is }) => (was.side === is.side ? [] : [{ ref: is.ref, to: is.side }])),
    otherwise: both.flatMap(({ was, is }) => otherwisePart(was, is)),
    lanes: compareMemory(before, after, newRef),
    rails: compareRails(before, after, newRef),
    addressMap: [...addressMapWords(before, after), ...labelWords(before, after)],
    board: boardWords(before, after),
  }
}

/** A ref that is gone and one that is new are one part where everything else of them is the same. */
function renamedParts(before: BoardDescription, after: BoardDescription): { from: string; to: string }[] {
  const refsAfter = new Set(after.parts.map(({ ref }) => ref))
  const refsBefore = new Set(before.parts.map(({ ref }) => ref))
  const fresh = new Map(
    after.parts.filter(({ ref }) => !refsBefore.has(ref)).map((part) => [withoutRef(part), part.ref] as const),
  )
  return before.parts
    .filter(({ ref }) => !refsAfter.has(ref))
    .flatMap((part) => {
      const to = fresh.get(withoutRef(part))
      if (to === undefined) return []
      fresh.delete(withoutRef(part))
      return [{ from: part.ref, to }]
    })
}

/** Without what a rename changes: the ref, and regions that are called by lanes. */
const withoutRef = (part: Part): string => sorted({ ...part, ref: undefined, regions: undefined })

/** The same text for the same value, whatever the order of its fields. */
export const sorted = (value: unknown): string =>
  JSON.stringify(value, (_, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  ) ?? ''

function movedPart(was: Part, is: Part): MovedPart[] {
  const byMm = distance(was.at, is.at)
  return byMm < LEAST_MM ? [] : [{ ref: is.ref, from: was.at, to: is.at, byMm }]
}

function turnedPart(was: Part, is: Part): { ref: string; byDeg: number }[] {
  const turn = (((is.rotationDeg - was.rotationDeg) % 360) + 540) % 360
  const byDeg = turn - 180
  return Math.abs(byDeg) < LEAST_DEG ? [] : [{ ref: is.ref, byDeg: byDeg === -180 ? 180 : byDeg }]
}

/** What the fields of a part are called. */
export const partFields: Readonly<Partial<Record<keyof Part, string>>> = {
  kind: say('kind'),
  value: say('value'),
  package: say('package'),
  carriedBy: say('the core that carries it'),
  body: say('body'),
  standoffMm: say('gap'),
  jointAlloy: say('joint alloy'),
  maxBodyC: say('highest body temperature'),
  moistureLevel: say('moisture level'),
  bonding: say('bonding'),
  heatCount: say('heats so far'),
  price: say('price'),
  pads: say('pads'),
  regions: say('drawn regions'),
}

function otherwisePart(was: Part, is: Part): { ref: string; fields: string[] }[] {
  const fields = Object.entries(partFields).flatMap(([field, words]) =>
    sorted(Reflect.get(was, field)) === sorted(Reflect.get(is, field)) ? [] : [words],
  )
  return fields.length === 0 ? [] : [{ ref: is.ref, fields }]
}

function labelWords(before: BoardDescription, after: BoardDescription): string[] {
  const [was, is] = [before.labelledAddresses ?? [], after.labelledAddresses ?? []]
  if (sorted(was) === sorted(is)) return []
  return [
    say('{now, plural, one {# address has} other {# addresses have}} a label; {before} had.', {
      now: is.length,
      before: was.length,
    }),
  ]
}

function addressMapWords(before: BoardDescription, after: BoardDescription): string[] {
  const [was, is] = [before.addressMap, after.addressMap]
  if (sorted(was) === sorted(is)) return []
  if (was === undefined) return [say('An address map is known now.')]
  if (is === undefined) return [say('The address map is gone.')]
  const words: string[] = []
  if (sorted(was.channel.digits) !== sorted(is.channel.digits))
    words.push(say('Addresses become channels in another way.'))
  if (sorted(was.channel.order) !== sorted(is.channel.order))
    words.push(say('The address map lists channels otherwise.'))
  if (sorted(was.channel.orderGuessed) !== sorted(is.channel.orderGuessed))
    words.push(say('Other parts have channels in an order that is a guess.'))
  if (was.addressBits !== is.addressBits)
    words.push(
      say('The address map takes {now} bits; it took {before}.', {
        now: is.addressBits,
        before: was.addressBits,
      }),
    )
  return words.length > 0 ? words : [say('The address map tells rows, banks, columns or its limits otherwise.')]
}

function boardWords(before: BoardDescription, after: BoardDescription): string[] {
  const words: string[] = []
  if (before.name !== after.name)
    words.push(say('The board is called {now}; it was {before}.', { now: after.name, before: before.name }))
  if (sorted(before.outline) !== sorted(after.outline)) words.push(say('The outline is another.'))
  if (sorted(before.holes) !== sorted(after.holes)) words.push(say('Holes are others.'))
  if (before.thicknessMm !== after.thicknessMm)
    words.push(
      say('The board is {nowMm} mm thick; it was {beforeMm} mm.', {
        nowMm: after.thicknessMm,
        beforeMm: before.thicknessMm,
      }),
    )
  if (sorted(before.copper) !== sorted(after.copper)) words.push(say('Copper layers are others.'))
  if (before.note !== after.note) words.push(say('The note is another.'))
  return words
}

/** The one sentence of two boards that are alike. */
export const NOTHING_CHANGED = say('Nothing changed.')

/** The comparison in sentences, what changes the work first; one that says so where nothing changed. */
export function sayComparison(comparison: BoardComparison): string[] {
  const { added, gone, renamed, moved, turned, sideChanged, otherwise } = comparison
  const far = moved.toSorted((a, b) => b.byMm - a.byMm)
  const sentences = [
    ...(added.length > 0
      ? [
          say('{count, plural, one {# part} other {# parts}} added: {added}.', {
            count: added.length,
            added: someOf(added, 8),
          }),
        ]
      : []),
    ...(gone.length > 0
      ? [
          say('{count, plural, one {# part} other {# parts}} gone: {gone}.', {
            count: gone.length,
            gone: someOf(gone, 8),
          }),
        ]
      : []),
    ...renamed.map(({ from, to }) => say('{from} is called {to} now.', { from, to })),
    ...someSentences(
      far,
      ({ ref, byMm }) => say('{ref} moved by {byMm}.', { ref, byMm: millimetres(byMm) }),
      (more) => say('{more, plural, one {# more part} other {# more parts}} moved.', { more }),
    ),
    ...someSentences(
      turned,
      ({ ref, byDeg }) => say('{ref} turned {byDeg}.', { ref, byDeg: turnWords(byDeg) }),
      (more) => say('{more, plural, one {# more part} other {# more parts}} turned.', { more }),
    ),
    ...sideChanged.map(({ ref, to }) =>
      say('{ref} is on the {to, select, top {top} other {bottom}} now.', { ref, to }),
    ),
    ...someSentences(
      otherwise,
      ({ ref, fields }) => say('{ref} is told otherwise: {fields}.', { ref, fields: fields.join(', ') }),
      (more) => say('{more, plural, one {# more part} other {# more parts}} told otherwise.', { more }),
    ),
    ...comparison.lanes,
    ...comparison.rails,
    ...comparison.addressMap,
    ...comparison.board,
  ]
  return sentences.length === 0 ? [NOTHING_CHANGED] : sentences
}

const MOST_SINGLE = 8

function someSentences<T>(all: readonly T[], tell: (one: T) => string, tellMore: (more: number) => string): string[] {
  const more = all.length - MOST_SINGLE
  return more <= 1 ? all.map(tell) : [...all.slice(0, MOST_SINGLE).map(tell), tellMore(more)]
}

/** `left by 90°`: a turn in degrees, counter-clockwise seen from the top, in words. */
export const turnWords = (byDeg: number): string =>
  say('{way, select, right {right} other {left}} by {byDeg}°', {
    way: byDeg < 0 ? 'right' : 'left',
    byDeg: Number(Math.abs(byDeg).toFixed(1)),
  })
