/** Roles on their way: what is given to each column so far, and how sure that is. */
import type { ColumnLook } from './columns.ts'
import type { ColumnRole } from './recipe.ts'

export interface Draft {
  readonly roles: ColumnRole[]
  confidence: number
  readonly why: string[]
  swappable: boolean
  readonly doubts: string[]
}

/** A field of the object around: it says nothing of this row's own errors. */
export const isInherited = (look: ColumnLook): boolean => typeof look.at === 'string' && look.at.startsWith('^')

export const nameOf = (look: ColumnLook): string => (typeof look.at === 'number' ? `Column ${look.at + 1}` : look.at)

export const free = (draft: Draft, looks: readonly ColumnLook[]): number[] =>
  looks.flatMap((look, i) =>
    draft.roles[i] === 'ignore' && look.base !== undefined && look.role === undefined && !isOut(look) ? [i] : [],
  )

/** Times, temperatures, running numbers and fields around are never taken for what tells of errors. */
export const isOut = (look: ColumnLook): boolean =>
  look.isOther || look.isCounter || look.says === 'time' || look.says === 'measure' || isInherited(look)

export const describe = (looks: readonly ColumnLook[], i: number): string => {
  const look = looks[i]
  return look === undefined ? `Column ${i + 1}` : nameOf(look)
}
