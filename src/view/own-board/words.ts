/** How versions and cards are told. */
import { counted } from '../../base/index.ts'
import { dayOf } from '../actions/clock.ts'
import type { BoardVersion } from '../shelf/boardShelf.ts'

export const whenWords = (at: number): string => (at === 0 ? 'day unknown' : dayOf(new Date(at)))

/** Such as `version 3 of 2026-03-14, Mira`. */
export const versionWords = ({ number, at, who }: BoardVersion): string =>
  `version ${number} of ${whenWords(at)}${who === '' ? '' : `, ${who}`}`

export const cardsWords = (cases: number): string => (cases === 0 ? 'no card yet' : counted(cases, 'card'))
