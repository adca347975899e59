/** Which column of a report that names things counts its errors, and which says passed or failed. */
import { say } from '../../base/index.ts'
import type { ColumnLook } from './columns.ts'
import { describe, type Draft, isOut } from './roles-draft.ts'
import { verdictOf } from '../text/quantity.ts'

/** The count of a report that names things: what its name says, else the one column of whole numbers that could be it. */
export function findCount(draft: Draft, looks: readonly ColumnLook[]): void {
  findStatus(draft, looks)
  if (draft.roles.includes('count') || draft.roles.includes('difference') || draft.roles.includes('expected')) return
  const left = looks.flatMap((look, i) =>
    draft.roles[i] === 'ignore' &&
    look.says === 'quantity' &&
    !isOut(look) &&
    (look.role === undefined || look.role === 'actual')
      ? [i]
      : [],
  )
  const scored = left.map((i) => ({ i, score: countScore(looks[i]) })).toSorted((a, b) => b.score - a.score)
  const [best, second] = scored
  if (best === undefined) {
    if (draft.roles.includes('status')) return
    const share = looks.findIndex(
      (look, i) => draft.roles[i] === 'ignore' && look.role === 'tested' && look.says === 'quantity',
    )
    if (share >= 0) {
      draft.roles[share] = 'count'
      return
    }
    draft.confidence *= 0.5
    draft.why.push(say('There is no count: each row counts as one error.'))
    return
  }
  draft.roles[best.i] = 'count'
  if (second !== undefined && isConstantAbove(looks[second.i], looks[best.i])) {
    draft.roles[second.i] = 'tested'
    draft.why.push(
      say('{looks} is the same in all rows, so it is taken for how many were tested.', {
        looks: describe(looks, second.i),
      }),
    )
  } else if (second !== undefined) {
    draft.confidence *= 0.5
    draft.doubts.push(
      say('the errors are counted by {one} or by {other}', {
        one: describe(looks, best.i),
        other: describe(looks, second.i),
      }),
    )
  }
  draft.confidence *= 0.8
  if (isConstantLarge(looks[best.i]))
    draft.doubts.push(
      say('{looks} is the same large number in every row, which is rather what was tested', {
        looks: describe(looks, best.i),
      }),
    )
  draft.why.push(say('{looks} is taken for the count.', { looks: describe(looks, best.i) }))
}

function findStatus(draft: Draft, looks: readonly ColumnLook[]): void {
  if (draft.roles.includes('status')) return
  const i = looks.findIndex((look, at) => draft.roles[at] === 'ignore' && look.says === 'verdict' && look.distinct <= 4)
  if (i < 0) return
  draft.roles[i] = 'status'
  draft.why.push(say('{looks} says passed or failed.', { looks: describe(looks, i) }))
}

/** Counts of errors are mostly zero with a few large ones; what is the same in all rows, or never zero, is rather something else. */
function countScore(look: ColumnLook | undefined): number {
  if (look === undefined) return 0
  const zeros =
    look.texts.filter((text) => /^0+$/.test(text) || verdictOf(text) === 'pass').length / Math.max(1, look.texts.length)
  return (look.distinct > 1 ? 1 : 0) + (zeros > 0 ? 2 : 0) + (look.texts.some((text) => text.includes('/')) ? 3 : 0)
}

const isConstantLarge = (look: ColumnLook | undefined): boolean =>
  look !== undefined && look.values.length >= 2 && look.distinct === 1 && (look.values[0] ?? 0n) > 255n

function isConstantAbove(large: ColumnLook | undefined, small: ColumnLook | undefined): boolean {
  if (large === undefined || small === undefined || large.distinct !== 1) return false
  return small.values.every((value, i) => value <= (large.values[i] ?? 0n)) && (large.values[0] ?? 0n) > 255n
}
