/** The lift list as work: which of its parts get new ones in their place, and the chance that the card works once all is done. */
import type { Weighed } from '../tell/weighed.ts'
import { poseTree } from './pose.ts'
import { startOf } from './problem.ts'
import { successOf } from './success.ts'
import { newPartsFor } from './tree.ts'

export interface AtTheBench {
  /** The card was washed and dried. */
  readonly washed: boolean
  /** Refs that are or were off, whether or not they are on the list. */
  readonly off: readonly string[]
}

export interface ListWork {
  readonly replaced: ReadonlySet<string>
  /** See `successOf`; what was spilled is washed off first. */
  readonly works: number
}

export function workOnList(weighed: Weighed, lift: readonly string[], { washed, off }: AtTheBench): ListWork {
  const all = [...new Set([...lift, ...off])]
  const { problem } = poseTree(weighed, washed, all)
  const listed = problem.parts.reduce((bits, { ref }, at) => (lift.includes(ref) ? bits | (1 << at) : bits), 0)
  const fresh = newPartsFor(problem, { ...startOf(problem), off: listed, hot: true })
  const replaced = problem.parts.flatMap(({ ref }, at) => (((fresh >> at) & 1) === 1 ? [ref] : []))
  const reballed = all.filter((ref) => !replaced.includes(ref))
  const works = successOf(problem, { washed: weighed.spills.length > 0 && !washed, reballed, replaced })
  return { replaced: new Set(replaced), works }
}
