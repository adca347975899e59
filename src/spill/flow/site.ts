/** One ground for one substance: its terrain and what is marched over it. */
import type { BoardModel, Side } from '../../board/index.ts'
import { type AreaFields, createAreaFields } from './fields.ts'
import type { Behaviour, Load } from './film.ts'
import { createMarcher, type Marcher } from '../ground/march.ts'
import type { DamMark, SpillMark } from '../marks.ts'
import { pointSeeds, streakSeeds } from '../ground/seeds.ts'
import { streakEnd, streakLengthMm, streakStart } from './streak.ts'
import { buildTerrain, type Terrain } from '../ground/terrain.ts'

export interface Site {
  /** Layer 0 is the side of the spill. */
  readonly terrain: Terrain
  readonly marcher: Marcher
  readonly behaviour: Behaviour
  readonly areas: AreaFields
  /** The ground over which it is pressed: bodies no longer keep it out. Built when first asked for. */
  pressed(): Pressed
}

export interface Pressed {
  readonly terrain: Terrain
  readonly marcher: Marcher
}

export interface SiteOrder {
  readonly sides: readonly Side[]
  readonly behaviour: Behaviour
  readonly dams: readonly DamMark[]
}

/**
 * The ground of a board for one behaviour, with dams in it. `sides` come in the order of the terrain's layers, the
 * spill's side first; `cellMm` is the edge of a cell.
 */
export function buildSite(model: BoardModel, order: SiteOrder, cellMm: number): Site {
  const { sides, behaviour, dams } = order
  const ground = { sides, dams, bodies: behaviour.bodies, maskFilmMm: behaviour.filmMm, cellMm }
  const terrain = buildTerrain(model, ground)
  let kept: Pressed | undefined
  const pressed = (): Pressed => {
    kept ??= onGround(buildTerrain(model, { ...ground, bodies: 'entered' }))
    return kept
  }
  return { ...onGround(terrain), behaviour, areas: createAreaFields(terrain, pressed), pressed }
}

const onGround = (terrain: Terrain): Pressed => ({ terrain, marcher: createMarcher(terrain) })

/** Where the spread starts: the point on a board that lay flat, a streak downhill on one that was mounted. */
export function spillSeeds(
  terrain: Terrain,
  behaviour: Behaviour,
  at: SpillMark['at'],
  load: Load,
  downDeg: number | undefined,
): ReturnType<typeof pointSeeds> {
  if (downDeg === undefined || behaviour.liquid === undefined) return pointSeeds(terrain, 0, at)
  const from = streakStart(terrain, at)
  return streakSeeds(terrain, 0, from, streakEnd(terrain, 0, from, downDeg, streakLengthMm(load, behaviour)))
}
