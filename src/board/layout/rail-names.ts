/** What a net's name tells about power: ground, rail or neither, and the nominal voltage where it stands in the name. */

const GROUND = /^(GND[A-Z0-9_]*|[A-Z]{0,3}GND|[A-Z0-9_]+_[A-Z]?GND|V(SS|EE)[A-Z0-9_]*|EARTH|0V|CHASSIS|PE)$/
const AUTO_NAME = /^(NET-\(|UNCONNECTED-\(|N\$\d)/
/** Signals about a rail: power good, enable, feedback, sense, reference and the like. */
const ABOUT_A_RAIL =
  /(PG|PGOOD|PWRGD|PWROK|POR|_EN|EN_?N|_OK|SENSE|SNS|_FB|FLT|FAULT|MON|DISCH|ENABLE|REF)(_?[A-Z0-9])?$/
const ABOUT_WORDS = new Set(
  'EN ENA NEN EN# ENABLE ON OFF ONOFF PG PGOOD GOOD PWRGD PWROK OK POR RST RESET SENSE SNS VSNS ISNS FB VFB FLT FAULT MON DISCH PWREN CTL CTRL DET DETECT ALERT ALERT# OC OCP VID PWM GATE BST COMP VREF REF SEL'.split(
    ' ',
  ),
)
const POWER = [
  /^[+-]?\d+([.,]\d+)?V(\d+)?([A-Z_][A-Z0-9_.+-]*)?$/,
  /^[+-]?[A-Z]{1,4}\d+([.,]\d+)?V\d*(_?[A-Z][A-Z0-9_]*)?$/,
  /^[+-]?V\d+([.,]\d+)?(_[A-Z0-9_]+)?$/,
  /^[+-]?[APDN]?V(CC|DD|PP|TT|BAT|BUS|SYS|CORE|MEM|AA|IN|OUT)[A-Z0-9]*([_+.-][A-Z0-9.+_-]*)?$/,
  /^[A-Z0-9]+_V(CC|DD|PP|TT|BAT|BUS|SYS|CORE|MEM|AA|IN|OUT)[A-Z0-9]*(_[A-Z0-9_]+)?$/,
  /^[A-Z0-9]+_\d+V\d*(_[A-Z0-9]+)?$/,
]

/** The name without its sheet path, in upper case: `/pal-ntsc.sch/VAF` is `VAF`. */
const lastNameOf = (net: string): string => (net.split('/').at(-1) ?? '').toUpperCase()

/** By the last name of the net's path, in any case. */
export const isGroundNet = (net: string): boolean => GROUND.test(lastNameOf(net))

/** A name that KiCad made up for a net that nobody named. */
export const isAutoNamed = (net: string): boolean => AUTO_NAME.test(net.toUpperCase())

/** Whether the name is that of a signal about power: an enable, a sense line, a reference. */
export function isAboutPower(net: string): boolean {
  const name = lastNameOf(net)
  return ABOUT_A_RAIL.test(name) || name.split(/[_.\-\s]/).some((word) => ABOUT_WORDS.has(word.replace(/\d+$/, '')))
}

/** Whether the name alone says rail; a name alone makes none. */
export function isRailNet(net: string): boolean {
  if (isAutoNamed(net) || isGroundNet(net) || isAboutPower(net)) return false
  return POWER.some((pattern) => pattern.test(lastNameOf(net)))
}

/** Whether the name is that of what comes in: `VIN`, `VBAT`, `12V_IN`, `VBUS`. */
export const isInputNet = (net: string): boolean =>
  /(^|[_+-]|V|DC|\d)(IN|BATT?|BUS|ADP|EXT|RAW)\d?$/.test(lastNameOf(net))

/** `+3.3V`, `P3V3` and `V3.3` are 3.3, `P0V85` 0.85, `12V` 12; undefined for a name without a voltage and for a negative one. */
export function nominalVoltsOf(net: string): number | undefined {
  const name = lastNameOf(net)
  if (name.startsWith('-')) return undefined
  const found =
    /(?:^|[^0-9.,])(\d+(?:[.,]\d+)?)V(\d{0,3})(?![0-9])/.exec(name) ??
    /(?:^|[^A-Z0-9])V(\d+[.,]\d+)(?![0-9])()/.exec(name)
  if (found === null) return undefined
  const whole = (found[1] ?? '').replace(',', '.')
  const part = found[2] ?? ''
  const volts = part === '' || whole.includes('.') ? Number(whole) : Number(`${whole}.${part}`)
  return volts > 0 && volts <= 400 ? volts : undefined
}
