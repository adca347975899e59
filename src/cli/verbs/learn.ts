/** `liftmap learn FILE`: the address map that labelled addresses tell of. */
import type { z } from 'zod'
import { bad, good, type Result, seededRandom, say } from '../../base/index.ts'
import {
  describeLearntMap,
  hexOf,
  learnAddressMap,
  type LearntMap,
  type LearntPlace,
  readObservations,
  sayContradictions,
  sayFunctions,
  sayOpen,
  sayPlaces,
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

export const LEARN_HELP = say(
  '\nEach line is address,label: the address as 0x… or decimal, of at most 52 bits.\n  0x1f400,U5      the address lies in U5, or fails when only U5 is left off\n  0x1f400,U5.CH2  it lies in this channel of U5, where other lines say U5\n  0x1f400,?a      it lies in one package with every other ?a, which one is not known\n  0x1f400,!U5     it does not lie in U5: takes no part in learning, contradicts if it turns out to\n\nA label may be a channel, or a package of several channels. From packages alone comes the package of every address, not\nthe channel: about 400 lines do for 12 packages, 5 in 100 of them wrong. Names of channels may stand among packages.\n\nWith --board and --lane, or with --balls, each line is bit,ball instead: the data bit of the lane that failed while that\nball was open or held. From these comes which bit is which DQ.\n\nExamples:\n  liftmap learn labelled.csv --text\n  liftmap learn failed-bits.csv --board boards/splice-6.json --lane U11.B0 --text\n  liftmap learn failed-bits.csv --balls B4,A3,B3,B2,E3,E2,F2,G2',
)

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
    const rows = observations.lines.length
    const asText = options.text === true ? () => sayLearn(map, rows) : undefined
    printAnswer(io, learnOutput, answerOf(map, rows), asText)
    return EXIT.fine
  })
}

function ballSource({ board, lane, balls }: LearnOptions): BallSource | undefined {
  if (board === undefined && lane === undefined) return balls === undefined ? undefined : { balls }
  if (board === undefined || lane === undefined || balls !== undefined)
    throw new WrongUsage(say('give --board with --lane, or --balls alone'))
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
      return bad({
        path,
        found: say('a longer file'),
        expected: say('at most {MOSTMEGABYTES} MB', { MOSTMEGABYTES: MOST_MEGABYTES }),
        todo: say('Give a part of it.'),
      })
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

function sayLearn(map: LearntMap, rows: number): string {
  const { labels, nextAddresses } = map
  return [
    say(
      '{rows, plural, one {# line} other {# lines}} with {length, plural, one {# label} other {# labels}}, addresses of {addressBits, plural, one {# bit} other {# bits}}.',
      { rows, length: labels.length, addressBits: map.addressBits },
    ),
    ...sayFunctions(map),
    ...sayPlaces(map),
    sayContradictions(map),
    ...sayOpen(map),
    ...(nextAddresses.length === 0
      ? []
      : [say('Label these next:'), ...nextAddresses.map((next) => `  ${hexOf(next)}`)]),
  ].join('\n')
}
