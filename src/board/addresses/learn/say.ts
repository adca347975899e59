/** A learnt map in sentences: for the command line, and for the page of a board’s addresses. */
import { counted, joined, sentenceCase, someOf } from '../../../base/index.ts'
import { hexOf } from '../hex.ts'
import { describeLearntMap } from './describe.ts'
import { bitsOf } from './halves.ts'
import type { LearntMap } from './learn.ts'
import { kindOfLabel } from './observations.ts'

/** What addresses of one place agree in: the modulus, then each function; one line that says so where there is none. */
export function sayFunctions({ functions, modulus, shift, gathered, addressBits, isByPackage }: LearntMap): string[] {
  if (functions.length === 0 && modulus === 1) return ['No function found.']
  const isWhole = gathered.length === addressBits - shift
  const number = isWhole ? `address >> ${shift}` : `address ${bitWords(gathered)}`
  return [
    `Addresses of one ${isByPackage ? 'place' : 'label'} agree in:`,
    ...(modulus === 1 ? [] : [`  (${number}) mod ${modulus}`]),
    ...functions.map(({ mask, from }) => `  parity of ${from} AND ${hexOf(mask)}   (${bitWords(bitsOf(mask))})`),
    ...(functions.some(({ from }) => from === 'rest')
      ? ['  The rest is what the modulus leaves: the quotient above bits that it does not read.']
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
      is === undefined ? `${label} is none of the known labels.` : `${label} is ${is}.`,
    ),
  ]
}

/** Which lines contradict the rest, in a sentence. */
export const sayContradictions = ({ contradictions }: LearntMap): string =>
  contradictions.length === 0
    ? 'No line contradicts the rest.'
    : `${counted(contradictions.length, 'line')} ${contradictions.length === 1 ? 'contradicts' : 'contradict'} the rest: ${someOf(contradictions.map(String), 20)}.`

function sayTogether(labels: readonly string[], { isSettled }: LearntMap): string {
  const together = `${joined(labels)} come out at the same place`
  return isSettled ? `${together}: they share it, or wrong lines hide what parts them.` : `${together}.`
}

function sayPackages(map: LearntMap): string[] {
  const { isByPackage, isSettled, places } = map
  if (!isByPackage || !isSettled) return []
  const shares = new Map<string, number>()
  for (const { package: name } of places) if (name !== undefined) shares.set(name, (shares.get(name) ?? 0) + 1)
  const sizes = [...new Set(shares.values())].toSorted((a, b) => a - b)
  const held = sizes.length === 1 ? `${sizes[0]} each` : `${sizes[0]} to ${sizes.at(-1)} each`
  const several = places.filter(({ package: name }) => (shares.get(name ?? '') ?? 0) > 1)
  const named = several.filter(({ channel }) => channel !== undefined).length
  const share = `${counted(places.length, 'place')} for ${counted(shares.size, 'package')}, ${held}.`
  if (named === several.length) return [share, 'Every channel has a label.']
  const which = named === 0 ? 'The labels' : `Labels name ${named} of ${several.length} channels; the others`
  const whole =
    describeLearntMap(map) === undefined ? 'Some places have no label yet.' : 'The package of every address is known.'
  return [share, `${whole} ${which} don’t tell the channels of a package apart.`]
}

/** What can't be told, and where too few lines settle the map, what they lack. */
export function sayOpen(map: LearntMap): string[] {
  const { isSettled, undeterminedBits, functions, modulus, addressBits } = map
  const bits = sentenceCase(bitWords(undeterminedBits))
  if (isSettled)
    return undeterminedBits.length === 0
      ? ['Every bit is told.']
      : [`${bits} can’t be told: never seen to change alone.`]
  const missing = missingFunctions(map)
  const found = functions.length + (modulus === 1 ? 0 : 1)
  const chance = found === 0 ? 'nothing is sure' : `${found === 1 ? 'it' : 'some of these'} may fit by chance`
  return [
    `Too few lines: ${chance}.`,
    ...(missing === 0 ? [] : [`${counted(missing, 'function')} or more ${missing === 1 ? 'is' : 'are'} missing.`]),
    undeterminedBits.length === addressBits ? 'No bit can be told yet.' : `${bits} can’t be told.`,
    ...(map.nextAddresses.length > 0 ? [] : ['Label more addresses, far apart from each other.']),
  ]
}

/** Each function parts the labels in two at the most: so many more it takes for each known label to have a place. */
function missingFunctions({ labels, modulus, rank }: LearntMap): number {
  const known = labels.filter(({ label }) => kindOfLabel(label) === 'known').length
  return Math.max(0, Math.ceil(Math.log2(Math.max(1, known) / modulus)) - rank)
}

/** `bit 12`, `bits 9, 17 and 22`. */
const bitWords = (bits: readonly number[]): string =>
  `${bits.length === 1 ? 'bit' : 'bits'} ${joined(bits.map(String))}`
