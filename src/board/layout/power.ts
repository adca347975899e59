/** What makes the rails: converters with their coils, regulators, controllers; by pins where named, else by the circuit. */

import type { ImportedPart } from './parts.ts'
import { isPowerCoil, isTransistor } from './passives.ts'
import type { PowerNets } from './power-nets.ts'
import { convertersOf } from './converters.ts'
import { regulatorsOf } from './regulators.ts'
import { drivesStages } from './power-pins.ts'

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
  /** Nets between a converter and its coil. */
  readonly switchNodes: ReadonlySet<string>
}

/** @param consumers core and memories: they make no rail, whatever coil hangs on them */
export function findPowerParts(nets: PowerNets, consumers: ReadonlySet<ImportedPart>): PowerParts {
  const { supplies: switched, nodes } = convertersOf(nets, consumers)
  nets.confirm(switched.map(({ rail }) => rail))
  const supplies = [...switched, ...regulatorsOf(nets, switched, consumers)]
  nets.confirm(supplies.map(({ rail }) => rail))
  const railsBy = new Map<ImportedPart, Set<string>>()
  for (const { stage, rail } of supplies) railsBy.set(stage, (railsBy.get(stage) ?? new Set()).add(rail))
  const besideTransistors = withTransistors(switched)
  const controllers = new Set(
    [...railsBy].flatMap(([stage, rails]) =>
      rails.size > 1 || drivesStages(stage) || besideTransistors.has(stage) ? [stage] : [],
    ),
  )
  return {
    supplies,
    stages: new Set([...railsBy.keys()].filter((stage) => !controllers.has(stage))),
    controllers,
    inductors: new Set([
      ...nets.netlist.parts.filter(isPowerCoil),
      ...switched.flatMap(({ inductor }) => inductor ?? []),
    ]),
    switchNodes: nodes,
  }
}

/** Chips whose coil is switched by transistors outside them. */
function withTransistors(switched: readonly Supply[]): Set<ImportedPart> {
  const coils = new Set(switched.flatMap(({ stage, inductor }) => (isTransistor(stage) ? (inductor ?? []) : [])))
  return new Set(
    switched.flatMap(({ stage, inductor }) =>
      inductor !== undefined && coils.has(inductor) && !isTransistor(stage) ? [stage] : [],
    ),
  )
}
