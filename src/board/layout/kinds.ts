/** The kind of each part, and the heights that a layout file doesn't have. */
import { partKinds } from '../part-kinds.ts'
import type { Part, PartKind } from '../schema.ts'
import type { ImportedPart } from './parts.ts'
import type { PowerParts } from './power.ts'
import { isConnector, prefixOf } from './references.ts'

export const HEIGHT_REMARK = `Heights of parts are not in the file; assumed by kind, in mm: ${Object.entries(partKinds)
  .map(([kind, { assumedHeightMm }]) => `${kind} ${assumedHeightMm}`)
  .join(', ')}.`

const CAPACITOR_LIBRARY = /^(capacitor|c)_/i
const CAPACITOR_PADS = 2

export interface Found {
  readonly core: ImportedPart | undefined
  readonly memories: ReadonlySet<ImportedPart>
  readonly power: PowerParts
}

/**
 * What was found by nets counts first, then the letters of the reference and the footprint's library; `other` where
 * neither tells.
 */
export function kindOf(part: ImportedPart, found: Found): PartKind {
  if (part === found.core) return 'core'
  if (found.memories.has(part)) return 'memory'
  if (found.power.controllers.has(part)) return 'controller'
  if (found.power.stages.has(part)) return 'power-stage'
  if (found.power.inductors.has(part)) return 'inductor'
  const prefix = prefixOf(part.part.ref)
  const library = part.footprint.library
  if (prefix === 'C' || (CAPACITOR_LIBRARY.test(library) && part.pads.length === CAPACITOR_PADS)) return 'capacitor'
  if (part.pads.length > 0 && isConnector(part.footprint)) return 'connector'
  return 'other'
}

/** The same part with its kind and the height assumed for it. */
export function withKind(imported: ImportedPart, kind: PartKind): ImportedPart {
  const { body } = imported.part
  const stands = imported.hasBody && body !== undefined
  const part: Part = {
    ...imported.part,
    kind,
    ...(stands ? { body: { ...body, heightMm: partKinds[kind].assumedHeightMm } } : {}),
  }
  return { ...imported, part }
}
