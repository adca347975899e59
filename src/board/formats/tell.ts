/** Which format of board data a file is in, by its beginning and never by its name. */
import { looksLikeDrill } from './drill/read.ts'
import { looksLikeGerber } from './gerber/read.ts'
import { looksLikeIpc2581 } from './ipc2581/read.ts'
import { looksLikeNetlist } from './netlist/read.ts'
import { looksLikePlacements } from './placements/read.ts'
import type { BoardFormat } from './pieces.ts'

/** So much of a file tells what it is. */
export const BEGINNING_BYTES = 65_536

/** @param beginning the first letters of a file; the last line may be cut */
export function boardFormatOf(beginning: string): BoardFormat | undefined {
  const text = beginning.replace(/^\ufeff/, '').replace(/^\s+/, '')
  if (/^\(kicad_pcb[\s)]/.test(text)) return 'kicad'
  if (text.startsWith('<')) return looksLikeIpc2581(text) ? 'ipc2581' : undefined
  if (looksLikeGerber(text)) return 'gerber'
  if (looksLikeDrill(text)) return 'drill'
  if (looksLikeNetlist(text)) return 'netlist'
  return looksLikePlacements(text) ? 'placements' : undefined
}
