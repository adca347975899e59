/** In words: how a substance moves on this board, and what the model does not know. */
import { cellAt, decimals, percent, say } from '../base/index.ts'
import { type BoardModel, standsOnBoard } from '../board/index.ts'
import { spillAssumptions } from './assumptions.ts'
import type { DirectReach } from './sum/direct.ts'
import type { Load } from './flow/film.ts'
import type { SpillMark } from './marks.ts'
import { pressedChance, pressingOf, pushIfPressedMm } from './flow/press.ts'
import { entryPressurePa, washburnTimeS } from './flow/puddle.ts'
import type { Site } from './flow/site.ts'
import { streakLengthMm } from './flow/streak.ts'
import type { Substance } from './substance/substance.ts'
import { waysOfMoving } from './substance/ways-of-moving.ts'

export interface Noted {
  readonly model: BoardModel
  readonly site: Site
  readonly mark: SpillMark
  readonly substance: Substance
  readonly load: Load
  readonly direct: DirectReach
}

/** One sentence or two: how far it lies about its point, in figures that fit the way it moves. */
export function extentWords({ site, mark, substance, direct }: Noted): string {
  const areaWords = say('{areaMm2} cm²', { areaMm2: decimals(direct.areaMm2 / 100, 1) })
  const wholeMm = decimals(direct.radiusMm, 1)
  if (site.behaviour.bodies === 'wicked') {
    const about = mark.downDeg === undefined ? '' : say(' to each side of where it ran down')
    return say('It spreads {wholeMm} mm{about} and covers {areaWords}.', { wholeMm, about, areaWords })
  }
  const held = heldWords(substance)
  if (substance.moves === 'crust')
    return say('{held}: {areaWords}, {wholeMm} mm around its middle.', { held, areaWords, wholeMm })
  const smearMm = decimals(direct.radiusMm - direct.pushMm, 1)
  if (direct.pushMm > 0) {
    return say(
      'It lay {smearMm} mm around its middle and was pressed about {pushMm} mm further, also under bodies: {areaWords} in all.',
      { smearMm, pushMm: round(direct.pushMm), areaWords },
    )
  }
  const still = say('{held}: {areaWords}, {smearMm} mm around its middle.', { held, areaWords, smearMm })
  const chance = pressedChance(mark, substance)
  if (chance === 0) return still
  return say(
    '{still} Whether a cooler was pressed on it is not known: counted as {chance} likely, then about {pushMm} mm further, also under bodies.',
    { still, chance: percent(chance), pushMm: round(pushIfPressedMm(mark, substance)) },
  )
}

const heldWords = ({ moves }: Substance): string => waysOfMoving[moves].held

/**
 * What a technician should know of this reach, one sentence each: how it moves, where it landed, what the figures
 * rest on (amounts in ml, lengths in mm), and what was left out.
 */
export function notesOn({ model, site, mark, substance, load, direct: { unplacedMm3 } }: Noted): string[] {
  const notes = [howItMoves(substance, site, mark), ...bodyNote(site, mark)]
  if (waysOfMoving[substance.moves].isLiquid) {
    notes.push(
      say('It stands {maskFilmMm} mm high on the mask and is counted as spread evenly from where it landed.', {
        maskFilmMm: round(load.maskFilmMm),
      }),
      ...gapNote(model, substance),
    )
    if (site.behaviour.clingsMm3 !== undefined) notes.push(clingNote(site.behaviour.clingsMm3))
    if (mark.downDeg !== undefined) notes.push(streakNote(streakLengthMm(load, site.behaviour)))
  }
  if (site.behaviour.bodies === 'wicked') {
    notes.push(
      say(
        'Of ten gaps that it comes to, one or two are taken as shut by flux, glue or dirt ({chance}, an assumption): no part with a gap is called certain.',
        { chance: percent(spillAssumptions.shutGapChance.value) },
      ),
    )
  }
  if (mark.reachesOtherSide) {
    notes.push(say('It may turn over the edge and through holes of 1 mm and more; masked vias are taken as shut.'))
  } else notes.push(say('The other side is left out: say so in the mark if it could get there.'))
  if (unplacedMm3 > 0)
    notes.push(say('{ml} ml found no place on the board and must have run off.', { ml: round(unplacedMm3 / 1000) }))
  return notes
}

function howItMoves(substance: Substance, site: Site, mark: SpillMark): string {
  if (substance.moves === 'crust')
    return say('It dried where it stood and stays: the reach is the area that it covers.')
  if (site.behaviour.bodies === 'wicked')
    return say('It flows, and gaps under bodies draw it in: there it goes further with less.')
  const held = heldWords(substance)
  const chance = pressedChance(mark, substance)
  if (chance === 0)
    return say('{held}; it goes under a body only when pressed, shaken or wiped, and the mark says that it was not.', {
      held,
    })
  const { pushMm, pushSdLog } = pressingOf(substance)
  const spreadWords = say('by about {pushMm} mm (two out of three times {least} to {most} mm)', {
    pushMm: round(pushMm),
    least: round(pushMm * Math.exp(-pushSdLog)),
    most: round(pushMm * Math.exp(pushSdLog)),
  })
  const far =
    mark.pushMm > 0
      ? say('up to {pushMm} mm further', { pushMm: round(mark.pushMm) })
      : say('further {spreadWords}', { spreadWords })
  return chance === 1
    ? say('{held}, and was pressed, shaken or wiped {far}, also under bodies.', { held, far })
    : say(
        '{held}. Nobody said whether something pressed it: with a chance of {chance} it went {far}, also under bodies; else it is under none.',
        { held, chance: percent(chance), far },
      )
}

function bodyNote({ terrain }: Site, mark: SpillMark): string[] {
  const cell = cellAt(terrain.grid, mark.at)
  if (terrain.underBody[cell] !== 1) return []
  return terrain.landing[cell] === cell
    ? [say('The point lies on a body: it is counted as having run down and under it there.')]
    : [say('The point lies on a body that lets nothing under it: it is counted from where it first leaves that body.')]
}

const clingNote = (clingsMm3: number): string =>
  say(
    'This side faced down: at most {ml} ml clings as one drop, and what is more drips off, unless a gap draws it in first.',
    { ml: round(clingsMm3 / 1000) },
  )

const streakNote = (lengthMm: number): string =>
  say(
    'The card was mounted: half of it is taken to run down {lengthMm} mm at most, unless something stops it. That share is an assumption.',
    { lengthMm: round(lengthMm) },
  )

function gapNote(model: BoardModel, substance: Substance): string[] {
  const part = model.memories.find(standsOnBoard) ?? model.core
  const { viscosityPaS, surfaceTensionNM, contactAngleMaskDeg } = substance
  if (!part || part.standoffMm <= 0 || !viscosityPaS || !surfaceTensionNM || !contactAngleMaskDeg) return []
  if (contactAngleMaskDeg.value >= 90) {
    const pressurePa = entryPressurePa(surfaceTensionNM.value, contactAngleMaskDeg.value, part.standoffMm)
    return [
      say('It takes {pressurePa} Pa to press it into the {standoffMm} mm under {ref}.', {
        pressurePa: round(pressurePa),
        standoffMm: round(part.standoffMm),
        ref: part.ref,
      }),
    ]
  }
  const lengthMm = Math.min(part.widthMm, part.lengthMm)
  const liquid = {
    viscosityPaS: viscosityPaS.value,
    surfaceTensionNM: surfaceTensionNM.value,
    contactAngleDeg: contactAngleMaskDeg.value,
  }
  const seconds = washburnTimeS(liquid, lengthMm, part.standoffMm)
  return [
    say(
      'The gap under {ref} draws it in over {lengthMm} mm within about {seconds} s (balls slow it down, up to 60 % were seen).',
      { ref: part.ref, lengthMm: round(lengthMm), seconds: round(seconds) },
    ),
  ]
}

/** Two figures that count. */
const round = (value: number): string =>
  value >= 100 ? String(Math.round(value)) : String(Number(value.toPrecision(2)))
