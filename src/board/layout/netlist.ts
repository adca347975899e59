/** Which pads each net joins, and which net lies on the other side of a series resistor. */
import type { Point } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import type { Pad } from '../schema.ts'
import type { LayoutPad } from './model.ts'
import type { ImportedPart } from './parts.ts'
import { prefixOf } from './references.ts'

export interface NetPin {
  readonly owner: ImportedPart
  readonly pad: Pad
  readonly raw: LayoutPad
  /** On the board, mm, y up. */
  readonly at: Point
}

export interface Netlist {
  readonly parts: readonly ImportedPart[]
  readonly pinsByNet: ReadonlyMap<string, readonly NetPin[]>
}

/** All pads by net; a pad without a net is in none. */
export function netlistOf(parts: readonly ImportedPart[]): Netlist {
  const pins = parts.flatMap((owner) => owner.pads.map(({ pad, raw, at }): NetPin => ({ owner, pad, raw, at })))
  const joined = pins.filter((pin) => pin.pad.net !== undefined)
  return { parts, pinsByNet: groupedBy(joined, (pin) => pin.pad.net ?? '') }
}

/** Distinct nets on a part, in the order of its pads. */
export function netsOf(part: ImportedPart): Set<string> {
  return new Set(part.pads.flatMap(({ pad }) => pad.net ?? []))
}

/** The pads on a net, in the order of the parts; empty for a net that nothing has. */
export const pinsOn = (netlist: Netlist, net: string): readonly NetPin[] => netlist.pinsByNet.get(net) ?? []

const RESISTOR_PREFIXES = new Set(['R', 'RN', 'RA', 'RP', 'RR', 'RS', 'RM'])

/** What a signal meets behind a resistor: the resistor's two pads, and the net beyond. */
export interface SeriesStep {
  readonly near: NetPin
  readonly far: NetPin
}

/**
 * Series resistors on a net. A resistor has two pads; in an array of resistors pad k of 2n faces pad 2n + 1 - k, the
 * usual counting around a two-row package (common practice, no source). Arrays with a common pin have an odd count.
 */
export function seriesSteps(netlist: Netlist, net: string): SeriesStep[] {
  return pinsOn(netlist, net).flatMap((near) => {
    const { part, pads } = near.owner
    if (!RESISTOR_PREFIXES.has(prefixOf(part.ref)) || pads.length % 2 !== 0 || pads.length > 32) return []
    const number = Number(near.pad.number)
    const facing = pads.find(({ pad }) => Number(pad.number) === pads.length + 1 - number)
    if (facing?.pad.net === undefined || facing.pad.net === net) return []
    return [{ near, far: { owner: near.owner, ...facing } }]
  })
}
