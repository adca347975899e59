/** What somebody types into the hand's table as a place: completed as soon as it can mean one thing only. */
import { joined, say } from '../../../base/index.ts'
import type { BoardModel } from '../../../board/index.ts'
import { type ForeignNames, lanesOfMeaning, type Meaning, sayMeaning, type TableRow } from '../../../report/index.ts'

export type HandPlace = Pick<TableRow, 'part' | 'channel' | 'lane'>

export interface NamedPlace {
  readonly name: string
  readonly rows: readonly HandPlace[]
}

const plain = (text: string): string => text.toUpperCase().replace(/[\s._/#\-[\]()]+/g, '')

/** Everything that can be named, the coarse before the fine; names that reports use for it too. */
export function placesOf(model: BoardModel, told: ForeignNames = {}): NamedPlace[] {
  return [
    ...model.memories.map(({ ref }) => ({ name: ref, rows: [{ part: ref }] })),
    ...model.channels.map(({ id }) => ({ name: id, rows: [{ channel: id }] })),
    ...model.lanes.map(({ id }) => ({ name: id, rows: [{ lane: id }] })),
    ...Object.entries(told).map(([name, meaning]) => ({ name, rows: rowsOf(model, meaning) })),
  ]
}

function rowsOf(model: BoardModel, meaning: Meaning): HandPlace[] {
  if (typeof meaning === 'string') {
    if (model.laneById.has(meaning)) return [{ lane: meaning }]
    return [model.channelById.has(meaning) ? { channel: meaning } : { part: meaning }]
  }
  return meaning.map((lane) => ({ lane }))
}

/** @returns the place that is meant; or the names that it could become, none where nothing begins so */
export function meantPlace(places: readonly NamedPlace[], typed: string): NamedPlace | readonly string[] {
  const wanted = plain(typed)
  if (wanted === '') return []
  const exact = places.find(({ name }) => plain(name) === wanted)
  if (exact !== undefined) return exact
  const begun = places.filter(({ name }) => plain(name).startsWith(wanted))
  const [only] = begun
  return begun.length === 1 && only !== undefined ? only : begun.map(({ name }) => name)
}

export const isPlace = (meant: NamedPlace | readonly string[]): meant is NamedPlace => 'rows' in meant

/** A channel is often half of a package: said, so that nobody takes it for the whole. */
export function shareSaid(model: BoardModel, { channel }: HandPlace): string | undefined {
  const own = channel === undefined ? undefined : model.channelById.get(channel)
  if (channel === undefined || own === undefined) return undefined
  if (own.parts.length > 1) return say('shared by {parts}', { parts: joined(own.parts) })
  const [ref = ''] = own.parts
  const whole = lanesOfMeaning(model, ref).length
  return own.lanes.length < whole
    ? say('{model}, not the whole package', { model: sayMeaning(model, channel).replace(/^[^:]*: /, '') })
    : undefined
}
