/** Regulators and switches without a coil: by their pins where these are named or typed, else by what lies around them. */
import { groupedBy } from '../group.ts'
import { netsOf } from './netlist.ts'
import type { ImportedPart } from './parts.ts'
import { isChip } from './passives.ts'
import type { Supply } from './power.ts'
import type { PowerNets } from './power-nets.ts'
import { INPUT_PIN, OUTPUT_PIN, pinNets, poweredNets, tellsOutputs } from './power-pins.ts'
import { isInputNet, nominalVoltsOf } from './rail-names.ts'

/** A regulator has input, output and ground, and besides them an enable, a bypass, a feedback or a good at most. */
const MOST_OTHER_NETS = 4
const MOST_SUPPLIES = 4
/** A chip of more nets than these that makes a supply makes it for itself. */
const MOST_NETS_TYPED = 14

/** Supplies beyond those that coils make. Goes on until no more is found, as one regulator's output feeds the next. */
export function regulatorsOf(
  nets: PowerNets,
  switched: readonly Supply[],
  consumers: ReadonlySet<ImportedPart>,
): Supply[] {
  const chips = nets.netlist.parts.filter((part) => isChip(part) && !consumers.has(part))
  const found = chips.flatMap((stage) => told(stage, nets, switched))
  const made = new Set([...switched, ...found].map(({ rail }) => rail))
  const makers = new Set([...switched, ...found].map(({ stage }) => stage))
  const shapely = chips.filter((stage) => !makers.has(stage) && !tellsOutputs(stage))
  for (let grew = true; grew; ) {
    const candidates = shapely.flatMap((stage) => {
      const rail = makers.has(stage) ? undefined : outputByCircuit(stage, nets, made)
      return rail === undefined ? [] : [{ stage, rail, inductor: undefined }]
    })
    // Chips that hang on a supply alike are fed by it: one makes it.
    const sole = [...groupedBy(candidates, ({ rail }) => rail).values()].flatMap((own) => (own.length === 1 ? own : []))
    for (const supply of sole) {
      found.push(supply)
      made.add(supply.rail)
      makers.add(supply.stage)
    }
    grew = sole.length > 0
  }
  return [...found, ...leftToControllers(nets, switched, made)]
}

/** By pin names an output and an input on different nets; by pin types a power output of a small chip. */
function told(stage: ImportedPart, nets: PowerNets, switched: readonly Supply[]): Supply[] {
  const own = new Set(switched.filter((supply) => supply.stage === stage).map(({ rail }) => rail))
  const inputs = pinNets(stage, INPUT_PIN)
  const named = inputs.size === 0 ? [] : [...pinNets(stage, OUTPUT_PIN)]
  const typed = netsOf(stage).size <= MOST_NETS_TYPED || own.size > 0 ? [...poweredNets(stage)] : []
  const rails = [...new Set([...named, ...typed])].filter(
    (net) => nets.isSupply(net) && !inputs.has(net) && !own.has(net),
  )
  return rails.map((rail) => ({ stage, rail, inductor: undefined }))
}

/** The supply that a part of a regulator's shape must make; undefined where the circuit leaves it open. */
function outputByCircuit(stage: ImportedPart, nets: PowerNets, made: ReadonlySet<string>): string | undefined {
  const own = [...netsOf(stage)].filter((net) => !nets.isGround(net) && nets.ownersOf(net).length > 1)
  const supplies = own.filter((net) => nets.isSupply(net))
  const inputs = own.filter((net) => !nets.isSupply(net) && nets.isInput(net))
  const others = own.length - supplies.length - inputs.length
  if (others > MOST_OTHER_NETS || supplies.length > MOST_SUPPLIES || supplies.length + inputs.length < 2)
    return undefined
  const open = supplies.filter((net) => !made.has(net) && !isFed(net, nets, made))
  const alone = open.filter((net) => nets.chipsOn(net).length === 1 && !nets.comesFromOutside(net) && !isInputNet(net))
  const [only, ...more] = alone
  if (only !== undefined && more.length === 0) return only
  const tops = nets.dividedFor(stage)
  const fedBack = open.filter((net) => tops.has(net))
  if (fedBack.length === 1 && open.length > 1) return fedBack[0]
  const [first, second, third] = open
  if (first === undefined || third !== undefined) return undefined
  if (second !== undefined) return outputOfTwo(stage, [first, second], nets)
  return isInputOnly(first, [...supplies, ...inputs], nets) ? undefined : first
}

/** Whether another supply reaches the net through a link, ferrite, diode or transistor. */
const isFed = (net: string, nets: PowerNets, made: ReadonlySet<string>): boolean =>
  nets.linksTo(net).some(({ from }) => made.has(from) || isInputNet(from))

/** The one net that nothing makes may be the input of what makes the other: then it is higher, or comes from a plug. */
function isInputOnly(net: string, supplies: readonly string[], nets: PowerNets): boolean {
  const volts = nominalVoltsOf(net)
  const others = supplies.filter((other) => other !== net).map(nominalVoltsOf)
  if (volts !== undefined && others.every((other) => other !== undefined)) return others.every((other) => other < volts)
  return isInputNet(net) || (nets.comesFromOutside(net) && nets.chipsOn(net).length <= 1)
}

/** Of two supplies that nothing else makes: by a tab on the output, by volts, by plug, by name, by an enable. */
function outputOfTwo(stage: ImportedPart, [a, b]: readonly [string, string], nets: PowerNets): string | undefined {
  const either = (isOutput: (net: string, other: string) => boolean): string | undefined => {
    const [forA, forB] = [isOutput(a, b), isOutput(b, a)]
    return forA === forB ? undefined : forA ? a : b
  }
  const padsOf = (net: string): string[] => stage.pads.flatMap(({ pad }) => (pad.net === net ? [pad.number] : []))
  return (
    either((net) => stage.pads.length === 4 && padsOf(net).join() === '2,4') ??
    either((net, other) => (nominalVoltsOf(net) ?? Infinity) < (nominalVoltsOf(other) ?? -Infinity)) ??
    either((net) => !isInputNet(net)) ??
    either((net) => !nets.comesFromOutside(net)) ??
    either((net, other) => padsOf(net).length < padsOf(other).length)
  )
}

/** A supply that nothing makes, on one pin of the one chip with a coil that it hangs on, and of no input's name: its own. */
function leftToControllers(nets: PowerNets, switched: readonly Supply[], made: ReadonlySet<string>): Supply[] {
  const controllers = [...groupedBy(switched, ({ stage }) => stage).keys()].filter(isChip)
  const candidates = new Set(controllers.flatMap((stage) => [...netsOf(stage)]))
  return [...candidates].flatMap((rail) => {
    if (made.has(rail) || !nets.isSupply(rail) || isInputNet(rail)) return []
    const [stage, ...more] = controllers.filter((each) => netsOf(each).has(rail))
    if (stage === undefined || more.length > 0 || tellsOutputs(stage)) return []
    const pads = stage.pads.filter(({ pad }) => pad.net === rail).length
    if (pads > 1 || nets.comesFromOutside(rail) || isFed(rail, nets, made)) return []
    const ownVolts = switched.flatMap((supply) => (supply.stage === stage ? (nominalVoltsOf(supply.rail) ?? []) : []))
    if ((nominalVoltsOf(rail) ?? 0) > Math.max(0, ...ownVolts)) return []
    return [{ stage, rail, inductor: undefined }]
  })
}
