/** What the sheet is handed to draw of a hunt for a short. Types only. */
import type { Grid, Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'

export interface ShortView {
  /** Of the probes; the copper may lie on any layer. */
  readonly side: Side
  /** Where the current goes in. */
  readonly sourceAt: Point
  readonly readings: readonly { readonly at: Point; readonly refused: boolean }[]
  /** The point that the next reading is typed for, and its name. */
  readonly next: { readonly at: Point; readonly label: string } | undefined
  /** Undefined until the search has answered. */
  readonly field:
    | {
        readonly grid: Grid
        /** Probability a cell. */
        readonly density: Float32Array
        readonly copper: Uint8Array
        /** Undefined while the readings say nothing. */
        readonly best: Point | undefined
      }
    | undefined
}
