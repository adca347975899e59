/**
 * Some writers give references and pins that are alike another name: where a ball is called C1, the part C1 becomes C1_1. Such
 * numbers are taken off again, where the plain name is known from elsewhere in the file and free.
 */
import { groupedBy } from '../../group.ts'
import type { PiecePart } from '../pieces.ts'

const NUMBERED = /^(.+)_(\d{1,2})$/

/**
 * @param others names of other things in the file, such as layers
 * @returns the parts with plain names, and how many names were changed
 */
export function withPlainNames(
  parts: readonly PiecePart[],
  others: Iterable<string>,
): { readonly parts: readonly PiecePart[]; readonly changed: number } {
  const refs = new Set(parts.map(({ ref }) => ref))
  const pins = new Set(parts.flatMap(({ pads }) => pads.map(({ number }) => number)))
  const outside = new Set(others)
  const [refNames, pinNames] = [withBases(refs), withBases(pins)]
  const plainRefs = plainNames([...refs], (name) => pinNames.has(name) || outside.has(name))
  let changed = plainRefs.size
  const renamed = parts.map((part): PiecePart => {
    const plainPins = plainNames(
      part.pads.map(({ number }) => number),
      (name) => refNames.has(name) || pins.has(name) || outside.has(name),
    )
    changed += plainPins.size
    const pads = part.pads.map((pad) => ({ ...pad, number: plainPins.get(pad.number) ?? pad.number }))
    return { ...part, ref: plainRefs.get(part.ref) ?? part.ref, pads: plainPins.size === 0 ? part.pads : pads }
  })
  return { parts: renamed, changed }
}

/** The names, and those that they are without a number behind. */
const withBases = (names: ReadonlySet<string>): ReadonlySet<string> =>
  new Set([...names].flatMap((name) => [name, ...(NUMBERED.exec(name)?.slice(1, 2) ?? [])]))

/** The plain name of each that has a number behind it: known elsewhere, not among these, and of one of these only. */
function plainNames(names: readonly string[], isKnown: (name: string) => boolean): Map<string, string> {
  const taken = new Set(names)
  const wanted = [...taken].flatMap((name) => {
    const plain = NUMBERED.exec(name)?.[1]
    return plain === undefined || taken.has(plain) || !isKnown(plain) ? [] : [{ name, plain }]
  })
  const byPlain = groupedBy(wanted, ({ plain }) => plain)
  return new Map(wanted.filter(({ plain }) => byPlain.get(plain)?.length === 1).map(({ name, plain }) => [name, plain]))
}
