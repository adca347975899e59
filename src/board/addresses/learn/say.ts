/** A learnt map in sentences: for the command line, and for the page of a board’s addresses. */
import { joined, sentenceCase, someOf, say } from '../../../base/index.ts'
import { hexOf } from '../hex.ts'
import { describeLearntMap } from './describe.ts'
import { bitsOf } from './halves.ts'
import type { LearntMap } from './learn.ts'
import { kindOfLabel } from './observations.ts'

/** What addresses of one place agree in: the modulus, then each function; one line that says so where there is none. */
export function sayFunctions({ functions, modulus, shift, gathered, addressBits, isByPackage }: LearntMap): string[] {
  if (functions.length === 0 && modulus === 1) return [say('No function found.')]
  const isWhole = gathered.length === addressBits - shift
  const number = isWhole ? `address >> ${shift}` : say('address {gathered}', { gathered: bitWords(gathered) })
  return [
    isByPackage ? say('Addresses of one place agree in:') : say('Addresses of one label agree in:'),
    ...(modulus === 1 ? [] : [say('  ({number}) mod {modulus}', { number, modulus })]),
    ...functions.map(({ mask, from }) =>
      say('  parity of {from, select, rest {rest} other {address}} AND {mask}   ({bits})', {
        from,
        mask: hexOf(mask),
        bits: bitWords(bitsOf(mask)),
      }),
    ),
    ...(functions.some(({ from }) => from === 'rest')
      ? [say('  The rest is what the modulus leaves: the quotient above bits that it does not read.')]
      : []),
  ]
}

/** How far the map goes: places and packages, labels that lie together, and what `?a` is. */
export function sayPlaces(map: LearntMap): string[] {
  const { meaning, notToldApart } = map
  return [
    ...sayPackages(map),
    ...notToldApart.map((same) => sayTogether(same, map)),
    ...[...meaning].map(([label, is]) =>
      is === undefined
        ? say('{label} is none of the known labels.', { label })
        : say('{label} is {is}.', { label, is }),
    ),
  ]
}

/** Which lines contradict the rest, in a sentence. */
export const sayContradictions = ({ contradictions }: LearntMap): string =>
  contradictions.length === 0
    ? say('No line contradicts the rest.')
    : say(
        '{lines, plural, one {# line} other {# lines}} {lines, plural, one {contradicts} other {contradict}} the rest: {contradictions}.',
        { lines: contradictions.length, contradictions: someOf(contradictions.map(String), 20) },
      )

function sayTogether(labels: readonly string[], { isSettled }: LearntMap): string {
  const together = say('{labels} come out at the same place', { labels: joined(labels) })
  return isSettled
    ? say('{together}: they share it, or wrong lines hide what parts them.', { together })
    : `${together}.`
}

function sayPackages(map: LearntMap): string[] {
  const { isByPackage, isSettled, places } = map
  if (!isByPackage || !isSettled) return []
  const shares = new Map<string, number>()
  for (const { package: name } of places) if (name !== undefined) shares.set(name, (shares.get(name) ?? 0) + 1)
  const sizes = [...new Set(shares.values())].toSorted((a, b) => a - b)
  const held =
    sizes.length === 1
      ? say('{sizes} each', { sizes: sizes[0] })
      : say('{least} to {most} each', { least: sizes[0], most: sizes.at(-1) })
  const several = places.filter(({ package: name }) => (shares.get(name ?? '') ?? 0) > 1)
  const named = several.filter(({ channel }) => channel !== undefined).length
  const share = say(
    '{places, plural, one {# place} other {# places}} for {packages, plural, one {# package} other {# packages}}, {held}.',
    { places: places.length, packages: shares.size, held },
  )
  if (named === several.length) return [share, say('Every channel has a label.')]
  const which =
    named === 0
      ? say('The labels don’t tell the channels of a package apart.')
      : say('Labels name {named} of {channels} channels; the others don’t tell the channels of a package apart.', {
          named,
          channels: several.length,
        })
  const whole =
    describeLearntMap(map) === undefined
      ? say('Some places have no label yet.')
      : say('The package of every address is known.')
  return [share, `${whole} ${which}`]
}

/** What can't be told, and where too few lines settle the map, what they lack. */
export function sayOpen(map: LearntMap): string[] {
  const { isSettled, undeterminedBits, functions, modulus, addressBits } = map
  const bits = sentenceCase(bitWords(undeterminedBits))
  if (isSettled)
    return undeterminedBits.length === 0
      ? [say('Every bit is told.')]
      : [say('{bits} can’t be told: never seen to change alone.', { bits })]
  const missing = missingFunctions(map)
  const found = functions.length + (modulus === 1 ? 0 : 1)
  const chance =
    found === 0
      ? say('nothing is sure')
      : say('{found, plural, one {it} other {some of these}} may fit by chance', { found })
  return [
    say('Too few lines: {chance}.', { chance }),
    ...(missing === 0
      ? []
      : [
          say(
            '{missing, plural, one {# function} other {# functions}} or more {missing, plural, one {is} other {are}} missing.',
            { missing },
          ),
        ]),
    undeterminedBits.length === addressBits ? say('No bit can be told yet.') : say('{bits} can’t be told.', { bits }),
    ...(map.nextAddresses.length > 0 ? [] : [say('Label more addresses, far apart from each other.')]),
  ]
}

/** Each function parts the labels in two at the most: so many more it takes for each known label to have a place. */
function missingFunctions({ labels, modulus, rank }: LearntMap): number {
  const known = labels.filter(({ label }) => kindOfLabel(label) === 'known').length
  return Math.max(0, Math.ceil(Math.log2(Math.max(1, known) / modulus)) - rank)
}

/** `bit 12`, `bits 9, 17 and 22`. */
const bitWords = (bits: readonly number[]): string =>
  say('{count, plural, one {bit} other {bits}} {bits}', { count: bits.length, bits: joined(bits.map(String)) })
