/** Why a pass stands where it does in the order, in one sentence: the strongest reason that holds. */
import { joined, say } from '../../base/index.ts'
import type { Target } from '../input.ts'
import { LIFTED, ON, type OrderProblem, type Pass } from './problem.ts'

/** @param states of the parts just before the pass @param before the pass before it @param later the passes after it */
export function whyHere(
  problem: OrderProblem,
  targets: readonly Target[],
  states: Uint8Array,
  pass: Pass,
  before: Pass | undefined,
  later: readonly Pass[],
): string {
  const name = (parts: readonly number[]): string => joined(parts.map((part) => targets[part]?.ref ?? ''))
  const own = name(pass.members)
  const group = pass.members.length > 1 ? say(' {own} share one nozzle, which saves a heating.', { own }) : ''
  const absent = [...states.keys()].filter((part) => states[part] === LIFTED && !pass.members.includes(part))
  const spared = absent.filter((part) => pass.melts.includes(part))
  if (spared.length > 0)
    return say(
      'Now, while {spared} {count, plural, one {is off: this pass would melt its} other {are off: this pass would melt their}} joints.{group}',
      { spared: name(spared), count: spared.length, group },
    )
  const saviours = pass.action === 'lift' ? threats(problem, states, pass, later) : []
  if (saviours.length > 0)
    return say('Do {own} first: heating {saviours} would melt {count, plural, one {it} other {them}}.{group}', {
      own,
      saviours: name(saviours),
      count: pass.members.length,
      group,
    })
  const waiting = pass.action === 'refit' ? needed(problem, pass) : []
  if (waiting.length > 0)
    return say('Only now: {waiting} had to be off before this site could be cleaned.{group}', {
      waiting: name(waiting),
      group,
    })
  const costly = absent.filter((part) => (pass.harmOn[part] ?? 0) + (pass.harmRefitted[part] ?? 0) > 0)
  if (costly.length > 0)
    return say(
      'Now, while {costly} {count, plural, one {is off and takes} other {are off and take}} no heat from this pass.{group}',
      { costly: name(costly), count: costly.length, group },
    )
  if (before !== undefined && before.side === pass.side && later.some(({ side }) => side !== pass.side))
    return say('On this side still, so that the board is turned over as seldom as can be.{group}', { group })
  if (group !== '') return group.trim()
  if (problem.partCount === 1)
    return pass.action === 'lift'
      ? say('It is the only part on the list.')
      : say('Its site is clean, and nothing else is off.')
  return pass.action === 'lift'
    ? say('Any place among the lifts costs the same: heating it hardly disturbs the others.')
    : say('Its site is clean, and no later place would spare it more heat.')
}

/** Parts that are on now and whose later lift or refit would melt a member. */
function threats(problem: OrderProblem, states: Uint8Array, pass: Pass, later: readonly Pass[]): number[] {
  const found = new Set<number>()
  for (const { members, melts } of later)
    if (melts.some((part) => pass.members.includes(part)))
      for (const member of members) if (states[member] === ON && member < problem.partCount) found.add(member)
  return [...found].filter((part) => !pass.members.includes(part))
}

const needed = (problem: OrderProblem, pass: Pass): number[] => [
  ...new Set(pass.members.flatMap((member) => problem.offBeforeRefit[member] ?? [])),
]
