/** Rails from the power nets: what makes them, what they feed, where a probe can reach them. */
import { someOf } from '../../base/index.ts'
import type { Rail } from '../schema.ts'
import type { Netlist, NetPin } from './netlist.ts'
import { type ImportedPart, tidyPoint } from './parts.ts'
import type { PowerParts } from './power.ts'
import { isAutoNamed, isGroundNet, isRailNet, nominalVoltsOf } from './rail-names.ts'
import { prefixOf } from './references.ts'
import { alternativesOf } from './signals.ts'

const MOST_CAPACITOR_POINTS = 12
const FEWEST_POWER_PINS = 2
const FEWEST_PADS = 3
const PASSIVE_PREFIXES = new Set(['R', 'RN', 'RA', 'RP', 'RR', 'C', 'L', 'FB', 'D', 'LED', 'LD', 'TP', 'F', 'Y', 'FTG'])
const SUPPLY_PIN = /^[APDN]?V(CC|DD|PP|TT|BAT|IN|AA|DDQ|CCINT|CCO|CCAUX)[A-Z0-9_]*$/

/** Every power net that feeds a part, is made by one, or is named so and joins several pads; ground is none. */
export function railsOf(netlist: Netlist, power: PowerParts, untold: string[]): Rail[] {
  const made = new Set(power.supplies.map((supply) => supply.rail))
  const typed = netlist.parts.some(({ pads }) => pads.some(({ raw }) => raw.pinType !== undefined))
  const rails = [...netlist.pinsByNet].flatMap(([net, pins]) => {
    if (!isPowerNet(net, pins, made)) return []
    const stages = stagesOf(net, power)
    const feeds = feedsOf(pins, new Set(stages), typed)
    if (feeds.length === 0 && stages.length === 0 && pins.length < FEWEST_PADS) return []
    const nominalV = nominalVoltsOf(net)
    const rail: Rail = {
      name: net,
      ...(nominalV === undefined ? {} : { nominalV }),
      stages,
      feeds,
      branches: [],
      points: probePoints(pins),
    }
    return [rail]
  })
  sayRails(rails, untold)
  return rails
}

function isPowerNet(net: string, pins: readonly NetPin[], made: ReadonlySet<string>): boolean {
  if (pins.length < 2 || isGroundNet(net)) return false
  if (isRailNet(net) || made.has(net)) return true
  if (isAutoNamed(net)) return false
  return pins.filter(isSupplyPin).length >= FEWEST_POWER_PINS
}

function isSupplyPin({ pad, raw }: Pick<NetPin, 'pad' | 'raw'>): boolean {
  if (raw.pinType?.startsWith('power_in') === true) return true
  return alternativesOf(pad.signal ?? '').some((name) => SUPPLY_PIN.test(name))
}

function stagesOf(net: string, power: PowerParts): string[] {
  return [...new Set(power.supplies.filter((supply) => supply.rail === net).map((supply) => supply.stage.part.ref))]
}

/** Parts with a supply pin on the net; where the file gives no pin types, all parts with more than passive pins. */
function feedsOf(pins: readonly NetPin[], stages: ReadonlySet<string>, typed: boolean): string[] {
  const refs = pins.flatMap(({ owner, pad, raw }) => {
    const { ref, kind } = owner.part
    if (stages.has(ref) || kind === 'capacitor' || kind === 'inductor' || kind === 'connector') return []
    if (PASSIVE_PREFIXES.has(prefixOf(ref)) || owner.pads.length < 3) return []
    return isSupplyPin({ pad, raw }) || !typed ? [ref] : []
  })
  return [...new Set(refs)]
}

/** Test points first, then pads of the biggest capacitors. */
function probePoints(pins: readonly NetPin[]): Rail['points'] {
  const tests = pins.filter(({ owner }) => isTestPoint(owner))
  const capacitors = pins
    .filter(({ owner }) => owner.part.kind === 'capacitor')
    .toSorted((a, b) => bodyAreaOf(b.owner) - bodyAreaOf(a.owner))
  return [...tests, ...capacitors.slice(0, MOST_CAPACITOR_POINTS)].slice(0, 1000).map(({ owner, pad, at }) => ({
    side: owner.part.side,
    at: tidyPoint(at),
    part: owner.part.ref,
    pad: pad.number,
  }))
}

export const isTestPoint = (owner: ImportedPart): boolean =>
  prefixOf(owner.part.ref) === 'TP' || /test_?point/i.test(owner.footprint.library)

const bodyAreaOf = (owner: ImportedPart): number => (owner.part.body?.widthMm ?? 0) * (owner.part.body?.lengthMm ?? 0)

const names = (rails: readonly Rail[]): string =>
  someOf(
    rails.map((rail) => rail.name),
    10,
  )

function sayRails(rails: readonly Rail[], untold: string[]): void {
  const noVolts = rails.filter((rail) => rail.nominalV === undefined)
  if (noVolts.length > 0) untold.push(`The names of these rails give no positive voltage: ${names(noVolts)}.`)
  const noStage = rails.filter((rail) => rail.stages.length === 0)
  if (noStage.length > 0) untold.push(`What makes these rails can't be told: ${names(noStage)}.`)
  const feedless = rails.filter((rail) => rail.feeds.length === 0)
  if (feedless.length > 0) untold.push(`No part could be told that these rails feed: ${names(feedless)}.`)
  if (rails.length > 0) untold.push('Tolerances and resistances to ground of rails are not in a layout file.')
}
