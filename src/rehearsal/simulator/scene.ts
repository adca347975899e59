/** What an accident is drawn with, and what it leaves. Types only. */
import type { Random } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Mixture } from './mixture.ts'
import type { Damage, TrueCause } from './types.ts'
import type { Walk } from './walk.ts'

export interface Scene {
  readonly model: BoardModel
  readonly seed: number
  readonly mixture: Mixture
  readonly walk: Walk
  readonly random: Random
}

export interface Accident {
  readonly cause: TrueCause
  readonly damages: readonly Omit<Damage, 'cause'>[]
}
