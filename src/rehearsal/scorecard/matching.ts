/**
 * When a story is the true one. Core and core patch are one family, reported and unreported spills another; die, joints and
 * command joints stay apart, and joints count by their package. A rail is one with its name, a branch with its own.
 */
import type { BoardModel } from '../../board/index.ts'
import type { CauseAt, Story } from '../../suspects/index.ts'
import type { Damage, Truth } from '../simulator/types.ts'

const partOfRegion = (model: BoardModel, at: string): string => model.regionById.get(at)?.part ?? at

function familyOf(model: BoardModel, { kind, at }: Pick<CauseAt, 'kind' | 'at'>): string {
  if (kind === 'core' || kind === 'core-patch') return 'core'
  if (kind === 'spill' || kind === 'unreported-spill') return 'spill'
  if (kind === 'slip') return 'slip'
  if (kind === 'joints' || kind === 'command-joints') return `${kind} ${partOfRegion(model, at)}`
  return `${kind} ${at}`
}

/** A slip that nobody marked can only be told as what it broke: cut tracks, a stage. */
function brokenOf({ kind, ref, at }: Damage): string {
  if (kind !== 'slip') return ''
  return ref === undefined ? `corridor ${at}` : `power-stage ${ref}`
}

const sameSet = (a: ReadonlySet<string>, b: ReadonlySet<string>): boolean =>
  a.size === b.size && [...a].every((each) => b.has(each))

/** What is at fault in so far as it spoils a lane or a line, in each way in which it can be told. */
export function trueStories(model: BoardModel, { damages }: Truth): ReadonlySet<string>[] {
  const atFault = damages.filter(({ lanes, lines }) => lanes.length > 0 || lines.length > 0)
  const plain = new Set(atFault.map((damage) => familyOf(model, damage)))
  if (!plain.has('slip')) return [plain]
  return [plain, new Set(atFault.map((damage) => brokenOf(damage) || familyOf(model, damage)))]
}

/**
 * Whether a story's families of causes are exactly those of one of the truths; how often a family is told does not
 * count.
 */
export const isTrueStory = (model: BoardModel, story: Story, truths: readonly ReadonlySet<string>[]): boolean => {
  const told = new Set(story.causes.map((cause) => familyOf(model, cause)))
  return truths.some((truth) => sameSet(told, truth))
}

const IN_PLACE = ['rail', 'rail-branch', 'corridor', 'slip']

/** The laxer measure: the story takes off exactly what must come off. */
export function liftsTheSame(story: Story, needs: readonly string[]): boolean {
  const lifts = story.causes.flatMap(({ kind, refs }) => (IN_PLACE.includes(kind) ? [] : refs))
  return sameSet(new Set(lifts), new Set(needs))
}
