/** Roles on their way: what is given to each column so far, and how sure that is. */
import { say } from '../../base/index.ts'
import type { ColumnLook } from './columns.ts'
import type { ColumnRole } from '../recipe.ts'

export interface Draft {
  readonly roles: ColumnRole[]
  confidence: number
  readonly why: string[]
  swappable: boolean
  readonly doubts: string[]
}

/** A field of the object around: it says nothing of this row's own errors. */
export const isInherited = (look: ColumnLook): boolean => typeof look.at === 'string' && look.at.startsWith('^')

/** `Column 3` for the third one, the field's own name for a field. */
export const nameOf = (look: ColumnLook): string =>
  typeof look.at === 'number' ? say('Column {at}', { at: look.at + 1 }) : look.at

/**
 * Indices of columns with numbers that have neither a role nor a heading that gives one, and that may tell of errors.
 */
export const free = (draft: Draft, looks: readonly ColumnLook[]): number[] =>
  looks.flatMap((look, i) =>
    draft.roles[i] === 'ignore' && look.base !== undefined && look.role === undefined && !isOut(look) ? [i] : [],
  )

/** Times, temperatures, running numbers and fields around are never taken for what tells of errors. */
export const isOut = (look: ColumnLook): boolean =>
  look.isOther || look.isCounter || look.says === 'time' || look.says === 'measure' || isInherited(look)

/** The name of column i as people count: from 1; also for one that was not looked at. */
export const describe = (looks: readonly ColumnLook[], i: number): string => {
  const look = looks[i]
  return look === undefined ? say('Column {i}', { i: i + 1 }) : nameOf(look)
}
