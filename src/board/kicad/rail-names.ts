/** What a net's name tells about power: ground, rail or neither, and the nominal voltage where it stands in the name. */

const GROUND = /^(GND[A-Z0-9_]*|[A-Z]{0,3}GND|[A-Z0-9_]+_[A-Z]?GND|V[SE][SE][A-Z0-9_]*|EARTH|0V|CHASSIS|PE)$/
const AUTO_NAME = /^(NET-\(|UNCONNECTED-\(|N\$\d)/
/** Signals about a rail: power good, enable, feedback, sense and the like. */
const ABOUT_A_RAIL = /(PG|PGOOD|PWRGD|PWROK|POR|_EN|EN_?N|_OK|SENSE|SNS|_FB|FLT|FAULT|MON|DISCH)(_?[A-Z0-9])?$/
const POWER = [
  /^[+-]?\d+(\.\d+)?V(\d+)?([A-Z_][A-Z0-9_]*)?$/,
  /^[PV]\d+V\d*(_?[A-Z][A-Z0-9_]*)?$/,
  /^[APDN]?V(CC|DD|PP|TT|BAT|BUS|SYS|CORE|MEM|AA|IN)[A-Z0-9]*([_+.-][A-Z0-9.+_-]*)?$/,
  /^[A-Z0-9]+_\d+V\d*(_[A-Z0-9]+)?$/,
]

/** The name without its sheet path, in upper case: `/pal-ntsc.sch/VAF` is `VAF`. */
const lastNameOf = (net: string): string => (net.split('/').at(-1) ?? '').toUpperCase()

export const isGroundNet = (net: string): boolean => GROUND.test(lastNameOf(net))

export const isAutoNamed = (net: string): boolean => AUTO_NAME.test(net.toUpperCase())

export function isRailNet(net: string): boolean {
  const name = lastNameOf(net)
  if (isAutoNamed(net) || isGroundNet(net) || ABOUT_A_RAIL.test(name)) return false
  return POWER.some((pattern) => pattern.test(name))
}

/** `+3.3V` and `P3V3` are 3.3, `P0V85` 0.85, `12V` 12; undefined for a name without a voltage and for a negative one. */
export function nominalVoltsOf(net: string): number | undefined {
  const name = lastNameOf(net)
  if (name.startsWith('-')) return undefined
  const found = /(?:^|[^0-9.])(\d+(?:\.\d+)?)V(\d{0,3})(?![0-9])/.exec(name)
  if (found === null) return undefined
  const [, whole = '', part = ''] = found
  const volts = part === '' || whole.includes('.') ? Number(whole) : Number(`${whole}.${part}`)
  return volts > 0 && volts <= 400 ? volts : undefined
}
