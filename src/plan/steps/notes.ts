/** What the technician should know of the plan as a whole, in sentences. */
import { decimals, joined, percent, say, someOf } from '../../base/index.ts'
import { minutesToMoney } from '../../suspects/index.ts'
import { replaceMoney, reuseMoney } from '../bench-work.ts'
import { groupCandidates } from '../order/groups.ts'
import { harmOf, heatCountOf, isChip } from '../order/harm.ts'
import { byRef, type CheckedInput } from '../input.ts'
import { gluedToLift, tearChance } from './unglue.ts'
import type { Walk } from '../order/walk.ts'

const MOST_NAMED = 8

/**
 * Sentences in the order in which they matter: parts beyond their heat count, counts that nobody knows, groups that
 * did not work out, dear neighbours, parts that hang. The last says that the risk is a guess.
 */
export function notesOf(checked: CheckedInput, walk: Walk): string[] {
  return [
    ...tearing(checked),
    ...beyondLimit(checked, walk),
    ...unknownCounts(checked),
    ...failedGroups(checked),
    ...unsolvedGroups(checked),
    ...dearNeighbours(checked, walk),
    ...hanging(checked, walk),
    say('The risk to neighbours is a stated guess: it ranks the orders and is no forecast for one card.'),
  ]
}

function beyondLimit({ targets, settings }: CheckedInput, walk: Walk): string[] {
  const limit = settings.heat.heatLimit
  const over = targets.filter(
    ({ ref }, index) => !walk.replaced.has(index) && (walk.heatCounts.get(ref)?.after ?? 0) > limit,
  )
  if (over.length === 0) return []
  const names = joined(over.map(({ ref }) => ref))
  return [
    say(
      "{names} {count, plural, one {ends beyond {limit} melts: packages are classed for three (J-STD-020), so using it} other {end beyond {limit} melts: packages are classed for three (J-STD-020), so using them}} again is the shop's own risk.",
      { names, count: over.length, limit },
    ),
  ]
}

/** What glue may do at the lift, said with its chance. */
function tearing(checked: CheckedInput): string[] {
  const glued = gluedToLift(checked)
  if (glued.length === 0) return []
  const whole = glued.reduce((share, part) => share * (1 - tearChance(part, checked.settings)), 1)
  return [
    say(
      '{glued} {count, plural, one {is} other {are}} glued: a pad comes off with a chance of about {percent} (stated, no source); it is in the chance of success.',
      {
        glued: joined(glued.map(({ ref }) => ref)),
        count: glued.length,
        percent: percent(1 - whole),
      },
    ),
  ]
}

function unknownCounts({ targets, input, settings }: CheckedInput): string[] {
  const unknown = targets.filter(
    ({ ref, part }) => !input.heatCounts?.has(ref) && part.description.heatCount === undefined,
  )
  if (unknown.length === 0) return []
  return [
    say('How often {unknown} melted before is not known; {unknownHeatCount} times is taken.', {
      unknown: joined(unknown.map(({ ref }) => ref)),
      unknownHeatCount: settings.heat.unknownHeatCount,
    }),
  ]
}

function failedGroups({ input }: CheckedInput): string[] {
  const failed = input.groupsThatFail ?? []
  if (failed.length === 0) return []
  return [
    say(
      'One nozzle would cover {failed}, but no setting of this equipment lifts them together inside of every limit.',
      { failed: namedGroups(failed) },
    ),
  ]
}

function unsolvedGroups({ input, settings }: CheckedInput): string[] {
  if (input.nozzles === undefined) return []
  const solved = new Set(
    [...(input.groups ?? []).map(({ refs }) => refs), ...(input.groupsThatFail ?? [])].map(nameOfGroup),
  )
  const missing = groupCandidates(input.model, input.lift, input.nozzles, settings)
    .map(({ refs }) => refs)
    .filter((refs) => !solved.has(nameOfGroup(refs)))
  if (missing.length === 0) return []
  return [
    say('One nozzle would cover {missing}, but no heat was solved for that, so it was not considered.', {
      missing: namedGroups(missing),
    }),
  ]
}

const nameOfGroup = (refs: readonly string[]): string => refs.toSorted(byRef).join(' with ')

function namedGroups(groups: readonly (readonly string[])[]): string {
  const said = (refs: readonly string[]): string =>
    refs.toSorted(byRef).reduce((first, next) => say('{first} with {next}', { first, next }))
  return someOf(groups.map(said), MOST_NAMED)
}

/** Parts that are not on the list and suffer more than their own lift and refit would cost. */
function dearNeighbours(checked: CheckedInput, { passes }: Walk): string[] {
  const { input, settings, targets } = checked
  const own = new Set(targets.map(({ ref }) => ref))
  const harm = new Map<string, number>()
  for (const { detail } of passes) {
    const { side } = detail.heat.setting
    for (const heat of detail.heat.neighbours) {
      const part = input.model.partByRef.get(heat.ref)
      if (part === undefined || own.has(heat.ref)) continue
      const heatCount = heatCountOf(part, input.heatCounts, settings)
      harm.set(heat.ref, (harm.get(heat.ref) ?? 0) + harmOf({ part, heat, side, heatCount }, settings))
    }
  }
  const dear = [...harm].filter(([ref, money]) => {
    const part = input.model.partByRef.get(ref)
    if (part === undefined) return false
    const handling = 2 * minutesToMoney(settings.minutes.handleOther, settings)
    return money > handling + Math.min(reuseMoney(part, settings), replaceMoney(part, settings))
  })
  return dear
    .toSorted((a, b) => b[1] - a[1])
    .slice(0, MOST_NAMED)
    .map(([ref, money]) =>
      say(
        '{ref} is not on the list, but the passes expose it to harm worth {money}: shield it, use a smaller nozzle, or consider lifting it too.',
        { ref, money: decimals(money, 2) },
      ),
    )
}

/** Parts that hang below a pass and melt there. */
function hanging({ input }: CheckedInput, { passes }: Walk): string[] {
  const below = new Set<string>()
  for (const { detail } of passes) {
    const { setting, neighbours } = detail.heat
    for (const { ref, melts } of neighbours) {
      const part = input.model.partByRef.get(ref)
      if (melts && part !== undefined && part.side !== setting.side && !isChip(part)) below.add(ref)
    }
  }
  if (below.size === 0) return []
  const named = [...below].toSorted(byRef)
  return [
    say(
      '{named} {count, plural, one {hangs} other {hang}} on the other side and may melt: support or shield them, for a molten part that hangs can shift or fall.',
      { named: someOf(named, MOST_NAMED), count: below.size },
    ),
  ]
}
