/** Which parts of two files are one: by reference, where a format cuts them by what is left of it. */
import { distance } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import type { PartPair } from './align.ts'
import { sideOfPads } from './pads.ts'
import type { Piece, PiecePad, PiecePart } from './pieces.ts'

/** Pairs in the order of the other piece. Of repeated references the first goes with the first. */
export function pairParts(base: Piece, other: Piece): PartPair[] {
  const byRef = groupedBy(base.parts, ({ ref }) => keyOf(ref))
  const byCut = cutGroups(base.parts, other.refLetters)
  const cutCounts = cutGroups(other.parts, base.refLetters)
  const taken = new Set<PiecePart>()
  return other.parts.flatMap((part) => {
    if (part.ref === '') return []
    const exact = (byRef.get(keyOf(part.ref)) ?? []).find((one) => !taken.has(one))
    const found = exact ?? longer(part, byCut, other.refLetters) ?? shorter(part, byRef, cutCounts, base.refLetters)
    if (found === undefined || taken.has(found)) return []
    taken.add(found)
    return [{ base: found, other: part }]
  })
}

const keyOf = (ref: string): string => ref.trim().toUpperCase()

function cutGroups(
  parts: readonly PiecePart[],
  letters: number | undefined,
): ReadonlyMap<string, readonly PiecePart[]> {
  return letters === undefined ? new Map() : groupedBy(parts, ({ ref }) => keyOf(ref).slice(0, letters))
}

/** The other piece cuts references: the one longer reference that begins so. */
function longer(
  { ref }: PiecePart,
  byCut: ReadonlyMap<string, readonly PiecePart[]>,
  letters: number | undefined,
): PiecePart | undefined {
  if (letters === undefined || ref.length < letters) return undefined
  const [only, more] = byCut.get(keyOf(ref)) ?? []
  return more === undefined ? only : undefined
}

/** The base cuts references: its one of these letters, where no other part would be cut to it too. */
function shorter(
  { ref }: PiecePart,
  byRef: ReadonlyMap<string, readonly PiecePart[]>,
  cutCounts: ReadonlyMap<string, readonly PiecePart[]>,
  letters: number | undefined,
): PiecePart | undefined {
  if (letters === undefined || ref.length <= letters) return undefined
  const cut = keyOf(ref).slice(0, letters)
  if ((cutCounts.get(cut)?.length ?? 0) > 1) return undefined
  return byRef.get(cut)?.[0]
}

/**
 * Where the base cuts references, several parts may have become one: their pads go each to the nearest of the parts that
 * the other piece places.
 * @returns the base's parts, and the references that were told apart so
 */
export function splitCutParts(
  base: Piece,
  other: Piece,
): { readonly parts: readonly PiecePart[]; readonly split: string[] } {
  const { refLetters } = base
  if (refLetters === undefined) return { parts: base.parts, split: [] }
  const byCut = cutGroups(other.parts, refLetters)
  const known = new Set(other.parts.map(({ ref }) => keyOf(ref)))
  const split: string[] = []
  const parts = base.parts.flatMap((part) => {
    const wanted = (byCut.get(keyOf(part.ref)) ?? []).filter(({ at }) => at !== undefined)
    if (part.ref.length < refLetters || known.has(keyOf(part.ref)) || wanted.length < 2) return [part]
    split.push(...wanted.map(({ ref }) => ref))
    const nearest = padsByPart(part.pads, wanted)
    return wanted.flatMap((own) => {
      const pads = nearest.get(own) ?? []
      return pads.length === 0 ? [] : [{ ...part, ref: own.ref, side: sideOfPads(pads), pads }]
    })
  })
  return { parts, split }
}

/** The nearest part for each pad; of as many pads of one number as there are parts, each part gets one. */
function padsByPart(
  pads: readonly PiecePad[],
  parts: readonly PiecePart[],
): ReadonlyMap<PiecePart, readonly PiecePad[]> {
  const away = ({ at }: PiecePart, pad: PiecePad): number => (at === undefined ? Infinity : distance(at, pad.at))
  const chosen = [...groupedBy(pads, ({ number }) => number).values()].flatMap((own) => {
    const pairs = own.flatMap((pad) => parts.map((part) => ({ pad, part, away: away(part, pad) })))
    const isEven = own.length === parts.length
    const left = { pads: new Set(own), parts: new Set(parts) }
    return pairs
      .toSorted((a, b) => a.away - b.away)
      .filter(({ pad, part }) => {
        if (!left.pads.has(pad) || (isEven && !left.parts.has(part))) return false
        left.pads.delete(pad)
        left.parts.delete(part)
        return true
      })
  })
  const byPart = groupedBy(chosen, ({ part }) => part)
  return new Map([...byPart].map(([part, own]) => [part, own.map(({ pad }) => pad)]))
}
