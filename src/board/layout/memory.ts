/** Finds the memory parts, their data pins lane by lane, and the core that shares most data nets with them. */
import { someOf, say } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import { packageOutlines } from '../packages.ts'
import { type Netlist, type NetPin, pinsOn, seriesSteps, type SeriesStep } from './netlist.ts'
import { type ImportedPart } from './parts.ts'
import { isGroundNet, isRailNet } from './rail-names.ts'
import { dataPinOf, memoryEvidence, outlinesThatFit } from './signals.ts'

const FEWEST_DATA_PINS = 4
const FEWEST_COMMAND_PINS = 2
const FEWEST_VOCABULARY = 0.8
const FEWEST_SHARED_NETS = 4
const BYTE = 8
const MOST_DATA_PINS = 12
/** A net of more pins is a plane, not a data line. */
const MOST_PINS_LOOKED_AT = 400

/** One data pin of a memory part. */
export interface MemoryBit {
  readonly pin: NetPin
  readonly lane: string
  /** Number within the lane, as the memory counts. */
  readonly bit: number
}

export interface MemoryPart {
  readonly part: ImportedPart
  readonly bits: readonly MemoryBit[]
}

/** A way from a memory's data pin to another part: directly on its net, or through one resistor. */
export interface Reach {
  readonly end: NetPin
  readonly through: SeriesStep | undefined
}

/**
 * Parts with enough data and command pins by name, or by a known ball map where no pin is named. What looks like a
 * memory without DQ pins is left out and said in `untold`, to which sentences are added.
 */
export function findMemories(netlist: Netlist, untold: string[]): MemoryPart[] {
  const nameless: string[] = []
  const memories = netlist.parts.flatMap((part) => {
    const evidence = memoryEvidence(part.pads.map(({ pad }) => pad.signal ?? ''))
    const looks = evidence.vocabulary >= FEWEST_VOCABULARY && evidence.commandPins >= FEWEST_COMMAND_PINS
    if (looks && evidence.dataPins >= FEWEST_DATA_PINS) return [{ part, bits: bitsByFunction(part) }]
    const bits = evidence.dataPins === 0 ? bitsByBallMap(part, netlist, untold) : undefined
    if (bits) return [{ part, bits }]
    if (looks && part.pads.length > 16) nameless.push(part.part.ref)
    return []
  })
  if (nameless.length > 0)
    untold.push(
      say('{nameless}: pins for row and column strobes as on a memory, but none named DQ; not taken as memory.', {
        nameless: someOf(nameless),
      }),
    )
  return memories
}

/** Lanes are bytes: by channel and half where the functions name them, else by the number, `L` and `U` for two. */
function bitsByFunction(part: ImportedPart): MemoryBit[] {
  const found = part.pads.flatMap((entry) => {
    const data = entry.pad.signal === undefined ? undefined : dataPinOf(entry.pad.signal)
    return data === undefined ? [] : [{ data, pin: { owner: part, ...entry } }]
  })
  const widthOf = groupedBy(found, ({ data }) => data.channel)
  const seen = new Set<string>()
  return found.flatMap(({ data, pin }) => {
    const top = Math.max(...(widthOf.get(data.channel) ?? []).map((other) => other.data.bit))
    const byte = Math.floor(data.bit / BYTE)
    const halves = data.channel === '' && top >= BYTE && top < 2 * BYTE
    const lane = data.half !== '' ? data.half : halves ? (byte === 0 ? 'L' : 'U') : `${data.channel}${byte}`
    const key = `${lane} ${data.bit % BYTE}`
    if (seen.has(key)) return []
    seen.add(key)
    return [{ pin, lane, bit: data.bit % BYTE }]
  })
}

interface MapFit {
  readonly outline: string
  readonly bits: readonly MemoryBit[]
  /** Share of the map's data balls that may carry data by their nets. */
  readonly agreement: number
}

/** Without pin functions: by the ball map of the one memory package that fits; said where the balls tell no data pins. */
function bitsByBallMap(part: ImportedPart, netlist: Netlist, untold: string[]): readonly MemoryBit[] | undefined {
  const names = outlinesThatFit(part)
  if (names.length === 0) return undefined
  const fits = names.flatMap((name) => mapFit(part, name, netlist))
  const good = fits.filter((fit) => fit.agreement >= FEWEST_VOCABULARY)
  const best = good.toSorted((a, b) => b.agreement - a.agreement)
  const [first, second] = best
  if (first !== undefined && (second === undefined || second.agreement < first.agreement)) return first.bits
  untold.push(
    say(
      '{ref} has the balls of a memory package ({names}), but neither pin functions nor a single ball map tell its data balls.',
      { ref: part.part.ref, names: names.join(', ') },
    ),
  )
  return []
}

function mapFit(part: ImportedPart, name: string, netlist: Netlist): MapFit[] {
  const lanes = packageOutlines.get(name)?.regions.filter((region) => region.dq !== undefined) ?? []
  const bits = lanes.flatMap((region) =>
    (region.dq ?? []).flatMap((ball, bit) => {
      const entry = part.pads.find(({ pad }) => pad.number === ball)
      return entry ? [{ pin: { owner: part, ...entry }, lane: region.name, bit }] : []
    }),
  )
  if (bits.length === 0) return []
  return [{ outline: name, bits, agreement: bits.filter((bit) => mayCarryData(bit.pin, netlist)).length / bits.length }]
}

/** Data nets join a handful of pins and are no supply. An unconnected ball speaks neither for nor against. */
function mayCarryData({ pad }: NetPin, netlist: Netlist): boolean {
  if (pad.net === undefined) return true
  return pinsOn(netlist, pad.net).length <= MOST_DATA_PINS && !isGroundNet(pad.net) && !isRailNet(pad.net)
}

/** Pins of other parts that a data pin reaches directly or through one series resistor; never another memory's. */
export function reachOf(bit: MemoryBit, netlist: Netlist): Reach[] {
  const net = bit.pin.pad.net
  if (net === undefined || pinsOn(netlist, net).length > MOST_PINS_LOOKED_AT) return []
  const direct = pinsOn(netlist, net).map((end): Reach => ({ end, through: undefined }))
  const behind = seriesSteps(netlist, net).flatMap((through) =>
    pinsOn(netlist, through.far.pad.net ?? '').map((end): Reach => ({ end, through })),
  )
  return [...direct, ...behind].filter(({ end }) => end.owner !== bit.pin.owner)
}

/** The part that shares most data nets with the memory parts; more pads decide between equals. */
export function findCore(memories: readonly MemoryPart[], netlist: Netlist): ImportedPart | undefined {
  const isMemory = new Set(memories.map(({ part }) => part))
  const shared = new Map<ImportedPart, Set<string>>()
  for (const bit of memories.flatMap((memory) => memory.bits))
    for (const { end } of reachOf(bit, netlist)) {
      if (isMemory.has(end.owner)) continue
      const nets = shared.get(end.owner) ?? new Set()
      shared.set(end.owner, nets.add(end.pad.net ?? ''))
    }
  const ranked = [...shared].toSorted(
    ([partA, netsA], [partB, netsB]) => netsB.size - netsA.size || partB.pads.length - partA.pads.length,
  )
  const [best] = ranked
  return best !== undefined && best[1].size >= FEWEST_SHARED_NETS ? best[0] : undefined
}

const PROCESSOR_PIN = /^(E?XTAL(IN|OUT|_?[IO12])?|OSC(IN|OUT|_?IN|_?OUT)|X(IN|OUT))$/
const FEWEST_PROCESSOR_PADS = 32

/** Where no memory tells it: the one part of many pins that has a crystal's pins, as a processor does; else none. */
export function guessCore(netlist: Netlist): ImportedPart | undefined {
  const withCrystal = netlist.parts.filter(
    ({ pads }) =>
      pads.length >= FEWEST_PROCESSOR_PADS &&
      pads.some(({ pad }) => alternatives(pad.signal).some((name) => PROCESSOR_PIN.test(name))),
  )
  return withCrystal.length === 1 ? withCrystal[0] : undefined
}

const alternatives = (signal: string | undefined): string[] => (signal ?? '').toUpperCase().split('/')
