/** Capacitors, coils, ferrites, resistors and the like: what a part is and what value it has. */
import type { ImportedPart } from './parts.ts'
import { isConnector, prefixOf } from './references.ts'

const CAPACITOR_PREFIXES = new Set(['C', 'CE', 'EC', 'CP', 'CT', 'TC', 'CAP'])
const CAPACITOR_LIBRARY = /(^|:)(c|cp|cap|capacitor)_?\d*_/i
const COIL_PREFIXES = new Set(['L', 'FB', 'FL', 'LB', 'BD', 'FER', 'CH'])
const FERRITE_PREFIXES = new Set(['FB', 'BD', 'FER', 'LB'])
const RESISTOR_PREFIXES = new Set(['R', 'RS', 'SH'])
const TRANSISTOR_PREFIXES = new Set(['Q', 'T', 'M', 'MOS', 'FET', 'VT'])
const DIODE_PREFIXES = new Set(['D', 'VD'])
const OTHER_PASSIVES = new Set(
  'RN RM RA RP RR RV D VD LED LD DZ ZD TVS TP F PTC Y XTAL FTG FID TH NTC SW S K JP SJ BT H MH LS ANT AE'.split(' '),
)
const CHIP_PREFIXES = new Set(['U', 'IC', 'VR', 'REG'])
/** Smallest coil that a converter switches, henry. Common practice, no source. */
const SMALLEST_POWER_COIL_H = 0.9e-7
/** A coil of unknown value is one for power from this width on; ferrites are chips of 1.6 mm and less, mm. */
const POWER_COIL_WIDTH_MM = 1.9
/** Less to ground is a filter of a signal or a load of a crystal, farad. Common practice, no source. */
const SMALLEST_DECOUPLING_F = 0.9e-9
/** Up to this a resistor is a link or a shunt; up to the other it feeds a quiet supply, ohm. Common practice, no source. */
const LINK_OHM = 0.11
const FILTER_OHM = 11
/** Joints of solder or copper that are closed as the board is made. */
const CLOSED_JOINT = /bridged|closed|net_?tie|(^|_)bridge($|_)/i
/** Libraries of parts that draw no supply, whatever letters stand before their numbers. */
const PASSIVE_LIBRARY =
  /resistor|capacitor|inductor|ferrite|crystal|jumper|button|tact|(^|[_:])led|fuse|test_?p|fiducial|mounting|logo|antenna/i

const SCALES: Readonly<Record<string, number>> = { P: 1e-12, N: 1e-9, U: 1e-6, M: 1e-3 }
const OHM_SCALES: Readonly<Record<string, number>> = { m: 1e-3, k: 1e3, K: 1e3, M: 1e6 }
/** Sizes of chip parts in hundredths of an inch, as they stand beside values (common practice, no source). */
const CHIP_SIZES = new Set(['0201', '0402', '0603', '0805', '1206', '1210', '1812', '2010', '2512'])
/** What both signs for micro become in upper case. */
const GREEK_MU = '\u039c'

/** `100n`, `4u7`, `0.1uF/16V`, `2.2 µH`: the first number with a scale, in the base unit; undefined without a scale. */
export function scaledValue(text: string): number | undefined {
  const upper = text.toUpperCase().replaceAll(GREEK_MU, 'U')
  const found = /(?:^|[^\d.,A-Z])(\d*[.,]?\d+)\s*([PNUM])(\d*)/.exec(upper)
  return found === null ? undefined : numberFrom(found[1], found[3]) * (SCALES[found[2] ?? ''] ?? 1)
}

/** `0`, `0R`, `R010`, `0.01`, `5m`, `10k`, `4k7`, `R0402_10K_1%`, in ohm: the first word that is a resistance. */
export function ohmsOf(text: string): number | undefined {
  for (const word of text.replaceAll(/Ω|ohms?/gi, 'R').split(/[\s_/;]+/)) {
    const found = /^(\d*[.,]?\d*)([RkKMm])?(\d*)R?$/.exec(word)
    if (found === null || !/\d/.test(word) || CHIP_SIZES.has(found[3] ?? '') || CHIP_SIZES.has(found[1] ?? '')) continue
    return numberFrom(found[1], found[3]) * (OHM_SCALES[found[2] ?? ''] ?? 1)
  }
  return undefined
}

/** `4` and `7` are 4.7, as the scale stands for the point. */
const numberFrom = (whole = '', part = ''): number =>
  Number(`${whole.replace(',', '.') || '0'}${part === '' || /[.,]/.test(whole) ? '' : `.${part}`}`)

const valueOf = ({ part }: ImportedPart): string => part.value ?? ''
const narrowness = ({ part }: ImportedPart): number => Math.min(part.body?.widthMm ?? 0, part.body?.lengthMm ?? 0)
const prefix = ({ part }: ImportedPart): string => prefixOf(part.ref)

/** The two nets that a part joins, and undefined for a part with another count of nets. */
export function endsOf(part: ImportedPart): readonly [string, string] | undefined {
  const [a, b, ...more] = new Set(part.pads.flatMap(({ pad }) => pad.net ?? []))
  return a === undefined || b === undefined || more.length > 0 ? undefined : [a, b]
}

/** By the letters of its reference, or two pads in a library of capacitors. */
export const isCapacitor = (part: ImportedPart): boolean =>
  CAPACITOR_PREFIXES.has(prefix(part)) || (CAPACITOR_LIBRARY.test(part.footprint.library) && part.pads.length === 2)

/** Large enough to hold a supply still; one without a value in its name counts. */
export const decouples = (part: ImportedPart): boolean =>
  isCapacitor(part) && (scaledValue(valueOf(part)) ?? 1) >= SMALLEST_DECOUPLING_F

/** By the letters of its reference alone; ferrite beads count. */
export const isCoil = (part: ImportedPart): boolean => COIL_PREFIXES.has(prefix(part))

/** A coil that a converter could switch, and no ferrite. */
export function isPowerCoil(part: ImportedPart): boolean {
  if (!isCoil(part) || FERRITE_PREFIXES.has(prefix(part)) || /ferrite|bead/i.test(part.footprint.library)) return false
  const value = valueOf(part)
  if (/\d\s*[NUµμ]H(?![A-Z])/i.test(value) || /^\d+([.,]\d+)?\s*[uµμn]\d*$/i.test(value))
    return (scaledValue(value) ?? 0) >= SMALLEST_POWER_COIL_H
  if (/@|MHz|Ω|ohm/i.test(value)) return false
  return narrowness(part) >= POWER_COIL_WIDTH_MM
}

/** By the letters of its reference, shunts included; a network of resistors is none. */
export const isResistor = (part: ImportedPart): boolean => RESISTOR_PREFIXES.has(prefix(part))
/** By the letters of its reference, whatever its footprint. */
export const isTransistor = (part: ImportedPart): boolean => TRANSISTOR_PREFIXES.has(prefix(part))
/** By the letters BT, BAT or BATT before its number. */
export const isBattery = (part: ImportedPart): boolean => ['BT', 'BAT', 'BATT'].includes(prefix(part))
/** By the letters D or VD before its number; an LED is none. */
export const isDiode = (part: ImportedPart): boolean => DIODE_PREFIXES.has(prefix(part))

/** A solder jumper that is closed as made or a net tie, by its footprint's name. */
export const isClosedJoint = (part: ImportedPart): boolean => CLOSED_JOINT.test(part.footprint.library)

/** Fuses, links, shunts and closed joints: the same supply on both sides. */
export function joins(part: ImportedPart): boolean {
  if (prefix(part) === 'F' || prefix(part) === 'PTC' || isClosedJoint(part)) return true
  return isResistor(part) && (ohmsOf(valueOf(part)) ?? Infinity) <= LINK_OHM
}

/** What carries current from one net to another and changes no voltage: besides these, coils, ferrites and few ohms. */
export const carries = (part: ImportedPart): boolean =>
  joins(part) || isCoil(part) || (isResistor(part) && (ohmsOf(valueOf(part)) ?? Infinity) <= FILTER_OHM)

/** Something with pins of its own kind: neither passive, nor transistor, connector or bare pads. */
export function isChip(part: ImportedPart): boolean {
  if (part.pads.length < 3 || isCapacitor(part) || isCoil(part) || isResistor(part) || isTransistor(part)) return false
  if (CHIP_PREFIXES.has(prefix(part))) return true
  if (OTHER_PASSIVES.has(prefix(part)) || PASSIVE_LIBRARY.test(part.footprint.library)) return false
  return !isConnector(part.footprint)
}
