/** From a KiCad layout file (`.kicad_pcb`, versions 4 to 10) to a board description, with a list of what it doesn't tell. */
import { good, type Result } from '../../base/index.ts'
import { type BoardImport, describeLayout } from '../layout/describe.ts'
import type { BoardDescription } from '../schema.ts'
import { collectLayout, type KicadLayout } from './collect.ts'

export interface KicadCounts {
  readonly bytes: number
  readonly lines: number
  /** Date code of the file format, such as 20211014; a small number before version 4. */
  readonly version: number
  readonly footprints: number
  readonly pads: number
  /** Distinct nets that stand on a pad. */
  readonly nets: number
  readonly copperLayers: number
  readonly tracks: number
  readonly vias: number
  readonly zones: number
}

export interface KicadImport extends BoardImport {
  readonly counts: KicadCounts
}

export interface KicadImportOptions {
  /** Name of the board; `board` where left out. */
  readonly name?: string | undefined
  readonly onProgress?: ((readBytes: number) => void) | undefined
  readonly signal?: AbortSignal | undefined
}

/**
 * Reads a layout as a stream and describes the board: edge, parts, pads, nets, core, memory lanes with corridors, rails.
 * @returns faults with line numbers for a file that can't be read whole; nothing half read, nothing invented
 */
export async function importKicad(
  source: AsyncIterable<Uint8Array>,
  options: KicadImportOptions = {},
): Promise<Result<KicadImport>> {
  const collected = await collectLayout(source, options)
  if (!collected.ok) return collected
  const described = describeLayout(collected.value, { name: options.name, from: 'line 1' })
  if (!described.ok) return described
  return good({ ...described.value, counts: countsOf(collected.value, described.value.description) })
}

function countsOf(
  layout: KicadLayout & { readonly bytes: number; readonly lines: number },
  described: BoardDescription,
): KicadCounts {
  const pads = described.parts.flatMap((part) => part.pads ?? [])
  return {
    bytes: layout.bytes,
    lines: layout.lines,
    version: layout.version,
    footprints: layout.footprints.length,
    pads: pads.length,
    nets: new Set(pads.flatMap((pad) => pad.net ?? [])).size,
    copperLayers: layout.layers.copper.length,
    tracks: layout.tracks.length,
    vias: layout.vias.length,
    zones: layout.zones,
  }
}
