/** Looks along the edges of bodies: residue where something was wet, unless it dried clear; now and then something else. */
import type { Random } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { AreaMark, SpillMark } from '../../spill/index.ts'
import { type LookPlace, lookPlaces } from '../../suspects/index.ts'
import { chance } from './draw.ts'
import { isWetNear } from './flow.ts'
import type { Mixture } from './mixture.ts'
import type { TrueCause } from './types.ts'

/** Places where a look makes sense, as long as nobody has looked. */
export const edgesToLook = (model: BoardModel, spills: readonly SpillMark[]): LookPlace[] =>
  lookPlaces(model, {
    lanes: new Map(),
    signatures: new Map(),
    spills,
    areas: [],
    slips: [],
    rails: new Map(),
  })

/** Whether any spill on that side really wetted ground within the mark's radius. */
export const isWetAt = (causes: readonly TrueCause[], { mark }: LookPlace): boolean =>
  causes.some(({ spill }) => spill?.side === mark.side && isWetNear(spill.wet, mark.at, mark.radiusMm))

export interface Looker {
  readonly model: BoardModel
  readonly mixture: Mixture
  readonly random: Random
}

/**
 * What somebody saw along some of the edges worth a look: residue or clean, each right with a stated chance. None
 * where nobody looked.
 */
export function drawLooks(
  { model, mixture, random }: Looker,
  causes: readonly TrueCause[],
  spills: readonly SpillMark[],
) {
  const { figures } = mixture
  if (!chance(random, figures.looked)) return []
  return edgesToLook(model, spills)
    .filter(() => chance(random, figures.edgeLooked))
    .map((place): AreaMark => {
      const seen = chance(random, isWetAt(causes, place) ? figures.residueSeen : figures.residueSeenElsewhere)
      return { ...place.mark, kind: seen ? 'residue' : 'clean' }
    })
}
