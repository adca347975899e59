/** How a substance stands and moves on a board: film height, what it does at a body's rim, how much of it there is. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { hangingVolumeMm3 } from './hanging.ts'
import type { SpillMark } from '../marks.ts'
import { meanDropHeightMm, puddleHeightMm } from './puddle.ts'
import type { Substance } from '../substance/substance.ts'
import type { BodyRule } from '../ground/terrain.ts'

export interface Behaviour {
  readonly bodies: BodyRule
  /** Height in mm on bare mask, far from any rim. */
  readonly filmMm: number
  /** Present where it flows by itself: a mounted board makes a streak, a small amount stands as a drop. */
  readonly liquid: { readonly capillaryLengthMm: number; readonly contactAngleDeg: number } | undefined
  /** Present where the side faced down: the most in mm³ that clings as a drop; the rest drips off. */
  readonly clingsMm3?: number
}

/** An amount of substance: V in mm³ and the height in mm at which it stands on bare mask. */
export interface Load {
  readonly volumeMm3: number
  readonly maskFilmMm: number
}

/**
 * How the substance behaves, or a fault for each figure that its way of moving needs and that is missing.
 * @param hangs the side that it is on faced down
 */
export function behaviourOf(substance: Substance, hangs = false): Result<Behaviour> {
  switch (substance.moves) {
    case 'wets':
      return wettingBehaviour(substance, hangs)
    case 'pinned':
    case 'crust':
      return heldBehaviour(substance)
    default:
      return substance.moves satisfies never
  }
}

function wettingBehaviour(substance: Substance, hangs: boolean): Result<Behaviour> {
  const { surfaceTensionNM, densityKgM3, contactAngleMaskDeg } = substance
  if (!surfaceTensionNM || !densityKgM3 || !contactAngleMaskDeg) {
    const figures = { surfaceTensionNM, densityKgM3, contactAngleMaskDeg }
    const missing = Object.entries(figures).filter(([, figure]) => figure === undefined)
    return bad(...missing.map(([name]) => missingFigure(substance, name)))
  }
  const filmMm = puddleHeightMm(surfaceTensionNM.value, densityKgM3.value, contactAngleMaskDeg.value)
  const lying: Behaviour = {
    bodies: contactAngleMaskDeg.value < 90 ? 'wicked' : 'kept-out',
    filmMm,
    liquid: {
      capillaryLengthMm: filmMm / (2 * Math.sin((contactAngleMaskDeg.value * Math.PI) / 360)),
      contactAngleDeg: contactAngleMaskDeg.value,
    },
  }
  return good(hangs ? clinging(lying) : lying)
}

/**
 * Below a ceiling gravity makes no puddle: it pulls the drop narrower than a spherical cap of the same angle, so the cap's mean
 * height is a lower bound and the area an upper one.
 */
function clinging(lying: Behaviour): Behaviour {
  const { liquid } = lying
  if (liquid === undefined) return lying
  const clingsMm3 = hangingVolumeMm3(liquid.capillaryLengthMm, liquid.contactAngleDeg)
  return { ...lying, clingsMm3, filmMm: meanDropHeightMm(clingsMm3, Infinity, liquid.contactAngleDeg) }
}

function heldBehaviour(substance: Substance): Result<Behaviour> {
  const filmMm = substance.filmThicknessMm?.value
  if (substance.moves === 'crust') return good({ bodies: 'entered', filmMm: filmMm ?? 1, liquid: undefined })
  if (filmMm === undefined) return bad(missingFigure(substance, 'filmThicknessMm'))
  return good({ bodies: 'kept-out', filmMm, liquid: undefined })
}

/** The same substance standing at another contact angle in degrees (what flows) or film thickness in mm (what is held). */
export function standingOf(behaviour: Behaviour, figure: number): Behaviour {
  const { liquid } = behaviour
  if (liquid === undefined) return { ...behaviour, filmMm: figure }
  const filmMm = 2 * liquid.capillaryLengthMm * Math.sin((figure * Math.PI) / 360)
  const lying = { ...behaviour, filmMm, liquid: { ...liquid, contactAngleDeg: figure } }
  return behaviour.clingsMm3 === undefined ? lying : clinging(lying)
}

/** What an amount comes to, times `factor`: a smear covers its area at the film height, a volume stands as it can. */
export function loadOf(
  amount: SpillMark['amount'],
  substance: Substance,
  behaviour: Behaviour,
  factor = 1,
): Result<Load> {
  const { filmMm, liquid } = behaviour
  if ('smearCm2' in amount) return good({ volumeMm3: amount.smearCm2 * 100 * filmMm * factor, maskFilmMm: filmMm })
  if (substance.moves === 'crust' && substance.filmThicknessMm === undefined) {
    return bad(
      missingFigure(substance, 'filmThicknessMm', say('State the crust as a smear in cm², or add its thickness.')),
    )
  }
  const volumeMm3 = Math.min(amount.volumeMl * 1000 * factor, behaviour.clingsMm3 ?? Infinity)
  const maskFilmMm = liquid === undefined ? filmMm : meanDropHeightMm(volumeMm3, filmMm, liquid.contactAngleDeg)
  return good({ volumeMm3, maskFilmMm })
}

function missingFigure(substance: Substance, field: string, todo?: string): Fault {
  return {
    path: `$.substances.${substance.id}.${field}`,
    found: say('nothing'),
    expected: say('a figure with its source: a substance that moves as "{moves}" needs it here', {
      moves: substance.moves,
    }),
    ...(todo === undefined ? {} : { todo }),
  }
}
