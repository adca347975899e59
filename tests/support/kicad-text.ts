/** Small layouts as text, and text as the stream of bytes that the importer takes. */
import { importKicad, type KicadImport, type KicadImportOptions } from '../../src/board/index.ts'
import type { Result } from '../../src/base/index.ts'

/** The text as UTF-8 in pieces of so many bytes, whatever they cut through. */
export async function* bytesOf(text: string, pieceBytes = 65_536): AsyncIterable<Uint8Array> {
  const bytes = new TextEncoder().encode(text)
  for (let at = 0; at < bytes.length; at += pieceBytes) yield bytes.subarray(at, at + pieceBytes)
}

export const importText = (
  text: string,
  options?: KicadImportOptions & { readonly pieceBytes?: number },
): Promise<Result<KicadImport>> => importKicad(bytesOf(text, options?.pieceBytes), options)

/** The import of a text that must be readable. */
export async function imported(text: string): Promise<KicadImport> {
  const result = await importText(text)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

export interface PadText {
  readonly number: string
  readonly x: number
  readonly y: number
  readonly net?: string
  readonly pinFunction?: string
  readonly pinType?: string
}

/** A footprint of square 0.4 mm pads in the form of KiCad 6. */
export function footprintText(
  reference: string,
  pads: readonly PadText[],
  { x = 0, y = 0, rotationDeg = 0, layer = 'F.Cu', value = '', library = 'own:part', drawings = '' } = {},
): string {
  const padTexts = pads.map((pad) =>
    [
      `(pad "${pad.number}" smd rect (at ${pad.x} ${pad.y} ${rotationDeg}) (size 0.4 0.4) (layers "${layer}")`,
      ...(pad.net === undefined ? [] : [`(net 1 "${pad.net}")`]),
      ...(pad.pinFunction === undefined ? [] : [`(pinfunction "${pad.pinFunction}")`]),
      ...(pad.pinType === undefined ? [] : [`(pintype "${pad.pinType}")`]),
      ')',
    ].join(' '),
  )
  return [
    `(footprint "${library}" (layer "${layer}") (at ${x} ${y} ${rotationDeg})`,
    `(fp_text reference "${reference}" (at 0 0) (layer "F.SilkS"))`,
    `(fp_text value "${value}" (at 0 0) (layer "F.Fab"))`,
    drawings,
    ...padTexts,
    ')',
  ].join('\n')
}

/** A rectangle of a footprint's own drawing about its origin. */
export const rectangleText = (layer: string, widthMm: number, lengthMm: number): string =>
  `(fp_rect (start ${-widthMm / 2} ${-lengthMm / 2}) (end ${widthMm / 2} ${lengthMm / 2}) (layer "${layer}") (width 0.1))`

/** A whole layout of KiCad 6 with a rectangular edge from the file's origin. */
export function layoutText(forms: readonly string[], { widthMm = 100, lengthMm = 100, edge = true } = {}): string {
  const outline = `(gr_rect (start 0 0) (end ${widthMm} ${lengthMm}) (layer "Edge.Cuts") (width 0.1))`
  return [
    '(kicad_pcb (version 20211014) (generator pcbnew)',
    '(general (thickness 1.6))',
    '(layers (0 "F.Cu" signal) (31 "B.Cu" signal) (44 "Edge.Cuts" user))',
    ...(edge ? [outline] : []),
    ...forms,
    ')',
  ].join('\n')
}
