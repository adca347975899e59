/** What each kind of part is to the rest of the program: one entry a kind, which the compiler asks for. */
import { say } from '../base/index.ts'
import type { PartKind } from './schema.ts'

interface PartKindFacts {
  /** One of them, and several, in words. */
  readonly words: readonly [one: string, several: string]
  /** Figures of work and harm are those of. */
  readonly workedAs: 'core' | 'memory' | 'other'
  /** Has its balls beneath: it goes back on new ones, and stands higher. */
  readonly onBalls: boolean
  /** So many and so plain that they are counted and not named; J-STD-020 says nothing of their heats. */
  readonly small: boolean
  /** Makes the power of others: what harms it harms them. */
  readonly makesPower: boolean
  /** So light that the surface tension of its molten joints holds it: common practice, no source. */
  readonly heldByJoints: boolean
  /** Its height where a layout file has none, mm; typical of surface-mount boards. Common practice, no source. */
  readonly assumedHeightMm: number
}

/** In the order in which they are told and walked: what tells one card from another first, the commonest last. */
export const partKinds = {
  core: {
    words: [say('core'), say('cores')],
    workedAs: 'core',
    onBalls: true,
    small: false,
    makesPower: false,
    heldByJoints: false,
    assumedHeightMm: 2.5,
  },
  memory: {
    words: [say('memory package'), say('memory packages')],
    workedAs: 'memory',
    onBalls: true,
    small: false,
    makesPower: false,
    heldByJoints: false,
    assumedHeightMm: 1.1,
  },
  'power-stage': {
    words: [say('power stage'), say('power stages')],
    workedAs: 'other',
    onBalls: false,
    small: false,
    makesPower: true,
    heldByJoints: false,
    assumedHeightMm: 0.9,
  },
  controller: {
    words: [say('controller'), say('controllers')],
    workedAs: 'other',
    onBalls: false,
    small: false,
    makesPower: true,
    heldByJoints: false,
    assumedHeightMm: 0.9,
  },
  connector: {
    words: [say('connector'), say('connectors')],
    workedAs: 'other',
    onBalls: false,
    small: false,
    makesPower: false,
    heldByJoints: false,
    assumedHeightMm: 8,
  },
  inductor: {
    words: [say('inductor'), say('inductors')],
    workedAs: 'other',
    onBalls: false,
    small: true,
    makesPower: false,
    heldByJoints: false,
    assumedHeightMm: 3,
  },
  other: {
    words: [say('other part'), say('other parts')],
    workedAs: 'other',
    onBalls: false,
    small: true,
    makesPower: false,
    heldByJoints: true,
    assumedHeightMm: 0.8,
  },
  capacitor: {
    words: [say('capacitor'), say('capacitors')],
    workedAs: 'other',
    onBalls: false,
    small: true,
    makesPower: false,
    heldByJoints: true,
    assumedHeightMm: 0.9,
  },
} as const satisfies Record<PartKind, PartKindFacts>

const order = Object.keys(partKinds)

/** @returns the place of a kind in the order of `partKinds`, from 0 */
export const orderOfKind = (kind: PartKind): number => order.indexOf(kind)

/** The one rule of what counts as a small part; a part that the board does not know counts as one. */
export const isSmallKind = (kind: PartKind | undefined): boolean => partKinds[kind ?? 'other'].small
