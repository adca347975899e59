/** Addresses labelled as a technician knows them: by package. Of a shipped board, or with channels dealt to packages. */
import { readFileSync } from 'node:fs'
import { type Random, seededRandom } from '../../src/base/index.ts'
import {
  type AddressMapDescription,
  compileAddressMap,
  describeLearntMap,
  type LearntMap,
  loadBoard,
  type Observations,
} from '../../src/board/index.ts'
import { randomMap, simulateLabels } from './simulated-labels.ts'

export interface PackagedMap {
  readonly description: AddressMapDescription
  /** Package of each channel, by the channel's id. */
  readonly packageOf: ReadonlyMap<string, string>
}

export const SHIPPED_BOARDS = ['bowline-8', 'cleat-10', 'hitch-12', 'sheet-bend-16', 'splice-6']

/** The map of a shipped board, and the part that its file gives each channel to. */
export function shippedMap(name: string): PackagedMap {
  const board = loadBoard(JSON.parse(readFileSync(`boards/${name}.json`, 'utf8')))
  if (!board.ok || board.value.description.addressMap === undefined) throw new Error(`${name} has no address map`)
  const { addressMap, memory } = board.value.description
  return { description: addressMap, packageOf: new Map(memory.channels.map(({ id, part }) => [id, part])) }
}

/** A random map whose channels are dealt to packages without any order, so many to each. */
export function dealtMap(form: Parameters<typeof randomMap>[0], perPackage: number, random: Random): PackagedMap {
  const description = randomMap(form, random)
  const left = [...description.channel.order]
  const packageOf = new Map<string, string>()
  for (let dealt = 0; left.length > 0; dealt++)
    for (const channel of left.splice(random.whole(left.length), 1))
      packageOf.set(channel, `U${Math.floor(dealt / perPackage)}`)
  return { description, packageOf }
}

interface Wish {
  readonly rows: number
  readonly wrongShare?: number
  readonly seed: number
  /** What the technician writes; the package where left out. */
  readonly written?: (at: { readonly channel: string; readonly part: string; readonly random: Random }) => string
}

/** Addresses drawn evenly; a wrong label is any other package's. */
export function labelsByPackage({ description, packageOf }: PackagedMap, wish: Wish) {
  const { rows, wrongShare = 0, seed, written = ({ part }) => part } = wish
  const { observations } = simulateLabels(description, { rows, seed })
  const random = seededRandom(seed + 1_000_000)
  const wrongLines: number[] = []
  const labels: string[] = []
  for (const [row, index] of observations.labelOf.entries()) {
    const channel = observations.labels[index] ?? ''
    const part = packageOf.get(channel) ?? ''
    const isWrong = random.next() < wrongShare
    if (isWrong) wrongLines.push(row + 1)
    const others = [...packageOf].filter(([, other]) => other !== part)
    const [seen, seenPart] = (isWrong ? others[random.whole(others.length)] : undefined) ?? [channel, part]
    labels.push(written({ channel: seen, part: seenPart, random }))
  }
  const names = [...new Set(labels)]
  const labelOf = Int32Array.from(labels, (label) => names.indexOf(label))
  const relabelled: Observations = { ...observations, labels: names, labelOf }
  return { observations: relabelled, wrongLines }
}

type IsRight = (named: { readonly found: string; readonly part: string; readonly channel: string }) => boolean

/** Of 4,000 random addresses, how many a learnt map puts in another package than the true one: all where it has no map. */
export function wrongPackages(
  map: LearntMap,
  { description, packageOf }: PackagedMap,
  seed: number,
  isRight: IsRight = ({ found, part }) => found === part,
): number {
  const count = 4000
  const learnt = describeLearntMap(map)
  if (learnt === undefined) return count
  const [found, truth] = [learnt, description].map((one) => {
    const compiled = compileAddressMap(one)
    if (!compiled.ok) throw new Error(JSON.stringify(compiled.faults))
    return compiled.value
  })
  if (found === undefined || truth === undefined) return count
  const packageNamed = new Map(map.places.map(({ channel, package: part }) => [channel ?? part, part]))
  const random = seededRandom(seed)
  const size = truth.endAddress - truth.firstAddress
  let wrong = 0
  for (let i = 0; i < count; i++) {
    const address = truth.firstAddress + Math.floor((random.next() + random.next() * 2 ** -32) * size)
    const channel = truth.decode(address)?.channel ?? ''
    const part = packageOf.get(channel) ?? ''
    const name = found.decode(address)?.channel ?? ''
    if (!isRight({ found: packageNamed.get(name) ?? name, part, channel })) wrong++
  }
  return wrong
}
