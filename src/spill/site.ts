/** One ground for one substance: its terrain and everything that is marched over it once and kept. */
import type { BoardModel, Side } from '../board/index.ts'
import { createFieldStore, type FieldStore, type Push } from './fields.ts'
import type { Behaviour, Load } from './film.ts'
import { createMarcher, type Marcher } from './march.ts'
import type { DamMark, SpillMark } from './marks.ts'
import { createRadiusLattice, type RadiusLattice } from './radii.ts'
import { pointSeeds, streakSeeds } from './seeds.ts'
import { createShelf, type Shelf } from './shelf.ts'
import type { StreakBoard } from './streak-board.ts'
import { streakEnd, streakLengthMm } from './streak.ts'
import { buildTerrain, type Terrain } from './terrain.ts'

export interface Site {
  /** Layer 0 is the side of the spill. */
  readonly terrain: Terrain
  readonly marcher: Marcher
  readonly behaviour: Behaviour
  /** Present where bodies keep the substance out and it was pushed. */
  readonly push: Push | undefined
  readonly fields: FieldStore
  /** Radii for a board that lay flat, or with this direction down. */
  lattice(downDeg: number | undefined): RadiusLattice
  /** Streaks worked out ahead, by loads and direction. */
  readonly streakBoards: Shelf<StreakBoard>
}

export interface SiteOrder {
  readonly sides: readonly Side[]
  readonly behaviour: Behaviour
  readonly dams: readonly DamMark[]
  readonly pushMm: number
}

const MOST_LATTICES = 4
const MOST_STREAK_BOARDS = 2

export function buildSite(model: BoardModel, order: SiteOrder, cellMm: number): Site {
  const { sides, behaviour, dams } = order
  const ground = { sides, dams, bodies: behaviour.bodies, maskFilmMm: behaviour.filmMm }
  const terrain = buildTerrain(model, { ...ground, cellMm })
  const coarse = buildTerrain(model, { ...ground, cellMm: 2 * cellMm })
  const push = behaviour.bodies === 'kept-out' && order.pushMm > 0 ? buildPush(model, order, cellMm) : undefined
  const lattices = createShelf<RadiusLattice>(MOST_LATTICES)
  return {
    terrain,
    marcher: createMarcher(terrain),
    behaviour,
    push,
    fields: createFieldStore(terrain, push),
    streakBoards: createShelf<StreakBoard>(MOST_STREAK_BOARDS),
    lattice: (downDeg) => {
      const streaks = downDeg !== undefined && behaviour.liquid !== undefined
      return lattices.get(streaks ? String(downDeg) : 'flat', () =>
        createRadiusLattice({
          fine: terrain,
          coarse,
          layer: 0,
          oneCurve: !streaks,
          seeds: (on, at, load) => spillSeeds(on, behaviour, at, load, downDeg),
        }),
      )
    },
  }
}

function buildPush(model: BoardModel, order: SiteOrder, cellMm: number): Push {
  const terrain = buildTerrain(model, {
    sides: order.sides,
    dams: order.dams,
    bodies: 'entered',
    maskFilmMm: order.behaviour.filmMm,
    cellMm,
  })
  return { terrain, marcher: createMarcher(terrain), pushMm: order.pushMm }
}

/** Where the spread starts: the point on a board that lay flat, a streak downhill on one that was mounted. */
export function spillSeeds(
  terrain: Terrain,
  behaviour: Behaviour,
  at: SpillMark['at'],
  load: Load,
  downDeg: number | undefined,
): ReturnType<typeof pointSeeds> {
  if (downDeg === undefined || behaviour.liquid === undefined) return pointSeeds(terrain, 0, at)
  const end = streakEnd(terrain, 0, at, downDeg, streakLengthMm(load, behaviour))
  return streakSeeds(terrain, 0, at, end)
}
