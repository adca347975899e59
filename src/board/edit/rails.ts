/** Adds, renames and changes rails: voltage, ranges, what makes them, what they feed, where a probe reaches them. */
import { bad, good, type Result, say } from '../../base/index.ts'
import type { BoardDescription, Rail } from '../schema.ts'
import type { EditOf } from './edits.ts'
import { partsNamed, railNamed, roundMm, withRail } from './look-up.ts'
import { withFields } from './parts.ts'
import { railWithout } from './references.ts'

const taken = (name: string): Result<never> =>
  bad({ path: name, found: say('a rail of that name'), expected: say('a name that no rail has') })

const hasRail = (board: BoardDescription, name: string): boolean => board.rails.some((rail) => rail.name === name)

/** Adds a rail. Refuses a name that is taken, and refs that no part has. */
export function addRail(board: BoardDescription, { rail }: EditOf<'add-rail'>): Result<BoardDescription> {
  if (hasRail(board, rail.name)) return taken(rail.name)
  const parts = partsNamed(board, [...rail.feeds, ...rail.stages])
  return parts.ok ? good({ ...board, rails: [...board.rails, rail] }) : parts
}

/** Takes a rail away; the parts stay. */
export function removeRail(board: BoardDescription, { rail }: EditOf<'remove-rail'>): Result<BoardDescription> {
  const found = railNamed(board, rail)
  return found.ok ? good({ ...board, rails: board.rails.filter((each) => each !== found.value) }) : found
}

/** Gives a rail another name. Refuses one that is taken. */
export function renameRail(board: BoardDescription, { rail, to }: EditOf<'rename-rail'>): Result<BoardDescription> {
  if (rail !== to && hasRail(board, to)) return taken(to)
  return changed(board, rail, (before) => good(rail === to ? before : { ...before, name: to }))
}

/** Changes nominal voltage in V, tolerance in percent and reference ranges; null takes one away. Refuses a range upside down. */
export function changeRail(board: BoardDescription, { rail, change }: EditOf<'change-rail'>): Result<BoardDescription> {
  const { ohmsToGround: ohms, diodeToGround: diode } = change
  if (ohms != null && ohms.lowOhm > ohms.highOhm)
    return bad({
      path: rail,
      found: say('{lowOhm} to {highOhm} ohm', { lowOhm: ohms.lowOhm, highOhm: ohms.highOhm }),
      expected: say('the lower figure first'),
    })
  if (diode != null && diode.lowV > diode.highV)
    return bad({
      path: rail,
      found: say('{lowV} to {highV} V', { lowV: diode.lowV, highV: diode.highV }),
      expected: say('the lower figure first'),
    })
  return changed(board, rail, (before) => good(withFields(before, change)))
}

/** Says that a rail feeds parts, or that it does not. */
export function feed(board: BoardDescription, { rail, refs, fed }: EditOf<'feed'>): Result<BoardDescription> {
  return withParts(board, rail, refs, (before) => {
    if (fed) return { ...before, feeds: [...new Set([...before.feeds, ...refs])] }
    const without = railWithout(before, new Set(refs))
    return { ...without, stages: before.stages, points: before.points }
  })
}

/** Says that power stages or regulators make a rail, or that they do not. */
export function make(board: BoardDescription, { rail, refs, makes }: EditOf<'make'>): Result<BoardDescription> {
  return withParts(board, rail, refs, (before) => ({
    ...before,
    stages: makes ? [...new Set([...before.stages, ...refs])] : before.stages.filter((ref) => !refs.includes(ref)),
  }))
}

/** Sets what a branch of a rail feeds; parts that the rail did not feed are fed then. No refs take the branch away. */
export function branch(board: BoardDescription, { rail, name, refs }: EditOf<'branch'>): Result<BoardDescription> {
  return withParts(board, rail, refs, (before) => {
    const others = before.branches.filter((each) => each.name !== name)
    if (refs.length === 0) return { ...before, branches: others }
    return {
      ...before,
      feeds: [...new Set([...before.feeds, ...refs])],
      branches: [...others, { name, feeds: [...new Set(refs)] }],
    }
  })
}

/** Adds a point where a probe reaches the rail. Refuses a part that is not there. */
export function addPoint(board: BoardDescription, { rail, point }: EditOf<'add-point'>): Result<BoardDescription> {
  const at = { x: roundMm(point.at.x), y: roundMm(point.at.y) }
  return withParts(board, rail, point.part === undefined ? [] : [point.part], (before) => ({
    ...before,
    points: [...before.points, { ...point, at }],
  }))
}

/** Moves a probe point to a place in mm. Refuses an index that the rail does not have. */
export function movePoint(
  board: BoardDescription,
  { rail, index, at }: EditOf<'move-point'>,
): Result<BoardDescription> {
  const there = { x: roundMm(at.x), y: roundMm(at.y) }
  return withPoint(board, rail, index, (before) => ({
    ...before,
    points: before.points.map((point, i) => (i === index ? { ...point, at: there } : point)),
  }))
}

/** Takes a probe point away. Refuses an index that the rail does not have. */
export function removePoint(
  board: BoardDescription,
  { rail, index }: EditOf<'remove-point'>,
): Result<BoardDescription> {
  return withPoint(board, rail, index, (before) => ({
    ...before,
    points: before.points.filter((_, i) => i !== index),
  }))
}

function changed(
  board: BoardDescription,
  name: string,
  change: (rail: Rail) => Result<Rail>,
): Result<BoardDescription> {
  const rail = railNamed(board, name)
  if (!rail.ok) return rail
  const next = change(rail.value)
  if (!next.ok) return next
  return good(next.value === rail.value ? board : withRail(board, name, next.value))
}

function withParts(
  board: BoardDescription,
  rail: string,
  refs: readonly string[],
  change: (rail: Rail) => Rail,
): Result<BoardDescription> {
  const parts = partsNamed(board, refs)
  return parts.ok ? changed(board, rail, (before) => good(change(before))) : parts
}

const withPoint = (
  board: BoardDescription,
  rail: string,
  index: number,
  change: (rail: Rail) => Rail,
): Result<BoardDescription> =>
  changed(board, rail, (before) =>
    before.points[index] === undefined
      ? bad({
          path: rail,
          found: say('no probe point {index}', { index: index + 1 }),
          expected: say('one of its {points}', { points: before.points.length }),
        })
      : good(change(before)),
  )
