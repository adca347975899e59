/** Names of the pins of power parts, where a design gives them. */
import type { ImportedPart } from './parts.ts'
import { alternativesOf } from './signals.ts'

export const SWITCH_PIN = /^(SW|LX|PH|PHASE)[_-]?[A-Z0-9]{0,2}$/
export const OUTPUT_PIN = /^(VO|VOUT|OUT|VO_?LDO|VLDO_?OUT|LDO_?OUT)[_-]?[A-Z0-9]{0,2}$/
export const INPUT_PIN = /^(P?VIN|IN|VI|VLDOIN|VIN_?LDO|PVCC)[_-]?[A-Z0-9]{0,2}$/
const PWM_PIN = /^PWM[_-]?[A-Z0-9]{0,2}$/

/** Nets on the pins whose function is such a name. */
export function pinNets(part: ImportedPart, name: RegExp): Set<string> {
  return new Set(
    part.pads.flatMap(({ pad }) =>
      pad.net !== undefined && alternativesOf(pad.signal ?? '').some((word) => name.test(word)) ? [pad.net] : [],
    ),
  )
}

/** Whether the pins' functions tell which of them is a power output. */
export const tellsOutputs = (part: ImportedPart): boolean =>
  pinNets(part, SWITCH_PIN).size > 0 || pinNets(part, OUTPUT_PIN).size > 0

/** Nets on pins that the design types as a power output. */
export const poweredNets = (part: ImportedPart): Set<string> =>
  new Set(part.pads.flatMap(({ pad, raw }) => (raw.pinType?.startsWith('power_out') === true ? (pad.net ?? []) : [])))

/** A pulse output that goes somewhere: the part drives stages outside itself. */
export function drivesStages(part: ImportedPart): boolean {
  return part.pads.some(
    ({ pad, raw }) =>
      raw.pinType === 'output' &&
      alternativesOf(pad.signal ?? '').some((word) => PWM_PIN.test(word)) &&
      pad.net !== undefined,
  )
}
