/** Rails from the power nets: what makes them, what they feed, where a probe can reach them. */
import { someOf, say } from '../../base/index.ts'
import type { Rail } from '../schema.ts'
import type { Netlist, NetPin } from './netlist.ts'
import { type ImportedPart, tidyPoint } from './parts.ts'
import { carries, isChip, isClosedJoint, isResistor, joins } from './passives.ts'
import type { PowerParts } from './power.ts'
import { isSupplyPin, type PowerNets } from './power-nets.ts'
import { isAboutPower, isAutoNamed, nominalVoltsOf } from './rail-names.ts'
import { prefixOf } from './references.ts'

const MOST_CAPACITOR_POINTS = 12
/** Makers of one rail that a description may name. */
const MOST_STAGES = 64
const MOST_RAILS = 1000

/** Every net that is made by a part, or that its circuit shows to be a supply; ground, signals and switch nodes are none. */
export function railsOf(netlist: Netlist, nets: PowerNets, power: PowerParts, untold: string[]): Rail[] {
  const made = new Set(power.supplies.map((supply) => supply.rail))
  const isRail = (net: string): boolean => {
    if (power.switchNodes.has(net) || nets.isGround(net)) return false
    return made.has(net) || nets.isSupply(net) || isBranch(net, nets)
  }
  const rails = [...netlist.pinsByNet].flatMap(([net, pins]) => {
    if (!isRail(net)) return []
    const stages = stagesOf(net, nets, power)
    const nominalV = nominalVoltsOf(net)
    const rail: Rail = {
      name: net,
      ...(nominalV === undefined ? {} : { nominalV }),
      stages,
      feeds: feedsOf(pins, new Set(stages)),
      branches: [],
      points: probePoints(pins),
    }
    return [rail]
  })
  const told = rails.slice(0, MOST_RAILS)
  sayRails(told, nets, untold)
  sayUnsupplied(netlist, told, untold)
  return told
}

function sayUnsupplied({ parts }: Netlist, rails: readonly Rail[], untold: string[]): void {
  const fed = new Set(rails.flatMap(({ feeds }) => feeds))
  const without = parts.filter(({ part: { ref, kind } }) => (kind === 'core' || kind === 'memory') && !fed.has(ref))
  if (without.length > 0)
    untold.push(
      say("No rail could be told that feeds {without}: whether it may get power can't be judged from the rails.", {
        without: someOf(
          without.map(({ part }) => part.ref),
          12,
        ),
      }),
    )
}

/** A net behind a ferrite, fuse or coil of a supply, with a capacitor and a chip of its own. */
function isBranch(net: string, nets: PowerNets): boolean {
  if (nets.capacitorsOn(net) === 0 || nets.chipsOn(net).length === 0 || isAboutPower(net)) return false
  return nets.linksTo(net).some(({ through }) => carries(through) && !(isAutoNamed(net) && isResistor(through)))
}

/** What makes the rail itself, else what makes the one that a link, shunt, fuse or closed joint joins to it. */
function stagesOf(net: string, nets: PowerNets, { supplies }: PowerParts): string[] {
  const makersOf = (wanted: string): string[] => [
    ...new Set(supplies.filter(({ rail }) => rail === wanted).map(({ stage }) => stage.part.ref)),
  ]
  const own = makersOf(net)
  if (own.length > 0) return own.slice(0, MOST_STAGES)
  const isInside = !nets.comesFromOutside(net)
  const joined = nets.linksTo(net).filter(({ through }) => isClosedJoint(through) || (isInside && joins(through)))
  return [...new Set(joined.flatMap(({ from }) => makersOf(from)))].slice(0, MOST_STAGES)
}

/** Chips with a supply pin on the net; of a chip whose pins tell no supply, any pin. What makes the rail is not fed by it. */
function feedsOf(pins: readonly NetPin[], stages: ReadonlySet<string>): string[] {
  const tells = new Map<ImportedPart, boolean>()
  const tellsSupplies = (owner: ImportedPart): boolean => {
    const known = tells.get(owner) ?? owner.pads.some((entry) => isSupplyPin({ owner, ...entry }))
    tells.set(owner, known)
    return known
  }
  const refs = pins.flatMap((pin) => {
    const { ref, kind } = pin.owner.part
    if (stages.has(ref) || kind === 'connector' || !isChip(pin.owner)) return []
    return isSupplyPin(pin) || (!tellsSupplies(pin.owner) && isOfChips(ref)) ? [ref] : []
  })
  return [...new Set(refs)]
}

/** Letters of integrated circuits, and of oscillators and modules that stand for them. */
const isOfChips = (ref: string): boolean => /^(U|IC|CR|OSC|X|A|M|VR|N|DA|DD)\d/i.test(ref)

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

/** By the letters TP before its number, or by its footprint's name. */
export const isTestPoint = (owner: ImportedPart): boolean =>
  prefixOf(owner.part.ref) === 'TP' || /test_?point/i.test(owner.footprint.library)

const bodyAreaOf = (owner: ImportedPart): number => (owner.part.body?.widthMm ?? 0) * (owner.part.body?.lengthMm ?? 0)

const names = (rails: readonly Rail[]): string =>
  someOf(
    rails.map((rail) => rail.name),
    10,
  )

/** Of two linked rails the one that a part makes feeds the other, else the one from a plug, else the one of more parts. */
function isUpstream(from: string, to: string, rails: readonly Rail[], nets: PowerNets): boolean {
  const rail = rails.find(({ name }) => name === from)
  if (rail === undefined) return false
  if (rail.stages.length > 0) return true
  const [isFromOutside, isToOutside] = [nets.comesFromOutside(from), nets.comesFromOutside(to)]
  if (isFromOutside !== isToOutside) return isFromOutside
  return nets.ownersOf(from).length > nets.ownersOf(to).length
}

function sayRails(rails: readonly Rail[], nets: PowerNets, untold: string[]): void {
  const noVolts = rails.filter((rail) => rail.nominalV === undefined)
  if (noVolts.length > 0)
    untold.push(say('The names of these rails give no positive voltage: {noVolts}.', { noVolts: names(noVolts) }))
  const noStage = rails.filter((rail) => rail.stages.length === 0)
  const branches = noStage.flatMap(({ name }) => {
    const [link] = nets.linksTo(name).filter(({ from }) => isUpstream(from, name, rails, nets))
    return link === undefined
      ? []
      : [
          {
            name,
            words: say('{name} from {from} through {ref}', { name, from: link.from, ref: link.through.part.ref }),
          },
        ]
  })
  if (branches.length > 0)
    untold.push(
      say('Fed from another rail: {branches}.', {
        branches: someOf(
          branches.map(({ words }) => words),
          10,
        ),
      }),
    )
  const unmade = noStage.filter(({ name }) => branches.every((branch) => branch.name !== name))
  if (unmade.length > 0) untold.push(say("What makes these rails can't be told: {unmade}.", { unmade: names(unmade) }))
  const feedless = rails.filter((rail) => rail.feeds.length === 0)
  if (feedless.length > 0)
    untold.push(say('No part could be told that these rails feed: {feedless}.', { feedless: names(feedless) }))
  if (rails.length > 0) untold.push(say('Tolerances and resistances to ground of rails are not in a layout file.'))
}
