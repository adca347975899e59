/** What the board loader asks of an address map. */
import type { Fault } from '../../base/index.ts'
import type { AddressMapDescription } from '../schema.ts'
import { proveFairSplit } from './fair-split.ts'
import { proveOneToOne } from './one-to-one.ts'

/**
 * Every fault of a map: of its digits and range, of its split over the channels, of its rows, banks and columns.
 * A map that cannot be proved fair is let pass; one that is proved unfair is refused.
 * @param pathPrefix JSON path of the map in the board file
 */
export function checkAddressing(description: AddressMapDescription, pathPrefix = '$.addressMap'): Fault[] {
  const split = proveFairSplit(description, pathPrefix)
  return [...split.faults, ...(proveOneToOne(description, pathPrefix)?.faults ?? [])]
}
