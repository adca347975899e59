/** The work that is done once, in slices: radii over the whole board, then a field for each target. */
import type { Load } from './film.ts'
import type { SpillMark } from './marks.ts'
import type { Site } from './site.ts'
import { markedLevels } from './spread.ts'
import type { BoardTargets } from './targets.ts'

/** Yields the share of the work done, from 0 to 1, after each slice. */
export function* prepareSteps(
  site: Site,
  mark: SpillMark,
  loads: readonly Load[],
  targets: BoardTargets,
): Generator<number, void> {
  const lattice = site.lattice(mark.downDeg)
  const wanted = [...targets.regions, ...targets.corridors, ...targets.bodies.map(({ target }) => target)]
  const steps = lattice.nodes.length + wanted.length
  const levels = markedLevels(site, mark, loads).reverse()
  let farthest = 0
  let done = 0
  for (const node of lattice.nodes) {
    for (const level of levels) {
      const load = loads[level]
      if (load !== undefined) farthest = Math.max(farthest, lattice.radiusAtNode(node, load))
    }
    yield ++done / steps
  }
  for (const target of wanted) {
    site.fields.of(target, farthest)
    yield ++done / steps
  }
}
