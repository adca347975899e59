/** How versions and cards are told. */
import { dayWords, say } from '../../base/index.ts'
import { dayOf } from '../actions/clock.ts'
import type { BoardVersion } from '../shelf/boardShelf.ts'

export const whenWords = (at: number): string => (at === 0 ? say('day unknown') : dayWords(dayOf(new Date(at))))

/** Such as `version 3 of 14 March 2026, Mira`. */
export const versionWords = ({ number, at, who }: BoardVersion): string =>
  who === ''
    ? say('version {number} of {at}', { number, at: whenWords(at) })
    : say('version {number} of {at}, {who}', { number, at: whenWords(at), who })

export const cardsWords = (cases: number): string =>
  cases === 0 ? say('no card yet') : say('{cases, plural, one {# card} other {# cards}}', { cases })
