/** Names of the board found in running text: `U13.A0`, `U13 A0`, `channel 4`, `byte 1 of CH4`, wherever they stand. */
import type { BoardModel } from '../../board/index.ts'
import type { ForeignNames } from './foreign/meaning.ts'
import { type LabelCells, type Place, placeFinder, plainLabel } from './labels.ts'
import type { Token } from '../text/tokens.ts'

export interface NameHit {
  readonly from: number
  /** Just behind its last token. */
  readonly to: number
  readonly role: keyof LabelCells
  readonly label: string
  /** Means something on the whole board; else only inside what stands before it. */
  readonly whole: boolean
}

export interface NameBook {
  /** The longest name that begins at a token. */
  at(tokens: readonly Token[], from: number): NameHit | undefined
  /** What the labels mean together. */
  place(labels: LabelCells): Place | undefined
  /** The board's own id of a place. */
  idOf(place: Place): string
  isName(text: string): boolean
}

const MAX_WINDOW = 7
/** Marks that may stand inside of one name. */
const JOINTS = /^[._/\-#[\]()]$/
const KIND_WORDS: Readonly<Record<string, keyof LabelCells>> = {
  channel: 'channel',
  chan: 'channel',
  ch: 'channel',
  kanal: 'channel',
  canal: 'channel',
  canale: 'channel',
  subchannel: 'channel',
  byte: 'lane',
  lane: 'lane',
  bytelane: 'lane',
  octet: 'lane',
  chip: 'part',
  part: 'part',
  package: 'part',
  device: 'part',
  memory: 'part',
  mem: 'part',
  ic: 'part',
  baustein: 'part',
  puce: 'part',
}

/** Compiles the names of a board for looking them up in text. */
export function nameBook(model: BoardModel, foreign: ForeignNames = {}): NameBook {
  const find = placeFinder(model, foreign)
  const whole = new Map<string, string>()
  for (const part of model.memories) whole.set(plainLabel(part.ref), part.ref)
  for (const channel of model.channels) {
    whole.set(plainLabel(channel.id), channel.id)
  }
  for (const lane of model.lanes) whole.set(plainLabel(lane.id), lane.id)
  const stems = new Set<string>()
  for (const part of model.memories) {
    for (const channel of model.channels) {
      if (!channel.parts.includes(part.ref)) continue
      for (const id of channel.lanes) {
        const stem = /^\D+/.exec(model.laneById.get(id)?.name ?? '')?.[0] ?? ''
        const key = plainLabel(part.ref + stem)
        if (whole.has(key) || stems.has(key) || stem === '') continue
        const place = find({ part: part.ref + stem, channel: undefined, lane: undefined })
        if (place?.kind === 'channel') whole.set(key, channel.id)
        stems.add(key)
      }
    }
  }
  const begun = new Set<string>()
  for (const [name, meaning] of Object.entries(foreign)) {
    // A bare number is a name in a column of names, in running text it may be anything.
    if (!/\p{L}/u.test(name)) continue
    const key = plainLabel(name)
    whole.set(key, typeof meaning === 'string' ? meaning : name)
    for (let to = 1; to < key.length; to++) begun.add(key.slice(0, to))
  }
  const inner = new Set(model.lanes.map((lane) => plainLabel(lane.name)))

  const at = (tokens: readonly Token[], from: number): NameHit | undefined => {
    const first = tokens[from]
    if (first === undefined || first.kind === 'mark' || first.kind === 'time') return undefined
    return (
      wholeAt(whole, begun, tokens, from) ?? afterKindWord(whole, find, tokens, from) ?? innerAt(inner, tokens, from)
    )
  }
  return {
    at,
    place: find,
    idOf: ({ kind, index, lanes }) =>
      (lanes !== undefined
        ? lanes.map((lane) => model.lanes[lane]?.id).join(' ')
        : kind === 'part'
          ? model.memories[index]?.ref
          : kind === 'channel'
            ? model.channels[index]?.id
            : model.lanes[index]?.id) ?? '',
    isName: (text) => whole.has(plainLabel(text)) || inner.has(plainLabel(text)),
  }
}

function wholeAt(
  whole: ReadonlyMap<string, string>,
  /** What foreign names begin with: those may hold blanks. */
  begun: ReadonlySet<string>,
  tokens: readonly Token[],
  from: number,
): NameHit | undefined {
  let best: NameHit | undefined
  let plain = ''
  for (let to = from; to < Math.min(tokens.length, from + MAX_WINDOW); to++) {
    const token = tokens[to]
    const before = tokens[to - 1]
    if (token === undefined) break
    if (token.kind === 'mark' && !JOINTS.test(token.text)) break
    const blank = to > from && before !== undefined && token.from > before.to
    if (blank && !begun.has(plain) && !mayCrossBlank(plain, token, whole)) break
    if (token.kind === 'mark') continue
    plain += plainLabel(token.text)
    const id = whole.get(plain)
    if (id !== undefined) best = { from, to: to + 1, role: 'part', label: id, whole: true }
  }
  return best
}

/** `U13 A0` is one name, `M1 0` is not `M10`; `CH 4` is `CH4`. */
function mayCrossBlank(plain: string, token: Token, whole: ReadonlyMap<string, string>): boolean {
  if (token.kind === 'mark') return false
  return /\p{L}/u.test(token.text) || (KIND_WORDS[plain] !== undefined && !whole.has(plain))
}

const NONE: ReadonlySet<string> = new Set()

/** `channel 4`, `byte: 0`, `lane A1`. */
function afterKindWord(
  wholeNames: ReadonlyMap<string, string>,
  find: NameBook['place'],
  tokens: readonly Token[],
  from: number,
): NameHit | undefined {
  const role = KIND_WORDS[plainLabel(tokens[from]?.text ?? '')]
  if (role === undefined) return undefined
  let to = from + 1
  while (to < from + 3 && (tokens[to]?.kind === 'mark' || tokens[to]?.text === '#')) to++
  const token = tokens[to]
  // `lane U17.A0`: what follows is a name by itself.
  if (wholeAt(wholeNames, NONE, tokens, to) !== undefined) return undefined
  if (
    token === undefined ||
    token.kind === 'mark' ||
    !/^(?:\d{1,3}|\p{L}\p{N}{0,3}|\p{Lu}{1,3}_?\p{N}{0,3})$/u.test(token.text)
  ) {
    return undefined
  }
  const place = find({ part: undefined, channel: undefined, lane: undefined, [role]: token.text })
  // A number that only counts in the board's order is no name: `Device 0`, `chip 3`.
  if (place?.by === 'order') return undefined
  const whole = role !== 'lane' && place !== undefined
  return { from, to: to + 1, role, label: token.text, whole }
}

function innerAt(inner: ReadonlySet<string>, tokens: readonly Token[], from: number): NameHit | undefined {
  const token = tokens[from]
  if (token === undefined || !/\p{L}/u.test(token.text) || !inner.has(plainLabel(token.text))) return undefined
  return { from, to: from + 1, role: 'lane', label: token.text, whole: false }
}
