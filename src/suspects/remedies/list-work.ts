/** The lift list as work: which of its parts get new ones in their place, and the chance that the card works once all is done. */
import type { Weighed } from '../tell/weighed.ts'
import { type AtTheBench, poseTree } from './pose.ts'
import { startOf } from './problem.ts'
import { successOf } from './success.ts'
import { newPartsFor } from './tree.ts'

export interface ListWork {
  readonly replaced: ReadonlySet<string>
  /** See `successOf`; what was spilled is washed off first. */
  readonly works: number
}

/**
 * Poses the decision tree's question with the listed parts and those that were lifted before: which of the list get
 * new ones, by ref, and how surely the card works after all of it.
 */
export function workOnList(weighed: Weighed, lift: readonly string[], bench: AtTheBench): ListWork {
  const all = [...new Set([...lift, ...bench.lifted])]
  const { problem } = poseTree(weighed, bench, all)
  const listed = problem.parts.reduce((bits, { ref }, at) => (lift.includes(ref) ? bits | (1 << at) : bits), 0)
  const fresh = newPartsFor(problem, { ...startOf(problem), off: listed, hot: true })
  const replaced = problem.parts.flatMap(({ ref }, at) => (((fresh >> at) & 1) === 1 ? [ref] : []))
  const reballed = all.filter((ref) => !replaced.includes(ref))
  const works = successOf(problem, { washed: weighed.spills.length > 0 && !bench.washed, reballed, replaced })
  return { replaced: new Set(replaced), works }
}
