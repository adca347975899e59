/** What the sheet takes from the shell and what it tells it. Types only. */
import type { Box, Point } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import type { PadRepair } from '../../case/index.ts'
import type { PartTally } from '../../report/index.ts'
import type { AreaManner, AreaMark, Mark, ReachResult } from '../../spill/index.ts'
import type { SuspectsResult } from '../../suspects/index.ts'
import type { ThemeName } from '../look/index.ts'
import type { CameraStore } from './cameraStore.ts'
import type { HeatView, PassView } from './heatView.ts'
import type { ProofLanes } from './pure/proofRegions.ts'
import type { ShortView } from './shortView.ts'

export type Tool =
  | 'select'
  | 'spill'
  | 'residue'
  | 'clean'
  | 'film'
  | 'corrosion'
  | 'dam'
  | 'slip'
  | 'note'
  | 'measure-distance'
  | 'probe'

/** `id` is a part's ref, a rail's name, a lane's, region's or mark's id, or a net's name. */
export interface Selection {
  readonly kind: 'part' | 'rail' | 'lane' | 'region' | 'mark' | 'net'
  readonly id: string
}

export interface Overlays {
  readonly errorLoad: boolean
  readonly reach: boolean
  /** Where the spill probably was. */
  readonly field: boolean
  readonly liftOrder: boolean
  readonly labels: boolean
  /** The passes of the plan in order, with nozzles and whom they expose. */
  readonly passes?: boolean
  /** Isotherms of the pass that is looked at. */
  readonly heat?: boolean
  /** The hunt for a short that is open. */
  readonly short?: boolean
  /** What became of each lane after the work. */
  readonly proof?: boolean
  /** What the reports call packages and lanes, in place of refs. */
  readonly reportNames?: boolean
}

/** Names in place of the board's own: of parts by ref, of lanes by id. */
export interface SheetNames {
  readonly parts: ReadonlyMap<string, string>
  readonly lanes: ReadonlyMap<string, string>
}

/** Two readings of one report, and the refs of the parts that each blames. */
export interface TwoReadings {
  readonly a: readonly string[]
  readonly b: readonly string[]
}

/** What the hand painted in place of a circle: the way of a brush, or a closed line. */
export interface Stroke {
  readonly manner: Exclude<AreaManner, 'circle'>
  readonly points: readonly Point[]
}

/** How areas are painted. */
export interface Painting {
  readonly manner: AreaManner
  /** Half the width of the brush. */
  readonly brushMm: number
}

/** A photo straightened onto its side of the board, seen from the top. */
export interface PhotoView {
  readonly id: string
  readonly side: Side
  /** The board box that the image covers, its first row along `maxY`. */
  readonly box: Box
  readonly image: ImageBitmap
  /** How strongly it shows, 0 to 100. */
  readonly shownPct: number
}

/** A mark as the hand has just drawn it: the shell gives it an id, and a spill its substance, a note its text. */
export type MarkDraft =
  | { readonly kind: 'spill' | 'note'; readonly side: Side; readonly at: Point }
  | {
      readonly kind: AreaMark['kind'] | 'slip'
      readonly side: Side
      readonly at: Point
      readonly radiusMm: number
      readonly stroke?: Stroke
    }
  | { readonly kind: 'dam'; readonly side: Side; readonly path: readonly Point[] }

/** Which part of a mark the hand holds. */
export type MarkGrip = 'move' | 'radius' | 'sd' | 'down' | 'bend'

/** `drag` comes up to once a frame while the hand moves, `drop` once at the end (with the old value after Escape). */
export type DragPhase = 'drag' | 'drop'

export interface SheetProps {
  readonly model: BoardModel
  readonly camera: CameraStore
  readonly theme: ThemeName
  readonly overlays: Overlays
  readonly tallyParts: readonly PartTally[]
  readonly reach: ReachResult | undefined
  readonly suspects: SuspectsResult | undefined
  readonly passes?: readonly PassView[]
  readonly heat?: HeatView | undefined
  readonly proofLanes?: ProofLanes | undefined
  /** The hunt for a short that is open. */
  readonly short?: ShortView | undefined
  readonly names?: SheetNames | undefined
  readonly twoReadings?: TwoReadings | undefined
  /** Ids of lanes that what is in the hand would be given to. */
  readonly aimed?: readonly string[]
  /** Torn pads and the ways of their wires. */
  readonly padRepairs?: readonly PadRepair[] | undefined
  readonly marks: readonly Mark[]
  readonly selection: Selection | undefined
  /** Lit from outside, for example by a row of a list; the sheet's own hover shows without it. */
  readonly hovered: Selection | undefined
  readonly tool: Tool
  /** Circles where left out. */
  readonly painting?: Painting
  /** Photos under the drawing. */
  readonly photos?: readonly PhotoView[]
  /** Name of a substance by its id, for the label of a spill; the id itself where left out. */
  readonly substanceName?: (id: string) => string
  readonly onSelect: (selection: Selection | undefined) => void
  readonly onHover: (hovered: Selection | undefined) => void
  readonly onMarkAdd: (draft: MarkDraft) => void
  /** The mark as the hand has made it, whole: the shell need not work it out again. */
  readonly onMarkEdit: (mark: Mark, grip: MarkGrip, phase: DragPhase) => void
  readonly onMarkRemove?: (id: string) => void
  /** A point was pressed with the probe in hand. */
  readonly onProbe?: (at: Point, side: Side) => void
  /** Something is in the hand that goes to a place of the board: a press puts it there and selects nothing. */
  readonly onPlace?: ((at: Point, side: Side) => void) | undefined
  /** Where the pointer is on the board, for a status line; undefined when it leaves. At most once a frame. */
  readonly onPointAt?: (at: Point | undefined, side: Side) => void
}
