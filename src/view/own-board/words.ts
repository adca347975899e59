/** How versions and cards are told. */
import { say } from '../../base/index.ts'
import { dayOf } from '../actions/clock.ts'
import type { BoardVersion } from '../shelf/boardShelf.ts'

export const whenWords = (at: number): string => (at === 0 ? say('day unknown') : dayOf(new Date(at)))

/** Such as `version 3 of 2026-03-14, Mira`. */
export const versionWords = ({ number, at, who }: BoardVersion): string =>
  say('version {number} of {at}{value}', { number, at: whenWords(at), value: who === '' ? '' : `, ${who}` })

export const cardsWords = (cases: number): string =>
  cases === 0 ? say('no card yet') : say('{cases, plural, one {# card} other {# cards}}', { cases })
