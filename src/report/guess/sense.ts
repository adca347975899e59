/** What is known of names when columns are looked at: the board's and the foreign ones, compiled once a guess. */
import type { BoardModel } from '../../board/index.ts'
import type { ForeignNames } from '../names/foreign/meaning.ts'
import { roleOfHeading } from '../names/headings.ts'
import { type PlaceFinder, placeFinder, plainLabel } from '../names/labels.ts'

export interface NameSense {
  readonly find: PlaceFinder
  /** What lanes are called inside their parts, in capitals. */
  readonly laneNames: ReadonlySet<string>
  /** It means something on the board, if only beside others or by its number. */
  meansSomething(text: string): boolean
  /** The cells are all the first, second or third word of foreign names: `3` and `low` of `3 low`. */
  pieceRole(texts: readonly string[], heading: string | undefined): 'part' | 'channel' | 'lane' | undefined
}

const ROLES = ['part', 'channel', 'lane'] as const
const NONE = { part: undefined, channel: undefined, lane: undefined }

/**
 * What names mean on this board, with those that the user placed before. A lane's name is tried at the first memory,
 * as all carry the same lanes.
 */
export function nameSense(model: BoardModel, names: ForeignNames = {}): NameSense {
  const find = placeFinder(model, names)
  const first = model.memories[0]?.ref
  const pieces = ROLES.map(() => new Set<string>())
  for (const name of Object.keys(names)) {
    const words = name.split(/[\s,;|]+/)
    if (words.length > ROLES.length) continue
    for (const [i, word] of words.entries()) pieces[i]?.add(plainLabel(word))
  }
  const means = (text: string): boolean =>
    [
      { ...NONE, part: text },
      { ...NONE, channel: text },
      { ...NONE, part: first, lane: text },
      { ...NONE, part: first, channel: text },
    ].some((cells) => find(cells) !== undefined)
  return {
    find,
    laneNames: new Set(model.lanes.map((lane) => lane.name.toUpperCase())),
    meansSomething: means,
    pieceRole: (texts, heading) => {
      // Bare numbers are names only under a heading that says so.
      const isNumbers = texts.every((text) => /^\d+$/.test(text))
      if (isNumbers && !ROLES.some((role) => role === roleOfHeading(heading ?? ''))) return undefined
      const at = pieces.findIndex((known) => known.size > 0 && texts.every((text) => known.has(plainLabel(text))))
      return ROLES[at]
    },
  }
}
