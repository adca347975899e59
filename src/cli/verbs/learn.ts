/** `liftmap learn FILE`: the address map that labelled addresses tell of. */
import type { z } from 'zod'
import { bad, counted, good, joined, type Result, seededRandom, sentenceCase, someOf } from '../../base/index.ts'
import {
  bitsOf,
  describeLearntMap,
  hexOf,
  learnAddressMap,
  type LearntMap,
  type LearntPlace,
  readObservations,
} from '../../board/index.ts'
import { EXIT, printAnswer, printFaults, whenGood, WrongUsage } from '../answer.ts'
import type { Io } from '../io.ts'
import { learnOutput } from '../learn-output.ts'
import { type BallSource, runLearnLane } from './learn-lane.ts'

type Learn = z.infer<typeof learnOutput>

/** Rows are drawn by it; another seed draws others and comes to the same map. */
const SEED = 1
/** A line of 20 characters each: six times as many rows as are taken. */
const MOST_MEGABYTES = 100

export const LEARN_HELP = `
Each line is address,label: the address as 0x… or decimal, of at most 52 bits.
  0x1f400,U5      the address lies in U5, or fails when only U5 is left off
  0x1f400,U5.CH2  it lies in this channel of U5, where other lines say U5
  0x1f400,?a      it lies in one package with every other ?a, which one is not known
  0x1f400,!U5     it does not lie in U5: takes no part in learning, contradicts if it turns out to

A label may be a channel, or a package of several channels. From packages alone comes the package of every address, not
the channel: about 400 lines do for 12 packages, 5 in 100 of them wrong. Names of channels may stand among packages.

With --board and --lane, or with --balls, each line is bit,ball instead: the data bit of the lane that failed while that
ball was open or held. From these comes which bit is which DQ.

Examples:
  liftmap learn labelled.csv --text
  liftmap learn failed-bits.csv --board boards/splice-6.json --lane U11.B0 --text
  liftmap learn failed-bits.csv --balls B4,A3,B3,B2,E3,E2,F2,G2`

export interface LearnOptions {
  readonly text?: boolean | undefined
  readonly board?: string | undefined
  readonly lane?: string | undefined
  readonly balls?: string | undefined
}

/**
 * Prints the map that the file's observations tell of, or with a board and lane, or with balls, that lane's wiring.
 * The same file gives the same answer: the draws have a fixed seed. Returns the exit code.
 */
export async function runLearn(
  io: Io,
  file: string,
  { board, lane, balls, ...options }: LearnOptions,
): Promise<number> {
  const source = ballSource({ board, lane, balls })
  const text = await readSome(io, file)
  if (source !== undefined) return await runLearnLane(io, text, { source, ...options })
  if (!text.ok) return printFaults(io, text.faults)
  return await whenGood(io, inFile(readObservations(text.value), file), (observations) => {
    const map = learnAddressMap(observations, seededRandom(SEED))
    printAnswer(io, learnOutput, answerOf(map, observations.lines.length), options.text === true ? sayLearn : undefined)
    return EXIT.fine
  })
}

function ballSource({ board, lane, balls }: LearnOptions): BallSource | undefined {
  if (board === undefined && lane === undefined) return balls === undefined ? undefined : { balls }
  if (board === undefined || lane === undefined || balls !== undefined)
    throw new WrongUsage('give --board with --lane, or --balls alone')
  return { board, lane }
}

const inFile = <T>(result: Result<T>, file: string): Result<T> =>
  result.ok ? result : bad(...result.faults.map((fault) => ({ ...fault, path: `${file} ${fault.path}` })))

/** The text of a file or of standard input, up to a size that holds more rows than can be used. */
async function readSome(io: Io, path: string): Promise<Result<string>> {
  const opened = await io.open(path)
  if (!opened.ok) return opened
  const decoder = new TextDecoder()
  let text = ''
  let bytes = 0
  for await (const chunk of opened.value) {
    bytes += chunk.length
    if (bytes > MOST_MEGABYTES * 1e6)
      return bad({ path, found: 'a longer file', expected: `at most ${MOST_MEGABYTES} MB`, todo: 'Give a part of it.' })
    text += decoder.decode(chunk, { stream: true })
  }
  return good(text + decoder.decode())
}

function answerOf(map: LearntMap, rows: number): Learn {
  return {
    rows,
    functions: map.functions.map(({ mask }) => hexOf(mask)),
    functionsFrom: map.functions.map(({ from }) => from),
    modulus: map.modulus,
    shift: map.shift,
    gathered: [...map.gathered],
    rank: map.rank,
    addressBits: map.addressBits,
    undeterminedBits: [...map.undeterminedBits],
    settled: map.isSettled,
    contradictions: [...map.contradictions],
    nextAddresses: map.nextAddresses.map(hexOf),
    byPackage: map.isByPackage,
    labels: map.labels.map((label) => ({ ...label, ...plain(label), places: label.places.map(plain) })),
    places: map.places.map((place) => ({
      ...plain(place),
      package: place.package ?? null,
      channel: place.channel ?? null,
    })),
    notToldApart: map.notToldApart.map((labels) => [...labels]),
    meaning: [...map.meaning].map(([label, is]) => ({ label, is: is ?? null })),
    addressMap: describeLearntMap(map) ?? null,
  }
}

const plain = ({ residue, values }: LearntPlace) => ({ residue, values: [...values] })

function sayLearn(answer: Learn): string {
  const { rows, labels, contradictions, nextAddresses, meaning, notToldApart } = answer
  return [
    `${counted(rows, 'line')} with ${counted(labels.length, 'label')}, addresses of ${counted(answer.addressBits, 'bit')}.`,
    ...sayMap(answer),
    ...sayPackages(answer),
    ...notToldApart.map((same) => sayTogether(same, answer)),
    ...meaning.map(({ label, is }) => (is === null ? `${label} is none of the known labels.` : `${label} is ${is}.`)),
    contradictions.length === 0
      ? 'No line contradicts the rest.'
      : `${counted(contradictions.length, 'line')} ${contradictions.length === 1 ? 'contradicts' : 'contradict'} the rest: ${someOf(contradictions.map(String), 20)}.`,
    ...sayOpen(answer),
    ...(nextAddresses.length === 0 ? [] : ['Label these next:', ...nextAddresses.map((address) => `  ${address}`)]),
  ].join('\n')
}

function sayMap({ functions, functionsFrom, modulus, shift, gathered, addressBits, byPackage }: Learn): string[] {
  if (functions.length === 0 && modulus === 1) return ['No function found.']
  const isWhole = gathered.length === addressBits - shift
  const number = isWhole ? `address >> ${shift}` : `address ${bitWords(gathered)}`
  return [
    `Addresses of one ${byPackage ? 'place' : 'label'} agree in:`,
    ...(modulus === 1 ? [] : [`  (${number}) mod ${modulus}`]),
    ...functions.map((mask, i) => {
      const source = functionsFrom[i] === 'rest' ? `rest` : 'address'
      return `  parity of ${source} AND ${mask}   (${bitWords(bitsOf(Number(mask)))})`
    }),
    ...(functionsFrom.includes('rest')
      ? [`  The rest is what the modulus leaves: the quotient above bits that it does not read.`]
      : []),
  ]
}

function sayTogether(labels: readonly string[], { settled }: Learn): string {
  const together = `${joined(labels)} come out at the same place`
  return settled ? `${together}: they share it, or wrong lines hide what parts them.` : `${together}.`
}

/** How far the map goes where packages hold several places. */
function sayPackages({ byPackage, settled, places, addressMap }: Learn): string[] {
  if (!byPackage || !settled) return []
  const shares = new Map<string, number>()
  for (const { package: name } of places) if (name !== null) shares.set(name, (shares.get(name) ?? 0) + 1)
  const sizes = [...new Set(shares.values())].toSorted((a, b) => a - b)
  const held = sizes.length === 1 ? `${sizes[0]} each` : `${sizes[0]} to ${sizes.at(-1)} each`
  const several = places.filter(({ package: name }) => (shares.get(name ?? '') ?? 0) > 1)
  const named = several.filter(({ channel }) => channel !== null).length
  const share = `${counted(places.length, 'place')} for ${counted(shares.size, 'package')}, ${held}.`
  if (named === several.length) return [share, 'Every channel has a label.']
  const which = named === 0 ? 'The labels' : `Labels name ${named} of ${several.length} channels; the others`
  const whole = addressMap === null ? 'Some places have no label yet.' : 'The package of every address is known.'
  return [share, `${whole} ${which} don’t tell the channels of a package apart.`]
}

/** What can't be told, and where too few lines settle the map, what they lack. */
function sayOpen(answer: Learn): string[] {
  const { settled, undeterminedBits, functions, modulus, addressBits } = answer
  const bits = sentenceCase(bitWords(undeterminedBits))
  if (settled)
    return undeterminedBits.length === 0
      ? ['Every bit is told.']
      : [`${bits} can’t be told: never seen to change alone.`]
  const missing = missingFunctions(answer)
  const found = functions.length + (modulus === 1 ? 0 : 1)
  const chance = found === 0 ? 'nothing is sure' : `${found === 1 ? 'it' : 'some of these'} may fit by chance`
  return [
    `Too few lines: ${chance}.`,
    ...(missing === 0 ? [] : [`${counted(missing, 'function')} or more ${missing === 1 ? 'is' : 'are'} missing.`]),
    undeterminedBits.length === addressBits ? 'No bit can be told yet.' : `${bits} can’t be told.`,
    ...(answer.nextAddresses.length > 0 ? [] : ['Label more addresses, far apart from each other.']),
  ]
}

/** Each function parts the labels in two at the most: so many more it takes for each known label to have a place. */
function missingFunctions({ labels, modulus, rank }: Learn): number {
  const known = labels.filter(({ label }) => !/^[?!]/.test(label)).length
  return Math.max(0, Math.ceil(Math.log2(Math.max(1, known) / modulus)) - rank)
}

/** `bit 12`, `bits 9, 17 and 22`. */
const bitWords = (bits: readonly number[]): string =>
  `${bits.length === 1 ? 'bit' : 'bits'} ${joined(bits.map(String))}`
