/** What the circuit around a net says about power: its capacitors to ground, what carries current to it, what hangs on it. */
import { netsOf, type Netlist, type NetPin, pinsOn } from './netlist.ts'
import type { ImportedPart } from './parts.ts'
import {
  carries,
  decouples,
  endsOf,
  isBattery,
  isCapacitor,
  isChip,
  isDiode,
  isResistor,
  isTransistor,
  ohmsOf,
} from './passives.ts'
import { isAboutPower, isAutoNamed, isGroundNet, isRailNet } from './rail-names.ts'
import { isConnector } from './references.ts'
import { alternativesOf } from './signals.ts'

/** Where no net is called ground, the one with this share of all capacitors is. */
const GROUND_SHARE = 0.4
/** So many capacitors make a supply whatever its name is. Common practice, no source. */
const MANY_CAPACITORS = 4
const SEVERAL_CAPACITORS = 2
/** Plug, fuse, diode, filter. */
const MOST_STEPS_FROM_PLUG = 3
/** Resistors of this much and more feed no chip, ohm. */
const DIVIDER_OHM = 90

const SUPPLY_PIN = /^[APDN]?V(CC|DD|PP|TT|BAT|IN|AA|DDQ|CCINT|CCO|CCAUX)[A-Z0-9_]*$/

/** Current that goes from one net to another through a part that changes no voltage. */
export interface PowerLink {
  readonly through: ImportedPart
  readonly from: string
}

export class PowerNets {
  readonly netlist: Netlist
  /** Nets with a zone of copper. */
  private readonly poured: ReadonlySet<string>
  private readonly grounds: ReadonlySet<string>
  private readonly capacitors = new Map<string, number>()
  private readonly judged = new Map<string, boolean>()

  constructor(netlist: Netlist, poured: ReadonlySet<string>) {
    this.netlist = netlist
    this.poured = poured
    this.grounds = groundsOf(netlist)
    for (const part of netlist.parts) {
      const ends = decouples(part) ? endsOf(part) : undefined
      const other = ends?.find((net) => !this.isGround(net))
      if (ends === undefined || other === undefined || !ends.some((net) => this.isGround(net))) continue
      this.capacitors.set(other, (this.capacitors.get(other) ?? 0) + 1)
    }
  }

  isGround(net: string): boolean {
    return this.grounds.has(net)
  }

  /** How many capacitors hold the net still against ground. */
  capacitorsOn(net: string): number {
    return this.capacitors.get(net) ?? 0
  }

  /** Distinct parts on the net. */
  ownersOf(net: string): ImportedPart[] {
    return [...new Set(pinsOn(this.netlist, net).map(({ owner }) => owner))]
  }

  chipsOn(net: string): ImportedPart[] {
    return this.ownersOf(net).filter(isChip)
  }

  /** A supply by its capacitors, its pins, its copper and its name, before it is known what makes it. */
  isSupply(net: string): boolean {
    const known = this.judged.get(net)
    if (known !== undefined) return known
    const found = this.looksLikeSupply(net)
    this.judged.set(net, found)
    return found
  }

  /** Something was found to make these. */
  confirm(rails: Iterable<string>): void {
    for (const rail of rails) this.judged.set(rail, true)
  }

  private looksLikeSupply(net: string): boolean {
    const pins = pinsOn(this.netlist, net)
    const capacitors = this.capacitorsOn(net)
    if (pins.length < 2 || this.isGround(net)) return false
    if (isAboutPower(net) && capacitors < MANY_CAPACITORS) return false
    if (isRailNet(net)) return capacitors > 0 || pins.some(isSupplyPin) || this.connectorPins(net) > 1
    const supplyPins = pins.filter(isSupplyPin).length
    if (!isAutoNamed(net) && (supplyPins > 1 || (supplyPins > 0 && capacitors > 0))) return true
    const chips = this.chipsOn(net).length
    if (chips === 0 || capacitors < SEVERAL_CAPACITORS || this.isDivided(net)) return false
    return capacitors >= MANY_CAPACITORS || this.poured.has(net) || chips > 1
  }

  private connectorPins(net: string): number {
    return pinsOn(this.netlist, net).filter(({ owner }) => isConnector(owner.footprint)).length
  }

  /** From a plug or a battery, on the net itself or behind a few diodes, fuses, coils, transistors or links. */
  comesFromOutside(net: string): boolean {
    return this.hasPlug(net) || this.isBehindPlug(net)
  }

  /** What a plug feeds and one capacitor holds, or two where the plug is on the net itself, as signals may have one. */
  isInput(net: string): boolean {
    return this.capacitorsOn(net) > 1
      ? this.comesFromOutside(net)
      : this.capacitorsOn(net) > 0 && this.isBehindPlug(net)
  }

  private isBehindPlug(net: string, steps = MOST_STEPS_FROM_PLUG): boolean {
    if (steps === 0) return false
    return this.netsBeside(net).some((other) => {
      if (this.chipsOn(other).length > 0) return false
      return this.hasPlug(other) || this.isBehindPlug(other, steps - 1)
    })
  }

  /** Nets on the other sides of the parts on a net that let current through. */
  private netsBeside(net: string): string[] {
    return this.ownersOf(net).flatMap((part) =>
      letsThrough(part) ? [...netsOf(part)].filter((other) => other !== net && !this.isGround(other)) : [],
    )
  }

  private hasPlug(net: string): boolean {
    return this.ownersOf(net).some((part) => isConnector(part.footprint) || isBattery(part))
  }

  /** A reference between two resistors, one of them to ground. */
  private isDivided(net: string): boolean {
    const others = this.ownersOf(net).flatMap((part) => {
      const isHigh = isResistor(part) && (ohmsOf(part.part.value ?? '') ?? DIVIDER_OHM) >= DIVIDER_OHM
      return isHigh ? (endsOf(part)?.filter((end) => end !== net) ?? []) : []
    })
    return others.some((end) => this.isGround(end)) && others.some((end) => !this.isGround(end))
  }

  /** Supplies that reach this net through a fuse, ferrite, coil, link, shunt, diode or transistor, or two of them. */
  linksTo(net: string): PowerLink[] {
    return this.ownersOf(net).flatMap((through) => {
      if (!letsThrough(through)) return []
      const others = [...netsOf(through)].filter((other) => other !== net && !this.isGround(other))
      return others.flatMap((other) => {
        if (this.isSupply(other)) return [{ through, from: other }]
        const isBetween = this.capacitorsOn(other) > 0 && this.chipsOn(other).length === 0 && carries(through)
        const beyond = isBetween ? this.netsBeside(other) : []
        return beyond.filter((far) => far !== net && this.isSupply(far)).map((from) => ({ through, from }))
      })
    })
  }

  /** Nets at the upper end of a divider whose middle is on a pin of the part, as at a feedback pin. */
  dividedFor(part: ImportedPart): Set<string> {
    const tops = new Set<string>()
    for (const middle of netsOf(part)) {
      if (this.isGround(middle) || this.isSupply(middle) || this.capacitorsOn(middle) > 1) continue
      const ends = this.ownersOf(middle).flatMap((other) =>
        isResistor(other) ? (endsOf(other)?.filter((end) => end !== middle) ?? []) : [],
      )
      if (ends.some((end) => this.isGround(end))) for (const end of ends) if (!this.isGround(end)) tops.add(end)
    }
    return tops
  }
}

const letsThrough = (part: ImportedPart): boolean => carries(part) || isDiode(part) || isTransistor(part)

/** Grounds by name; where no name says it, the net that most capacitors share. */
function groundsOf(netlist: Netlist): Set<string> {
  const named = new Set([...netlist.pinsByNet.keys()].filter(isGroundNet))
  if (named.size > 0) return named
  const counts = [...netlist.pinsByNet].map(
    ([net, pins]) => [net, pins.filter(({ owner }) => isCapacitor(owner)).length] as const,
  )
  const [most] = counts.toSorted(([, a], [, b]) => b - a)
  const all = netlist.parts.filter(isCapacitor).length
  return new Set(most !== undefined && most[1] > 1 && most[1] >= GROUND_SHARE * all ? [most[0]] : [])
}

/** A pin that the design types as a supply, or whose function is one. */
export function isSupplyPin({ owner, pad, raw }: NetPin): boolean {
  if (isConnector(owner.footprint)) return false
  if (raw.pinType?.startsWith('power_in') === true) return true
  return alternativesOf(pad.signal ?? '').some((name) => SUPPLY_PIN.test(name))
}
