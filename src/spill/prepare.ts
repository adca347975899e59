/** The work that is done once, in slices: radii over the whole board, then a field for each target. */
import type { Load } from './film.ts'
import { markedLevels } from './level-radii.ts'
import type { SpillMark } from './marks.ts'
import { reachLimits } from './reach-limits.ts'
import type { Site } from './site.ts'
import { streakDownDeg } from './spread.ts'
import { createStreakBoard, mapTarget, streakBoardKey } from './streak-board.ts'
import type { BoardTargets } from './targets.ts'

/** Yields the share of the work done, from 0 to 1, after each slice. */
export function* prepareSteps(
  site: Site,
  mark: SpillMark,
  loads: readonly Load[],
  targets: BoardTargets,
): Generator<number, void> {
  const downDeg = streakDownDeg(site, mark)
  const lattice = site.lattice(downDeg)
  const wanted = [...targets.regions, ...targets.corridors, ...targets.bodies.map(({ target }) => target)]
  const steps = lattice.nodes.length + wanted.length
  const levels = markedLevels(loads, downDeg).toReversed()
  const most = loads[loads.length - 1]
  let done = 0
  for (const node of lattice.nodes) {
    for (const level of levels) {
      const load = loads[level]
      if (load !== undefined) lattice.radiusAtNode(node, load)
    }
    yield ++done / steps
  }
  if (most === undefined) return
  const spreading = { load: most, downDeg }
  const board =
    downDeg === undefined
      ? undefined
      : site.streakBoards.get(streakBoardKey(loads, downDeg), () => createStreakBoard(site, loads, downDeg))
  const limits = reachLimits(site, most, board?.streaks)
  for (const target of wanted) {
    site.fields.prepare(target, spreading, limits)
    if (board !== undefined) mapTarget(board, target, site.fields.of(target, { limitMm: Infinity, spreading }))
    yield ++done / steps
  }
}
