/** What each way of moving means: one entry a way, which the compiler asks for. */
import { say } from '../../base/index.ts'
import type { Moves } from './substance.ts'

interface WayOfMoving {
  /** In a choice of the user: it … */
  readonly words: string
  /** What holds it, as a sentence about a spill begins. */
  readonly held: string
  /** Wet, as cautions about liquids mean it. */
  readonly isLiquid: boolean
  /** A cooler that is pressed on pushes it further. */
  readonly isPushed: boolean
  /** Leaves traces that conduct like metal and eat into it. */
  readonly leavesMetal: boolean
  /** What harm it does, unless its resistivity says that it conducts like metal. */
  readonly harm: 'liquid' | 'crust'
  /** How much there usually is, where a substance brings no figures of its own. */
  readonly usualAmount: { readonly volumeMl: number } | { readonly smearCm2: number }
}

export const waysOfMoving = {
  wets: {
    words: say('flows and creeps'),
    held: say('It flows, but bodies keep it out'),
    isLiquid: true,
    isPushed: false,
    leavesMetal: false,
    harm: 'liquid',
    usualAmount: { volumeMl: 0.4 },
  },
  pinned: {
    words: say('stays until pushed'),
    held: say('It stays where it was smeared'),
    isLiquid: false,
    isPushed: true,
    leavesMetal: true,
    harm: 'liquid',
    usualAmount: { smearCm2: 1.5 },
  },
  crust: {
    words: say('dried'),
    held: say('It dried where it stood'),
    isLiquid: false,
    isPushed: false,
    leavesMetal: false,
    harm: 'crust',
    usualAmount: { smearCm2: 1.5 },
  },
} as const satisfies Record<Moves, WayOfMoving>
