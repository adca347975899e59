/** A learnt map put to the channels of a board, and any map of a board held against labelled addresses. */
import { bad, type Fault, good, type Result, someOf, say } from '../../../base/index.ts'
import { lanePart } from '../../lanes.ts'
import type { AddressMapDescription, ChannelDescription, LabelledAddress } from '../../schema.ts'
import { compileAddressMap } from '../map.ts'
import { describeLearntMap } from './describe.ts'
import type { LearntMap } from './learn.ts'
import { kindOfLabel } from './observations.ts'

/**
 * The learnt map with the board's channels in its order. A label that is a channel stands for it; one that is a part, for
 * the part's channels: the only one, or each of them at one of the part's places, in the order of the board, and then the
 * part is named in `orderGuessed`.
 * @returns faults where the map is not settled, a label is neither channel nor part, a part takes more or fewer places than
 * it has channels, or a channel stays without an address
 */
export function mapForBoard(learnt: LearntMap, channels: readonly ChannelDescription[]): Result<AddressMapDescription> {
  const described = describeLearntMap(learnt)
  if (described === undefined) return bad(unsettled(learnt))
  const { digits, order: labels } = described.channel
  const named = new Map(channels.map(({ id }) => [id, [id]] as const))
  const shares = new Map<string, number>()
  for (const label of labels) shares.set(label, (shares.get(label) ?? 0) + 1)
  const choices = new Map<string, readonly string[]>()
  const faults: Fault[] = []
  for (const [label, places] of shares) {
    const own = named.get(label) ?? channels.filter((channel) => partsOf(channel).has(label)).map(({ id }) => id)
    choices.set(label, own)
    if (own.length === 0) faults.push(stranger(label))
    else if (own.length > 1 && own.length !== places) faults.push(otherCount(label, places, own.length))
  }
  if (faults.length > 0) return bad(...faults)
  const taken = new Map<string, number>()
  const order = labels.map((label) => {
    const own = choices.get(label) ?? []
    const place = taken.get(label) ?? 0
    taken.set(label, place + 1)
    return own[place % own.length] ?? label
  })
  const without = channels.map(({ id }) => id).filter((id) => !order.includes(id))
  if (without.length > 0) return bad(unlabelled(without))
  const orderGuessed = [...choices].flatMap(([label, own]) => (own.length > 1 ? [label] : []))
  const channel = { digits, order, ...(orderGuessed.length === 0 ? {} : { orderGuessed }) }
  return good({ ...described, channel })
}

const partsOf = (channel: ChannelDescription): Set<string> =>
  new Set([channel.part, ...channel.lanes.map((lane) => lanePart(channel, lane))])

const at = 'labels'

function unsettled({ isSettled, addressBits }: LearntMap): Fault {
  if (addressBits === 0)
    return { path: at, found: say('address 0 alone'), expected: say('addresses far apart from each other') }
  return isSettled
    ? {
        path: at,
        found: say('places without a label, or with several'),
        expected: say('one known label at each place'),
      }
    : { path: at, found: say('too few labels to settle the map'), expected: say('more labelled addresses, far apart') }
}

const stranger = (label: string): Fault => ({
  path: at,
  found: say('{label}, which is neither a channel nor a part with channels', { label }),
  expected: say('names of this board'),
})

const otherCount = (label: string, places: number, channels: number): Fault => ({
  path: at,
  found: say('{label} at {places} {places, plural, one {place} other {places}} of the map', { label, places }),
  expected: say('as many as its channels on the board, {channels}', { channels }),
  todo: say('Mend the channels of the board, or label by channel.'),
})

const unlabelled = (channels: readonly string[]): Fault => ({
  path: at,
  found: say('no address of {channels}', { channels: someOf(channels) }),
  expected: say('labelled addresses of every channel or part'),
})

export interface HeldMap {
  /** Rows with a name that the map can be held against. */
  readonly rows: number
  /** Of these, those that the map puts elsewhere, or nowhere: numbers from 1. */
  readonly elsewhere: readonly number[]
}

/**
 * How far a board's map agrees with labelled addresses. `!U5` agrees with every place but U5; `?a` says nothing here.
 * @returns undefined where the map can't be used
 */
export function heldAgainst(
  map: AddressMapDescription,
  channels: readonly ChannelDescription[],
  labelled: readonly LabelledAddress[],
): HeldMap | undefined {
  const compiled = compileAddressMap(map)
  if (!compiled.ok) return undefined
  const namesOf = new Map(channels.map((channel) => [channel.id, new Set([channel.id, ...partsOf(channel)])]))
  let rows = 0
  const elsewhere: number[] = []
  for (const [i, { address, label }] of labelled.entries()) {
    const kind = kindOfLabel(label)
    if (kind === 'unknown-one') continue
    rows++
    const there = namesOf.get(compiled.value.decode(Number(address))?.channel ?? '')
    const agrees = kind === 'not' ? there?.has(label.slice(1)) !== true : there?.has(label) === true
    if (!agrees) elsewhere.push(i + 1)
  }
  return { rows, elsewhere }
}
