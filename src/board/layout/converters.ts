/**
 * Switching converters by their circuit: a chip or transistors, a coil, and behind it a net that capacitors hold against
 * ground (step-down), or a diode to such a net (step-up). R. W. Erickson, D. Maksimovic, Fundamentals of Power
 * Electronics, 2nd ed. 2001, ch. 2: the buck, boost and buck-boost circuits.
 */
import { groupedBy } from '../group.ts'
import { netsOf } from './netlist.ts'
import type { ImportedPart } from './parts.ts'
import { endsOf, isChip, isCoil, isDiode, isPowerCoil, isTransistor, joins } from './passives.ts'
import type { Supply } from './power.ts'
import type { PowerNets } from './power-nets.ts'
import { OUTPUT_PIN, pinNets, SWITCH_PIN } from './power-pins.ts'
import { isRailNet } from './rail-names.ts'

/** More parts than these on a net make it no switch node. */
const MOST_AT_NODE = 10

export interface Converters {
  readonly supplies: readonly Supply[]
  readonly nodes: ReadonlySet<string>
}

interface Coil {
  readonly part: ImportedPart
  readonly node: string
  readonly far: string
}

/** @param consumers core and memories, which switch a coil only where a pin says so, and make no rail for others */
export function convertersOf(nets: PowerNets, consumers: ReadonlySet<ImportedPart>): Converters {
  const switched = nets.netlist.parts
    .filter(isCoil)
    .flatMap((part) => coilsAt(part, nets))
    .flatMap((coil) => stagesAt(coil, nets).flatMap((stage) => (consumers.has(stage) ? [] : [{ coil, stage }])))
  const coilsOf = groupedBy(switched, ({ stage }) => stage)
  const supplies = switched.flatMap(({ coil, stage }) => {
    const isOnlyCoil = coilsOf.get(stage)?.length === 1
    return outputsOf(stage, coil, nets, isOnlyCoil).map((rail) => ({ stage, rail, inductor: coil.part }))
  })
  return { supplies: withoutRepeats(supplies), nodes: new Set(switched.map(({ coil }) => coil.node)) }
}

/** The coil with its switch node: the side with a switch pin, else the one that no capacitor holds still. */
function coilsAt(part: ImportedPart, nets: PowerNets): Coil[] {
  const ends = endsOf(part)
  if (ends === undefined || ends.some((net) => nets.isGround(net))) return []
  const both = [
    { part, node: ends[0], far: ends[1] },
    { part, node: ends[1], far: ends[0] },
  ]
  const named = both.filter((coil) => !isRailNet(coil.node) && switchersAt(coil, nets).length > 0)
  if (named.length > 0) return named
  return isPowerCoil(part) ? both.filter((coil) => isNode(coil, nets)) : []
}

function isNode({ part, node, far }: Coil, nets: PowerNets): boolean {
  if (nets.capacitorsOn(node) > 0 || nets.capacitorsOn(far) === 0) return false
  if (nets.ownersOf(node).length > MOST_AT_NODE) return false
  // Behind the filter of an amplifier stands a plug and no chip.
  if (nets.isSupply(far) || nets.ownersOf(far).some((other) => other !== part && isChip(other))) return true
  return nets.linksTo(far).some(({ through }) => joins(through))
}

const switchersAt = ({ node }: Pick<Coil, 'node'>, nets: PowerNets): ImportedPart[] =>
  nets.chipsOn(node).filter((chip) => pinNets(chip, SWITCH_PIN).has(node))

function stagesAt(coil: Coil, nets: PowerNets): ImportedPart[] {
  const owners = nets.ownersOf(coil.node).filter((part) => isChip(part) || isTransistor(part))
  const named = switchersAt(coil, nets)
  return named.length > 0 ? owners.filter((part) => named.includes(part) || isTransistor(part)) : owners
}

/** What a stage makes through a coil: what lies behind a diode or is fed back where the coil hangs on the input. */
function outputsOf(stage: ImportedPart, coil: Coil, nets: PowerNets, isOnlyCoil: boolean): string[] {
  const raised = nets.ownersOf(coil.node).flatMap((part) => {
    if (!isDiode(part)) return []
    const far = endsOf(part)?.find((net) => net !== coil.node)
    return far !== undefined && !nets.isGround(far) && nets.capacitorsOn(far) > 0 && far !== coil.far ? [far] : []
  })
  if (raised.length > 0) return raised
  const own = netsOf(stage)
  const isBetweenNodes = pinNets(stage, SWITCH_PIN).has(coil.far)
  const named = [...pinNets(stage, OUTPUT_PIN)].filter((net) => net !== coil.node && !nets.isGround(net))
  if (isBetweenNodes) return named
  if (!isOnlyCoil) return [coil.far]
  const tops = nets.dividedFor(stage)
  const fedBack = [...tops].filter((net) => net !== coil.far && own.has(net) && nets.capacitorsOn(net) > 0)
  const hangsOnInput = !tops.has(coil.far) && own.has(coil.far)
  return hangsOnInput && fedBack.length === 1 ? fedBack : [coil.far]
}

function withoutRepeats(supplies: readonly Supply[]): Supply[] {
  const seen = new Set<string>()
  return supplies.filter(({ stage, rail, inductor }) => {
    const key = [stage.part.ref, rail, inductor?.part.ref].join('\n')
    return !seen.has(key) && seen.add(key).size > 0
  })
}
