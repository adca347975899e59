/** The kind of each part, and the heights that a layout file doesn't have. */
import { say } from '../../base/index.ts'
import { partKinds } from '../part-kinds.ts'
import type { Part, PartKind } from '../schema.ts'
import type { ImportedPart } from './parts.ts'
import type { PowerParts } from './power.ts'
import { isConnector, prefixOf } from './references.ts'

const ASSUMED_HEIGHTS = Object.entries(partKinds)
  .map(([kind, { assumedHeightMm }]) => `${kind} ${assumedHeightMm}`)
  .join(', ')

/** Says of how many parts the height is assumed; undefined where the file tells all. */
export function heightRemark(parts: readonly ImportedPart[]): string | undefined {
  const untold = parts.filter(({ footprint }) => footprint.heightMm === undefined).length
  if (untold === 0) return undefined
  const whose = untold === parts.length ? 'parts' : say('{untold, plural, one {# part} other {# parts}}', { untold })
  return say('Heights of {whose} are not in the file; assumed by kind, in mm: {assumedHeights}.', {
    whose,
    assumedHeights: ASSUMED_HEIGHTS,
  })
}

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
  if ((part.pads.length > 0 || part.footprint.isPlaced === true) && isConnector(part.footprint)) return 'connector'
  return 'other'
}

/** The same part with its kind and the height that is told, else assumed for the kind. */
export function withKind(imported: ImportedPart, kind: PartKind): ImportedPart {
  const { body } = imported.part
  const stands = imported.hasBody && body !== undefined
  const heightMm = imported.footprint.heightMm ?? partKinds[kind].assumedHeightMm
  const part: Part = {
    ...imported.part,
    kind,
    ...(stands ? { body: { ...body, heightMm } } : {}),
  }
  return { ...imported, part }
}
