/** A reading beside the same point of the other stages of its rail. */
import { rule } from './practice.ts'
import type { MeasuringLine } from './reference.ts'
import { sayReading } from './say.ts'
import type { Quantity, Reading } from './schema.ts'
import { type Verdict, verdictOf } from './verdict-words.ts'

/** How far apart siblings may read, at least, whatever they read. */
const LEAST: Readonly<Record<Quantity, () => number>> = {
  ohms: () => rule('siblingsLeastOhm'),
  diode: () => rule('siblingsWithinDiodeV'),
  volts: () => rule('siblingsLeastV'),
}

/** @param siblings readings of the same point at the other stages, as far as they were measured */
export function besideSiblings(line: MeasuringLine, reading: Reading, siblings: readonly Reading[]): Verdict {
  const { quantity, rail = 'its rail' } = line
  const said = sayReading(reading, quantity)
  const values = siblings.flatMap((each) => (each.kind === 'value' ? [each.value] : []))
  const open = siblings.filter(({ kind }) => kind === 'open').length
  const middle = medianOf(values)
  if (middle === undefined && open === 0) {
    return verdictOf('no-range', `${said}: no other stage of ${rail} is measured here yet.`)
  }
  if (middle === undefined || open > values.length) return besideOpen(reading, said, open)
  const others = `${sayReading({ kind: 'value', value: middle }, quantity)}, ${values.length === 1 ? 'its sibling' : `the median of its ${values.length} siblings`}`
  if (reading.kind === 'open') return verdictOf('open', `Open beside ${others}. Look at the probe and the joint.`)
  const value = reading.kind === 'value' ? reading.value : 0
  const share = quantity === 'diode' ? 0 : rule('siblingsWithin')
  const near = Math.max(LEAST[quantity](), share * middle)
  if (Math.abs(value - middle) <= near) return verdictOf('alike', `${said} is near ${others}.`)
  if (value < middle) return verdictOf('unlike-low', `${said} is below ${others}.`)
  return quantity === 'ohms' && middle > 0 && value > rule('siblingsMuchAbove') * middle
    ? verdictOf('open', `${said} is far above ${others}: no longer joined as they are.`)
    : verdictOf('unlike-high', `${said} is above ${others}.`)
}

function besideOpen(reading: Reading, said: string, open: number): Verdict {
  const others = open === 1 ? 'its sibling' : `${open} of its siblings`
  return reading.kind === 'open'
    ? verdictOf('alike', `Open, as ${others}.`)
    : verdictOf('unlike-low', `${said}, where ${open === 1 ? 'its sibling reads' : `${open} siblings read`} open.`)
}

function medianOf(values: readonly number[]): number | undefined {
  const sorted = values.toSorted((a, b) => a - b)
  const upper = sorted[Math.floor(sorted.length / 2)]
  const lower = sorted[Math.ceil(sorted.length / 2) - 1]
  return upper === undefined || lower === undefined ? undefined : (upper + lower) / 2
}
