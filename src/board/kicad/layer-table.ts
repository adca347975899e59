/**
 * The layer table. Versions 4 and 5 write the user's own copper layer names, so the side comes from the ordinal: 0 is the
 * top, 31 the bottom; KiCad 9 renumbered the ordinals (bottom is 2) and always keeps the canonical names.
 * Source: layer ids in KiCad's board file documentation (dev-docs.kicad.org, board file format).
 */
import type { LayerTable } from '../layout/layers.ts'
import { children, type Form, numberAt, textAt } from './forms.ts'

const COPPER_TYPES = new Set(['signal', 'power', 'mixed', 'jumper'])
/** What stands after a layer's name and is no name that a user gave. */
const NO_NAMES = new Set([...COPPER_TYPES, 'user', 'hide', ''])
const CANONICAL_COPPER = /^(F|B|In\d+)\.Cu$/
const OLD_BOTTOM = 31

/** Reads `(layers (0 "F.Cu" signal "user name") (1 In1.Cu power hide) …)`; a file without a table gets the canonical two. */
export function readLayerTable(form: Form | undefined): LayerTable {
  const rows = (form?.items ?? []).flatMap((item) => {
    if (typeof item === 'string') return []
    const name = textAt(item, 0)
    const ordinal = Number(item.name)
    if (name === undefined || !Number.isInteger(ordinal)) return []
    if (!COPPER_TYPES.has(textAt(item, 1) ?? '') && !CANONICAL_COPPER.test(name)) return []
    const given = textAt(item, 2) ?? ''
    return [{ ordinal, name, shown: NO_NAMES.has(given.toLowerCase()) ? name : given }]
  })
  const bottomOrdinal = rows.some((row) => row.ordinal === OLD_BOTTOM) ? OLD_BOTTOM : canonicalBottom(rows)
  const top = rows.find((row) => row.ordinal === 0)
  const bottom = rows.find((row) => row.ordinal === bottomOrdinal)
  const inner = rows.filter((row) => row !== top && row !== bottom).toSorted((a, b) => a.ordinal - b.ordinal)
  const rowsDown = [top, ...inner, bottom].flatMap((row) => row ?? [])
  const isRepeated = (shown: string): boolean => rowsDown.filter((row) => row.shown === shown).length > 1
  const copper = rowsDown.map(({ name, shown }) => ({ name, shown: isRepeated(shown) ? name : shown }))
  return { copper, topName: top?.name ?? 'F.Cu', bottomName: bottom?.name ?? 'B.Cu' }
}

function canonicalBottom(rows: readonly { ordinal: number; name: string }[]): number | undefined {
  return rows.find((row) => row.name === 'B.Cu')?.ordinal
}

/** Layers of the stack-up that bear a canonical copper name or say that they are copper, from the top down. */
export function readStackup(setup: Form | undefined): { name: string; thicknessMm: number | undefined }[] {
  const stackup = setup?.items.find((item): item is Form => typeof item !== 'string' && item.name === 'stackup')
  if (stackup === undefined) return []
  return children(stackup, 'layer').flatMap((layer) => {
    const name = textAt(layer, 0)
    const type = textAt(children(layer, 'type')[0], 0)
    if (name === undefined || (type?.toLowerCase() !== 'copper' && !CANONICAL_COPPER.test(name))) return []
    return [{ name, thicknessMm: numberAt(children(layer, 'thickness')[0], 0) }]
  })
}
