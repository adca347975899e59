/** What the heat room answers. Types only. Temperatures in °C, times in s, lengths in mm. */
import type { Grid } from '../base/index.ts'
import type { Side } from '../board/index.ts'

/** How one pass is driven: preheat from below, then hot air on one spot. */
export interface HeatSetting {
  readonly side: Side
  /** Temperature of the air or plate under the board, and how long it acts before the hot air starts. */
  readonly preheatC: number
  readonly preheatS: number
  readonly airC: number
  /** Air starts at `fromC` and reaches `airC` evenly after `overS`; at `airC` from the start where left out. */
  readonly airRamp?: { readonly fromC: number; readonly overS: number } | undefined
  readonly airS: number
  readonly nozzle: { readonly name: string; readonly shape: 'round' | 'square'; readonly sizeMm: number }
  /** Middle of the nozzle on the board. */
  readonly at: { readonly x: number; readonly y: number }
  /** The patch that the preheater covers; the whole board where left out. */
  readonly preheater?:
    | {
        readonly at: { readonly x: number; readonly y: number }
        readonly widthMm: number
        readonly lengthMm: number
      }
    | undefined
  /** Neighbours under tape or a heat sink. */
  readonly shields: readonly { readonly ref: string; readonly kind: 'tape' | 'heat-sink' }[]
}

export interface PartHeat {
  readonly ref: string
  /** Of its hottest joint; of its coldest in `coldestJointPeakC`. */
  readonly jointPeakC: number
  readonly coldestJointPeakC?: number
  readonly bodyPeakC: number
  /** Of its hottest joint; of its coldest in `coldestAboveLiquidusS`. */
  readonly aboveLiquidusS: number
  readonly coldestAboveLiquidusS?: number
  /** Seconds from the start of the run until every joint is liquid; undefined where that never comes. */
  readonly liquidFromS?: number | undefined
  readonly maxRampCPerS: number
  /** Its joints become molten somewhere. */
  readonly melts: boolean
  /** A package with balls whose joints get hot enough to crack, though they do not melt. */
  readonly mayCrack?: boolean
  /** Where they may: from how many °C. */
  readonly cracksFromC?: number
  /** Its body passes the limit that it has by J-STD-020 or by the board file. */
  readonly overLimit: boolean
  readonly bodyLimitC: number
  /** Words for people: what is wrong and by how much; empty when nothing is. */
  readonly remarks: readonly string[]
}

export interface HeatRun {
  readonly setting: HeatSetting
  readonly grid: Grid
  /** Board temperature at each kept moment, row by row from the lower left; NaN off the board. */
  readonly frames: readonly { readonly timeS: number; readonly boardC: Float32Array }[]
  /** Hottest joint of the part at each step, and its coldest where `coldestC` is there. */
  readonly curves: readonly {
    readonly ref: string
    readonly timeS: Float32Array
    readonly jointC: Float32Array
    readonly coldestC?: Float32Array
  }[]
  readonly parts: readonly PartHeat[]
  /** Energy in, stored and lost over the run, J: the balance that is checked. */
  readonly energy: { readonly inJ: number; readonly storedJ: number; readonly lostJ: number }
  /** Stated defaults and assumptions that were used. */
  readonly notes: readonly string[]
}

/** What the joints of a pass's targets are to reach and may not pass, °C. */
export interface JointWindow {
  readonly coldestLeastC: number
  readonly hottestMostC: number
}

/** What one pass on a target does to every other part: what the plan weighs. */
export interface Exposure {
  /** Its ref; several that are lifted in the one pass stand one after the other. */
  readonly target: string
  readonly setting: HeatSetting
  readonly minutes: number
  /** Seconds of air after which every joint of the targets is liquid; undefined where that never comes. */
  readonly liftFromS?: number | undefined
  readonly joints?: JointWindow | undefined
  readonly neighbours: readonly PartHeat[]
  /** Where the air of the lift stands at its limit, a sentence. */
  readonly short?: string | undefined
  /** The pass that puts the targets on again, which has a window of its own; where left out, as the lift. */
  readonly refit?: RefitHeat | undefined
}

export interface RefitHeat {
  readonly setting: HeatSetting
  readonly minutes: number
  readonly joints?: JointWindow | undefined
  readonly neighbours: readonly PartHeat[]
  /** Where the usual window or the lift's nozzle can't be had: what is had instead, in sentences. */
  readonly short?: string | undefined
}
