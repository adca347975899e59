/** In words: how a substance moves on this board, and what the model does not know. */
import { cellAt, percent } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
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
  const areaWords = `${(direct.areaMm2 / 100).toFixed(1)} cm²`
  const wholeMm = direct.radiusMm.toFixed(1)
  if (site.behaviour.bodies === 'wicked') {
    const about = mark.downDeg === undefined ? '' : ' to each side of where it ran down'
    return `It spreads ${wholeMm} mm${about} and covers ${areaWords}.`
  }
  const held = heldWords(substance)
  if (substance.moves === 'crust') return `${held}: ${areaWords}, ${wholeMm} mm around its middle.`
  const smearMm = (direct.radiusMm - direct.pushMm).toFixed(1)
  if (direct.pushMm > 0) {
    return `It lay ${smearMm} mm around its middle and was pressed about ${round(direct.pushMm)} mm further, also under bodies: ${areaWords} in all.`
  }
  const still = `${held}: ${areaWords}, ${smearMm} mm around its middle.`
  const chance = pressedChance(mark, substance)
  if (chance === 0) return still
  return `${still} Whether a cooler was pressed on it is not known: counted as ${percent(chance)} likely, then about ${round(pushIfPressedMm(mark, substance))} mm further, also under bodies.`
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
      `It stands ${round(load.maskFilmMm)} mm high on the mask and is counted as spread evenly from where it landed.`,
      ...gapNote(model, substance),
    )
    if (site.behaviour.clingsMm3 !== undefined) notes.push(clingNote(site.behaviour.clingsMm3))
    if (mark.downDeg !== undefined) notes.push(streakNote(streakLengthMm(load, site.behaviour)))
  }
  if (site.behaviour.bodies === 'wicked') {
    notes.push(
      `Of ten gaps that it comes to, one or two are taken as shut by flux, glue or dirt (${percent(spillAssumptions.shutGapChance.value)}, an assumption): no part with a gap is called certain.`,
    )
  }
  if (mark.reachesOtherSide) {
    notes.push('It may turn over the edge and through holes of 1 mm and more; masked vias are taken as shut.')
  } else notes.push('The other side is left out: say so in the mark if it could get there.')
  if (unplacedMm3 > 0) notes.push(`${round(unplacedMm3 / 1000)} ml found no place on the board and must have run off.`)
  return notes
}

function howItMoves(substance: Substance, site: Site, mark: SpillMark): string {
  if (substance.moves === 'crust') return 'It dried where it stood and stays: the reach is the area that it covers.'
  if (site.behaviour.bodies === 'wicked')
    return 'It flows, and gaps under bodies draw it in: there it goes further with less.'
  const held = heldWords(substance)
  const chance = pressedChance(mark, substance)
  if (chance === 0)
    return `${held}; it goes under a body only when pressed, shaken or wiped, and the mark says that it was not.`
  const { pushMm, pushSdLog } = pressingOf(substance)
  const spreadWords = `by about ${round(pushMm)} mm (two out of three times ${round(pushMm * Math.exp(-pushSdLog))} to ${round(pushMm * Math.exp(pushSdLog))} mm)`
  const far = mark.pushMm > 0 ? `up to ${round(mark.pushMm)} mm further` : `further ${spreadWords}`
  return chance === 1
    ? `${held}, and was pressed, shaken or wiped ${far}, also under bodies.`
    : `${held}. Nobody said whether something pressed it: with a chance of ${percent(chance)} it went ${far}, also under bodies; else it is under none.`
}

function bodyNote({ terrain }: Site, mark: SpillMark): string[] {
  const cell = cellAt(terrain.grid, mark.at)
  if (terrain.underBody[cell] !== 1) return []
  return terrain.landing[cell] === cell
    ? ['The point lies on a body: it is counted as having run down and under it there.']
    : ['The point lies on a body that lets nothing under it: it is counted from where it first leaves that body.']
}

const clingNote = (clingsMm3: number): string =>
  `This side faced down: at most ${round(clingsMm3 / 1000)} ml clings as one drop, and what is more drips off, unless a gap draws it in first.`

const streakNote = (lengthMm: number): string =>
  `The card was mounted: half of it is taken to run down ${round(lengthMm)} mm at most, unless something stops it. That share is an assumption.`

function gapNote(model: BoardModel, substance: Substance): string[] {
  const part = model.memories[0] ?? model.core
  const { viscosityPaS, surfaceTensionNM, contactAngleMaskDeg } = substance
  if (!part || part.standoffMm <= 0 || !viscosityPaS || !surfaceTensionNM || !contactAngleMaskDeg) return []
  if (contactAngleMaskDeg.value >= 90) {
    const pressurePa = entryPressurePa(surfaceTensionNM.value, contactAngleMaskDeg.value, part.standoffMm)
    return [`It takes ${round(pressurePa)} Pa to press it into the ${round(part.standoffMm)} mm under ${part.ref}.`]
  }
  const lengthMm = Math.min(part.widthMm, part.lengthMm)
  const liquid = {
    viscosityPaS: viscosityPaS.value,
    surfaceTensionNM: surfaceTensionNM.value,
    contactAngleDeg: contactAngleMaskDeg.value,
  }
  const seconds = washburnTimeS(liquid, lengthMm, part.standoffMm)
  return [
    `The gap under ${part.ref} draws it in over ${round(lengthMm)} mm within about ${round(seconds)} s (balls slow it down, up to 60 % were seen).`,
  ]
}

/** Two figures that count. */
const round = (value: number): string =>
  value >= 100 ? String(Math.round(value)) : String(Number(value.toPrecision(2)))
