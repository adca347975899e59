/** Tables with a column for each lane, channel or part: the headings name places, the cells count. */
import { say } from '../../base/index.ts'
import type { ColumnLook } from './columns.ts'
import type { NameBook } from '../names/names.ts'
import { bitOfHeading } from '../text/quantity.ts'
import type { Column, ColumnRole } from '../recipe.ts'
import { roleSaid } from '../role-words.ts'
import type { Roles } from './roles.ts'

const MOST_ROWS = 64
const NO_LABELS = { part: undefined, channel: undefined, lane: undefined }

/** Columns of such a table, or undefined where it is none. */
export function matrixOf(
  looks: readonly ColumnLook[],
  { book }: { readonly book: NameBook | undefined },
): { columns: Column[]; roles: Pick<Roles, 'confidence' | 'why' | 'swappable' | 'doubts'> } | undefined {
  if (book === undefined) return undefined
  const bits = bitColumns(looks)
  if (bits !== undefined) return bits
  const counted = looks.filter(
    (look) => look.heading !== undefined && book.isName(look.heading) && look.says === 'quantity',
  )
  if (counted.length < 2) return undefined
  const label = looks.find((look) => !counted.includes(look) && (look.label !== undefined || look.laneNames))
  if (label === undefined) return undefined
  const role: ColumnRole = label.label ?? 'lane'
  const meets = (text: string, look: ColumnLook): boolean =>
    (['lane', 'channel', 'part'] as const).some(
      (other) => other !== role && book.place({ ...NO_LABELS, [role]: text, [other]: look.heading }) !== undefined,
    )
  // Parts may have lanes of other names: each column must belong to some row.
  const rows = [...new Set(label.texts)].slice(0, MOST_ROWS)
  if (!counted.every((look) => rows.some((text) => meets(text, look)))) return undefined
  const columns: Column[] = [
    { role, at: label.at, base: 'auto' },
    ...counted.map((look): Column => ({ role: 'count', at: look.at, base: 'decimal', of: look.heading ?? '' })),
  ]
  const why = [
    say('A row for each {role}, and a column for each of {counted}.', {
      role: roleSaid[role],
      counted: counted.map((look) => look.heading).join(', '),
    }),
  ]
  return { columns, roles: { confidence: 1, why, swappable: false, doubts: [] } }
}

/** A row for each lane or channel, and a column for each of its data bits: `DQ0`, `DQ1` … */
function bitColumns(looks: readonly ColumnLook[]): ReturnType<typeof matrixOf> {
  const bits = looks.filter(
    (look) => look.says === 'quantity' && bitOfHeading(look.heading ?? '') !== undefined && !look.isCounter,
  )
  const label = looks.find((look) => look.label === 'lane' || look.label === 'channel')
  const isWhole = bits.length >= FEWEST_BITS && bits.every((look, i) => bitOfHeading(look.heading ?? '') === i)
  if (label?.label === undefined || !isWhole) return undefined
  const columns: Column[] = [
    { role: label.label, at: label.at, base: 'auto' },
    ...bits.map((look): Column => ({ role: 'count', at: look.at, base: 'decimal', of: look.heading ?? '' })),
  ]
  const why = [
    say('A row for each {label}, and a column for each of {bits} data bits.', {
      label: roleSaid[label.label],
      bits: bits.length,
    }),
  ]
  return { columns, roles: { confidence: 1, why, swappable: false, doubts: [] } }
}

const FEWEST_BITS = 8
