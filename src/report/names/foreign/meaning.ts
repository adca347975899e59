/** What a name that is not the board's stands for: a package, a channel, a lane, or several lanes such as half a package. */
import { say } from '../../../base/index.ts'
import { z } from 'zod'
import type { BoardModel } from '../../../board/index.ts'
import { plainLabel } from '../labels.ts'

export const meaningSchema = z
  .union([z.string().min(1).max(120), z.array(z.string().min(1).max(120)).min(2).max(64)])
  .describe('the ref of a part or the id of a channel or lane of the board; or the ids of several lanes')
export type Meaning = z.infer<typeof meaningSchema>

export const foreignNamesSchema = z
  .record(z.string().min(1).max(80), meaningSchema)
  .describe('what foreign names mean on a board')
/** What a report calls things, and what the board calls them. */
export type ForeignNames = Readonly<z.infer<typeof foreignNamesSchema>>

/** Ids of the lanes that a meaning covers; none where the board does not have it. */
export function lanesOfMeaning(model: BoardModel, meaning: Meaning): readonly string[] {
  if (typeof meaning !== 'string') return meaning.every((id) => model.laneById.has(id)) ? meaning : []
  if (model.laneById.has(meaning)) return [meaning]
  const channel = model.channelById.get(meaning)
  if (channel !== undefined) return channel.lanes
  return model.lanes.filter((lane) => lane.part === meaning).map((lane) => lane.id)
}

/** The one package that a meaning lies in; undefined where it has several or none. */
function partOfMeaning(model: BoardModel, meaning: Meaning): string | undefined {
  const parts = new Set(lanesOfMeaning(model, meaning).map((id) => model.laneById.get(id)?.part))
  return parts.size === 1 ? [...parts][0] : undefined
}

/** The coarsest single thing that these lanes are: a whole package, a channel, a lane; else the lanes themselves. */
export function meaningOfLanes(model: BoardModel, lanes: readonly string[]): Meaning {
  const same = (other: readonly string[]): boolean =>
    other.length === lanes.length && other.every((id) => lanes.includes(id))
  const part = model.memories.find(({ ref }) => same(lanesOfMeaning(model, ref)))
  if (part !== undefined) return part.ref
  const channel = model.channels.find((one) => same(one.lanes))
  return channel?.id ?? (lanes.length === 1 ? (lanes[0] ?? '') : [...lanes])
}

/** `U14`, `half of U14 (A0, A1)`, `U14.B1`: for people. */
export function sayMeaning(model: BoardModel, meaning: Meaning): string {
  if (typeof meaning === 'string' && !model.channelById.has(meaning)) return meaning
  const lanes = lanesOfMeaning(model, meaning)
  const part = partOfMeaning(model, meaning)
  const names = lanes.map((id) => (part === undefined ? id : (model.laneById.get(id)?.name ?? id))).join(', ')
  const id = typeof meaning === 'string' ? `${meaning}: ` : ''
  if (part === undefined) return `${id}${names}`
  const all = lanesOfMeaning(model, part).length
  return 2 * lanes.length === all ? say('{id}half of {part} ({names})', { id, part, names }) : `${id}${part} (${names})`
}

/** What a name can be given to on a package: all of it, its halves, its lanes; each place once. */
export function sharesOf(model: BoardModel, ref: string): { readonly label: string; readonly meaning: Meaning }[] {
  const lanes = lanesOfMeaning(model, ref)
  const shares = [lanes]
  for (const count of [2, lanes.length]) {
    const size = lanes.length / count
    if (count > 1 && Number.isInteger(size) && !shares.some((share) => share.length === size))
      for (let i = 0; i < count; i++) shares.push(lanes.slice(i * size, (i + 1) * size))
  }
  return shares.map((own) => {
    const meaning = meaningOfLanes(model, own)
    return { label: sayMeaning(model, meaning), meaning }
  })
}

/** Names as the report spells them: `c3 LOW` that somebody typed is its `C3 low`. */
export function plainNames(placed: ForeignNames, spelled: readonly string[]): ForeignNames {
  const own = new Map(spelled.map((name) => [plainLabel(name), name]))
  return Object.fromEntries(
    Object.entries(placed).map(([name, meaning]) => [own.get(plainLabel(name)) ?? name, meaning]),
  )
}
