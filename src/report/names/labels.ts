/** From the labels of a report to the parts, channels and lanes of a board: generous about spelling, never a guess. */
import type { BoardModel } from '../../board/index.ts'
import type { ForeignNames, Meaning } from './foreign/meaning.ts'

/** The three label cells of one row, as they stand in the text. */
export interface LabelCells {
  readonly part: string | undefined
  readonly channel: string | undefined
  readonly lane: string | undefined
}

/** The finest thing that the labels name together: index into the board's lanes, channels or memories. */
export interface Place {
  readonly kind: 'lane' | 'channel' | 'part' | 'lanes'
  readonly index: number
  /** Indices of the lanes of a place of kind `lanes`, such as half a package; its own index is that of the first. */
  readonly lanes?: readonly number[]
  /** `name`: the board calls it so; `order`: only its number in the order of the board fits, which may be another's. */
  readonly by: 'name' | 'order'
}

export type PlaceFinder = (cells: LabelCells) => Place | undefined

/** Words that people put before a label: `byte 1`, `CH_A`, `lane-0`. */
const FILLER = /^(?:bytelane|byte|lane|subchannel|channel|chan|chip|ch|memory|mem|part|package|device)/

/** Case, blanks and marks do not count. */
export const plainLabel = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '')

/**
 * Compiles a finder for a board. A label is looked up as lane, channel and part id; then, inside of what the coarser
 * labels of its row name, as a lane's or channel's own name, its ending, or its number in the order of the board. A
 * label that fits several things alike names none.
 */
export function placeFinder(model: BoardModel, foreign: ForeignNames = {}): PlaceFinder {
  const things = listThings(model)
  const meant = new Map(Object.entries(foreign).map(([name, id]) => [plainLabel(name), id]))
  const known = new Map<string, Place | undefined>()
  return (cells) => {
    const key = JSON.stringify([cells.part, cells.channel, cells.lane])
    if (known.has(key)) return known.get(key)
    const place = meant.size === 0 ? find(things, cells) : findForeign(things, model, cells, meant)
    if (known.size < MAX_REMEMBERED) known.set(key, place)
    return place
  }
}

const MAX_REMEMBERED = 20_000

/** Foreign names come first: all labels of a row together, then each alone. */
function findForeign(
  things: Things,
  model: BoardModel,
  cells: LabelCells,
  meant: ReadonlyMap<string, Meaning>,
): Place | undefined {
  const labels = [cells.part, cells.channel, cells.lane].filter((label) => label !== undefined)
  const together = meant.get(plainLabel(labels.join('')))
  if (together !== undefined) return placeOfMeaning(things, model, together)
  const one = (label: string | undefined): string | undefined => {
    const meaning = label === undefined ? undefined : meant.get(plainLabel(label))
    return typeof meaning === 'string' ? meaning : label
  }
  return find(things, { part: one(cells.part), channel: one(cells.channel), lane: one(cells.lane) })
}

function placeOfMeaning(things: Things, model: BoardModel, meaning: Meaning): Place | undefined {
  if (typeof meaning === 'string') return find(things, { part: meaning, channel: undefined, lane: undefined })
  const lanes = meaning.map((id) => model.lanes.findIndex((lane) => lane.id === id))
  const [first] = lanes
  return first === undefined || lanes.includes(-1) ? undefined : { kind: 'lanes', index: first, lanes, by: 'name' }
}

type BoardKind = 'part' | 'channel' | 'lane'
type Things = Record<BoardKind, readonly Thing[]> & {
  /** Every id and name: what is none of them and no number is nothing of the board. */
  readonly known: ReadonlySet<string>
}

interface Thing extends Place {
  readonly kind: BoardKind
  /** What it is called on the whole board, in plain letters. */
  readonly ids: readonly string[]
  /** What it is called inside the thing above it. */
  readonly names: readonly string[]
  /** Indices of the parts and of the channel that it belongs to. */
  readonly parts: readonly number[]
  readonly channel: number
}

function listThings(model: BoardModel): Things {
  const refs = model.memories.map((part) => part.ref)
  const channelIds = model.channels.map((channel) => channel.id)
  const part = refs.map(
    (ref, index): Thing => ({
      kind: 'part',
      index,
      by: 'name',
      ids: [plainLabel(ref)],
      names: [],
      parts: [index],
      channel: -1,
    }),
  )
  const channel = model.channels.map((description, index): Thing => {
    const stem = commonStem(description.lanes.map((id) => model.laneById.get(id)?.name ?? ''))
    const ids = [description.id, ...(stem === '' ? [] : description.parts.map((ref) => ref + stem))].map(plainLabel)
    const names = [...(stem === '' ? [] : [plainLabel(stem)]), ...innerNames(description.id, description.parts)]
    return {
      kind: 'channel',
      index,
      by: 'name',
      ids,
      names,
      parts: description.parts.map((ref) => refs.indexOf(ref)),
      channel: index,
    }
  })
  const lane = model.lanes.map((description, index): Thing => {
    const names = [description.name, ...innerNames(description.name, [description.channel])].map(plainLabel)
    const above = channelIds.indexOf(description.channel)
    return {
      kind: 'lane',
      index,
      by: 'name',
      ids: [plainLabel(description.id)],
      names,
      parts: [refs.indexOf(description.part)],
      channel: above,
    }
  })
  const known = new Set([...part, ...channel, ...lane].flatMap(({ ids, names }) => [...ids, ...names]))
  return { part, channel, lane, known }
}

/** An id without the ids of what it belongs to, and its last letter or number: `U13.A` is `a`, `CH7` is `7`. */
function innerNames(id: string, above: readonly string[]): string[] {
  const plain = plainLabel(id)
  const without = above.map(plainLabel).flatMap((outer) => (plain.startsWith(outer) ? [plain.slice(outer.length)] : []))
  const ending = /(\d+|\p{L})$/u.exec(plain)?.[1]
  return [...without, ...(ending === undefined ? [] : [ending]), plain.replace(FILLER, '')].filter(
    (name) => name !== '',
  )
}

/** What all names begin with, without its digits: `A` of `A0` and `A1`. */
function commonStem(names: readonly string[]): string {
  const [first = '', ...others] = names
  let length = first.length
  for (const name of others) while (!name.startsWith(first.slice(0, length))) length--
  return first.slice(0, length).replace(/\d+$/, '')
}

interface Scope {
  readonly part: number | undefined
  readonly channel: number | undefined
}

function find(things: Things, cells: LabelCells): Place | undefined {
  let scope: Scope = { part: undefined, channel: undefined }
  let place: Place | undefined
  for (const role of ['part', 'channel', 'lane'] as const) {
    const label = cells[role]
    if (label === undefined) continue
    const thing = lookUp(things, role, plainLabel(label), scope)
    if (thing === undefined) return undefined
    const [part] = thing.parts
    scope = {
      part: thing.kind === 'channel' && thing.parts.length > 1 ? scope.part : part,
      channel: thing.kind === 'part' ? scope.channel : thing.channel,
    }
    const by = thing.by === 'order' || place?.by === 'order' ? 'order' : 'name'
    place = { kind: thing.kind, index: thing.index, by }
  }
  return place
}

function lookUp(things: Things, role: BoardKind, label: string, scope: Scope): Thing | undefined {
  if (label === '') return undefined
  const bare = label.replace(FILLER, '')
  if (!things.known.has(label) && !things.known.has(bare) && !SHORT_NUMBER.test(bare)) return undefined
  const inScope = (thing: Thing): boolean =>
    (scope.part === undefined || thing.parts.includes(scope.part)) &&
    (scope.channel === undefined || thing.kind === 'part' || thing.channel === scope.channel)
  const order = [role, ...(['lane', 'channel', 'part'] as const).filter((kind) => kind !== role)]
  for (const kind of order) {
    const whole = onlyOne(things[kind].filter((thing) => thing.ids.includes(label) && inScope(thing)))
    if (whole !== undefined) return whole
  }
  const candidates = things[role].filter(inScope)
  return (
    onlyOne(candidates.filter((thing) => thing.ids.includes(bare))) ??
    onlyOne(candidates.filter((thing) => thing.names[0] === label || thing.names[0] === bare)) ??
    onlyOne(candidates.filter((thing) => thing.names.includes(label) || thing.names.includes(bare))) ??
    byNumber(candidates, bare)
  )
}

const onlyOne = (things: readonly Thing[]): Thing | undefined => (things.length === 1 ? things[0] : undefined)

const SHORT_NUMBER = /^\d{1,4}$/

/** `0` is the first of the candidates in the board's order, where no name or ending says otherwise. */
function byNumber(candidates: readonly Thing[], label: string): Thing | undefined {
  if (!SHORT_NUMBER.test(label)) return undefined
  const endings = candidates.some((thing) => thing.names.some((name) => /^\d+$/.test(name)))
  const thing = endings ? undefined : candidates[Number(label)]
  return thing === undefined ? undefined : { ...thing, by: 'order' }
}
