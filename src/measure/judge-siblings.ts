/** A reading beside the same point of the other stages of its rail. */
import { say } from '../base/index.ts'
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

/**
 * With several siblings, what at least half of all stages agree on stands against the rest, so that an odd one makes no
 * other look wrong. Two stages that differ have no majority: the lower one is told, because what is damaged leaks, and the
 * higher one is never called open for it.
 * @param siblings readings of the same point at the other stages, as far as they were measured
 */
export function besideSiblings(line: MeasuringLine, reading: Reading, siblings: readonly Reading[]): Verdict {
  const said = sayReading(reading, line.quantity)
  const [only] = siblings
  if (only === undefined) {
    return verdictOf(
      'no-range',
      say('{said}: no other stage of {rail} is measured here yet.', { said, rail: line.rail ?? say('its rail') }),
    )
  }
  if (siblings.length === 1) return besideOne(line.quantity, reading, only)
  const { quantity } = line
  const value = figureOf(reading)
  const others = siblings.map(figureOf)
  const [below, above] = middlesOf([value, ...others])
  const middle = (below + above) / 2
  const agreeing = others.filter((each) => isNear(each, middle, quantity))
  const isOne = isNear(value, middle, quantity)
  const isShared = isNear(below, above, quantity) && 2 * (agreeing.length + (isOne ? 1 : 0)) > others.length
  if (!isShared) {
    return verdictOf(
      'apart',
      say('{said}: its {siblings} siblings do not agree. Hold them against a good card.', {
        said,
        siblings: others.length,
      }),
    )
  }
  const norm = normWords(quantity, agreeing, others.length)
  if (isOne)
    return verdictOf(
      'alike',
      reading.kind === 'open' ? say('Open, as {norm}.', { norm }) : say('{said} is near {norm}.', { said, norm }),
    )
  return unlike({ quantity, reading, middle, norm })
}

/** Beyond the meter is more than any figure. */
const figureOf = (reading: Reading): number =>
  reading.kind === 'value' ? reading.value : reading.kind === 'open' ? Infinity : 0

function isNear(value: number, middle: number, quantity: Quantity): boolean {
  if (value === middle) return true
  return Math.abs(value - middle) <= widest(middle, quantity)
}

/** How far a reading may lie from so much. */
function widest(figure: number, quantity: Quantity): number {
  const share = quantity === 'diode' ? 0 : rule('siblingsWithin')
  return Number.isFinite(figure) ? Math.max(LEAST[quantity](), share * figure) : 0
}

/** `12 kΩ, the median of its 3 siblings`, `2 of its 3 siblings`. */
function normWords(quantity: Quantity, agreeing: readonly number[], siblings: number): string {
  const whose =
    agreeing.length === siblings
      ? say('its {siblings} siblings', { siblings })
      : say('{agreeing} of its {siblings} siblings', { agreeing: agreeing.length, siblings })
  const [below, above] = middlesOf(agreeing)
  return above === Infinity
    ? whose
    : say('{quantity}, the median of {whose}', {
        quantity: sayReading({ kind: 'value', value: (below + above) / 2 }, quantity),
        whose,
      })
}

interface Odd {
  readonly quantity: Quantity
  readonly reading: Reading
  readonly middle: number
  readonly norm: string
}

function unlike({ quantity, reading, middle, norm }: Odd): Verdict {
  const said = sayReading(reading, quantity)
  const value = figureOf(reading)
  if (reading.kind === 'open')
    return verdictOf('open', say('Open beside {norm}. Look at the probe and the joint.', { norm }))
  if (middle === Infinity) return verdictOf('unlike-low', say('{said}, where {norm} read open.', { said, norm }))
  if (value < middle) return verdictOf('unlike-low', say('{said} is below {norm}.', { said, norm }))
  return quantity === 'ohms' && middle > 0 && value > rule('siblingsMuchAbove') * middle
    ? verdictOf('open', say('{said} is far above {norm}: its joint or its track may be open.', { said, norm }))
    : verdictOf('unlike-high', say('{said} is above {norm}.', { said, norm }))
}

const ONE_OF_TWO = say('One of the two is off: hold both against a good card.')

function besideOne(quantity: Quantity, reading: Reading, sibling: Reading): Verdict {
  const said = sayReading(reading, quantity)
  const [value, other] = [figureOf(reading), figureOf(sibling)]
  const norm = say('{sibling}, its only sibling', { sibling: sayReading(sibling, quantity) })
  if (value === other || Math.abs(value - other) <= widest(Math.max(value, other), quantity)) {
    return verdictOf(
      'alike',
      reading.kind === 'open' ? say('Open, as its only sibling.') : say('{said} is near {norm}.', { said, norm }),
    )
  }
  if (reading.kind === 'open')
    return verdictOf('open', say('Open beside {norm}. Look at the probe and the joint.', { norm }))
  if (sibling.kind === 'open')
    return verdictOf(
      'unlike-low',
      say('{said}, where its only sibling reads open. {oneOfTwo}', { said, oneOfTwo: ONE_OF_TWO }),
    )
  return value < other
    ? verdictOf('unlike-low', say('{said} is below {norm}. {oneOfTwo}', { said, norm, oneOfTwo: ONE_OF_TWO }))
    : verdictOf('unlike-high', say('{said} is above {norm}. {oneOfTwo}', { said, norm, oneOfTwo: ONE_OF_TWO }))
}

/** Of an odd number of values the one in the middle twice. @param values one or more */
function middlesOf(values: readonly number[]): readonly [below: number, above: number] {
  const sorted = values.toSorted((a, b) => a - b)
  return [sorted[Math.ceil(sorted.length / 2) - 1] ?? NaN, sorted[Math.floor(sorted.length / 2)] ?? NaN]
}
