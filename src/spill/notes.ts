/** In words: how a substance moves on this board, and what the model does not know. */
import { cellAt } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import type { Load } from './film.ts'
import type { SpillMark } from './marks.ts'
import { entryPressurePa, washburnTimeS } from './puddle.ts'
import type { Site } from './site.ts'
import { streakLengthMm } from './streak.ts'
import type { Substance } from './substance.ts'

export function notesOn(
  model: BoardModel,
  site: Site,
  mark: SpillMark,
  substance: Substance,
  load: Load,
  unplacedMm3: number,
): string[] {
  const notes = [howItMoves(substance, site, mark), ...bodyNote(site, mark)]
  if (substance.moves === 'wets') {
    notes.push(
      `It stands ${round(load.maskFilmMm)} mm high on the mask and is counted as spread evenly from where it landed.`,
      ...gapNote(model, substance),
    )
    if (mark.downDeg !== undefined) notes.push(streakNote(streakLengthMm(load, site.behaviour)))
  }
  if (mark.reachesOtherSide) {
    notes.push('It may turn over the edge and through holes of 1 mm and more; masked vias are taken as shut.')
  } else notes.push('The other side is left out: say so in the mark if it could get there.')
  if (unplacedMm3 > 0) notes.push(`${round(unplacedMm3 / 1000)} ml found no place on the board and must have run off.`)
  return notes
}

function howItMoves(substance: Substance, site: Site, mark: SpillMark): string {
  if (substance.moves === 'crust') return 'It dried where it stood and stays: the reach is the area that it covers.'
  if (substance.moves === 'wets' && site.behaviour.bodies === 'wicked')
    return 'It flows, and gaps under bodies draw it in: there it goes further with less.'
  const held = substance.moves === 'pinned' ? 'It stays where it was smeared' : 'It flows, but bodies keep it out'
  return mark.pushMm > 0
    ? `${held}, and was pressed, shaken or wiped up to ${round(mark.pushMm)} mm further, also under bodies.`
    : `${held}; it goes under a body only when pressed, shaken or wiped, and the mark says that it was not.`
}

function bodyNote({ terrain }: Site, mark: SpillMark): string[] {
  const cell = cellAt(terrain.grid, mark.at)
  if (terrain.underBody[cell] !== 1) return []
  return terrain.landing[cell] === cell
    ? ['The point lies on a body: it is counted as having run down and under it there.']
    : ['The point lies on a body that lets nothing under it: it is counted from where it first leaves that body.']
}

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
