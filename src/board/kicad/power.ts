/** Power converters, stages, controllers and their inductors, as far as pin functions, values and nets tell them. */
import { netsOf, type Netlist, pinsOn } from './netlist.ts'
import type { ImportedPart } from './parts.ts'
import { isRailNet } from './rail-names.ts'
import { prefixOf } from './references.ts'
import { alternativesOf } from './signals.ts'

/** A way in which a part makes a rail: through an inductor at its switch node, or straight from an output pin. */
export interface Supply {
  readonly stage: ImportedPart
  readonly rail: string
  readonly inductor: ImportedPart | undefined
}

export interface PowerParts {
  readonly supplies: readonly Supply[]
  readonly stages: ReadonlySet<ImportedPart>
  readonly controllers: ReadonlySet<ImportedPart>
  readonly inductors: ReadonlySet<ImportedPart>
}

const SWITCH_PIN = /^(SW|LX|PH|PHASE)[_-]?[A-Z0-9]{0,2}$/
const OUTPUT_PIN = /^(VO|VOUT|OUT|VO_?LDO|VLDO_?OUT|LDO_?OUT)[_-]?[A-Z0-9]{0,2}$/
const INPUT_PIN = /^(P?VIN|IN|VI|VLDOIN|VIN_?LDO|PVCC)[_-]?[A-Z0-9]{0,2}$/
const PWM_PIN = /^PWM[_-]?[A-Z0-9]{0,2}$/
/** An inductance in a value: `10UH`, `175nH`, `2.2µH`. Ferrites are given in ohms or by type number alone. */
const INDUCTANCE = /\d\s*[NUµM]H(?![A-Z])/i

export function findPowerParts(netlist: Netlist): PowerParts {
  const supplies: Supply[] = []
  const inductors = new Set(netlist.parts.filter(hasInductance))
  for (const stage of netlist.parts) {
    if (stage.pads.length < 3) continue
    for (const net of pinNets(stage, SWITCH_PIN))
      for (const { inductor, far } of behindInductor(netlist, stage, net)) {
        inductors.add(inductor)
        supplies.push({ stage, rail: far, inductor })
      }
    supplies.push(...straightSupplies(stage))
  }
  const made = new Map<ImportedPart, Set<string>>()
  for (const { stage, rail } of supplies) made.set(stage, (made.get(stage) ?? new Set()).add(rail))
  const drivers = [...made.keys()].filter((stage) => drivesStages(stage))
  const controllers = new Set([...drivers, ...[...made].flatMap(([stage, rails]) => (rails.size > 1 ? [stage] : []))])
  return {
    supplies,
    stages: new Set([...made.keys()].filter((stage) => !controllers.has(stage))),
    controllers,
    inductors,
  }
}

const hasInductance = ({ part, pads }: ImportedPart): boolean =>
  prefixOf(part.ref) === 'L' && pads.length >= 2 && INDUCTANCE.test(part.value ?? '')

/** Nets on the pins whose function is such a name. */
function pinNets(part: ImportedPart, name: RegExp): Set<string> {
  return new Set(
    part.pads.flatMap(({ pad }) =>
      pad.net !== undefined && alternativesOf(pad.signal ?? '').some((word) => name.test(word)) ? [pad.net] : [],
    ),
  )
}

/** Inductors on a switch node and the net on their other side; a switch node is no rail and joins few parts. */
function behindInductor(netlist: Netlist, stage: ImportedPart, net: string): { inductor: ImportedPart; far: string }[] {
  if (isRailNet(net)) return []
  const owners = new Set(pinsOn(netlist, net).map((pin) => pin.owner))
  return [...owners].flatMap((inductor) => {
    if (inductor === stage || prefixOf(inductor.part.ref) !== 'L') return []
    const far = [...netsOf(inductor)].filter((other) => other !== net)
    return far.length === 1 ? far.map((other) => ({ inductor, far: other })) : []
  })
}

/** A linear regulator or a module: an output pin on a rail and an input pin on another net. */
function straightSupplies(stage: ImportedPart): Supply[] {
  const inputs = pinNets(stage, INPUT_PIN)
  if (inputs.size === 0) return []
  const outputs = [...pinNets(stage, OUTPUT_PIN)].filter((net) => isRailNet(net) && !inputs.has(net))
  return outputs.map((rail) => ({ stage, rail, inductor: undefined }))
}

/** A pulse output that goes somewhere: the part drives stages outside itself. */
function drivesStages(part: ImportedPart): boolean {
  return part.pads.some(
    ({ pad, raw }) =>
      raw.pinType === 'output' &&
      alternativesOf(pad.signal ?? '').some((word) => PWM_PIN.test(word)) &&
      pad.net !== undefined,
  )
}
