/** What the sheet is handed to draw of heat and of the rework plan. Types only. */
import type { Grid } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { HeatSetting } from '../../heat/index.ts'

/** How a part that is not the target comes off in a pass, the worst first; each has its own shape on sheet and panel. */
export const exposureKinds = ['over-limit', 'melts', 'near'] as const
export type ExposureKind = (typeof exposureKinds)[number]

export interface ExposedPart {
  readonly ref: string
  readonly kind: ExposureKind
  readonly peakC: number
  /** Of a package whose joints get so hot that they may crack: from how many °C. */
  readonly cracksFromC?: number | undefined
}

/** One moment of one pass. */
export interface HeatView {
  readonly setting: HeatSetting
  readonly targets: readonly string[]
  readonly grid: Grid
  /** Row by row from the lower left; NaN off the board. */
  readonly boardC: Float32Array
  /** Isotherms that are drawn, the same at every moment of a run. */
  readonly levelsC: readonly number[]
  /** From here on the target's joints are molten: that isotherm is drawn heavier. */
  readonly liquidusC: number
  readonly exposed: readonly ExposedPart[]
}

/** One heating of the plan, as the sheet shows it among the others. */
export interface PassView {
  /** Its number in the plan. */
  readonly n: number
  readonly refs: readonly string[]
  readonly side: Side
  readonly setting: HeatSetting
  readonly exposed: readonly ExposedPart[]
  /** Pointed at in the list: its footprint is drawn heavier. */
  readonly lit: boolean
}
