/** What a part's reference and footprint say it is, where nothing else does. Letters by IEEE 315 and usual practice. */
import type { KicadFootprint } from './layout.ts'

/** Letters at the start of a reference: `R12` is `R`. */
export const prefixOf = (ref: string): string => /^[A-Za-z]+/.exec(ref)?.[0].toUpperCase() ?? ''

const CONNECTOR_PREFIXES = new Set(['J', 'CN', 'CON', 'CONN', 'BUS', 'JFP', 'XS', 'USB', 'P'])
const CONNECTOR_LIBRARY = /connector|pin_?header|pin_?socket|conn[_:]|d-?sub|usb|jack|bnc|edge/i
/** Parts of these letters are none, whatever interface their library names. */
const NEVER_CONNECTORS = new Set(['R', 'RN', 'C', 'L', 'FB', 'D', 'LED', 'Q', 'U', 'IC', 'F', 'Y', 'FID', 'TP', 'T'])

export function isConnector({ reference, library }: Pick<KicadFootprint, 'reference' | 'library'>): boolean {
  const prefix = prefixOf(reference)
  return CONNECTOR_PREFIXES.has(prefix) || (!NEVER_CONNECTORS.has(prefix) && CONNECTOR_LIBRARY.test(library))
}
