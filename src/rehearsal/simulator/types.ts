/** What a simulated card is: what really happened to it, what somebody at the bench has seen of it. Types only. */
import type { Point } from '../../base/index.ts'
import type { BoardModel, Side } from '../../board/index.ts'
import type { Measurement } from '../../measure/index.ts'
import type { Recipe, TableRow } from '../../report/index.ts'
import type { AreaMark, SlipMark, SpillMark } from '../../spill/index.ts'
import type { CauseKind, LaneState } from '../../suspects/index.ts'
import type { AccidentKind, Mixture } from './mixture.ts'
import type { Walk } from './walk.ts'

export type Reads = 'high' | 'low' | 'random'

/** How one damage shows in one lane. */
export interface LaneFault {
  readonly lane: string
  /** Data bits of the lane that it spoils. */
  readonly bits: number
  readonly reads: Reads
  /** Share of reads that it spoils: 1 where it is always there. */
  readonly perRead: number
  /** Only in these rows of the array (keys of the walk); everywhere where left out. */
  readonly rows?: ReadonlySet<number>
}

/** One thing that is broken, and what puts it right. */
export interface Damage {
  /** Index into `Truth.causes`. */
  readonly cause: number
  readonly kind: CauseKind
  /** Region, lane, rail, branch or part. */
  readonly at: string
  /** The part whose lifting puts it right; undefined for what is mended in place. */
  readonly ref: string | undefined
  readonly lanes: readonly LaneFault[]
  /** Rails and stages that it puts off, with how badly from 0 to 1. */
  readonly lines: readonly { readonly kind: 'rail' | 'stage'; readonly name: string; readonly severity: number }[]
}

export interface TrueCause {
  readonly kind: AccidentKind
  readonly at: string
  /** Rails, stages and the core: how badly, from 0 to 1. */
  readonly severity?: number
  readonly spill?: TrueSpill
  readonly slip?: { readonly at: Point; readonly side: Side; readonly radiusMm: number }
}

export interface TrueSpill {
  readonly substance: string
  readonly at: Point
  readonly side: Side
  readonly volumeMl: number
  /** Area and push in mm, of what is smeared and pressed rather than poured. */
  readonly smear: { readonly areaCm2: number; readonly pushMm: number } | undefined
  readonly downDeg: number | undefined
  /** Cells that were wetted, on the flow's own grid. */
  readonly wet: WetCells
  readonly regions: readonly string[]
}

export interface WetCells {
  readonly side: Side
  readonly cellMm: number
  readonly columns: number
  readonly rows: number
  readonly minX: number
  readonly minY: number
  readonly cells: Uint8Array
}

export interface Truth {
  readonly causes: readonly TrueCause[]
  readonly damages: readonly Damage[]
  /** Lanes that some damage spoils, whether or not a test shows it. */
  readonly spoiled: readonly string[]
  /** Parts that must come off. */
  readonly needs: readonly string[]
}

/** A report as the bench has it: text to be read, or a table entered by hand. */
export type SimulatedReport =
  | { readonly kind: 'text'; readonly layout: string; readonly text: string; readonly recipe: Recipe | undefined }
  | { readonly kind: 'table'; readonly layout: string; readonly rows: readonly TableRow[] }

export interface Observations {
  readonly report: SimulatedReport
  readonly told: 'accident' | 'no-accident' | 'unknown'
  readonly spills: readonly SpillMark[]
  readonly areas: readonly AreaMark[]
  readonly slips: readonly SlipMark[]
  readonly measurements: readonly Measurement[]
}

export interface SimulatedCard {
  readonly seed: number
  readonly model: BoardModel
  readonly mixture: string
  readonly figures: Mixture['figures']
  readonly truth: Truth
  readonly observations: Observations
  readonly walk: Walk
  /**
   * Outcome of a check of the catalogue after some parts came off; asked again it is the same.
   * @param putRight rails that were gone into and put right (`rail VMEM`); whoever names a list mended in passing what is seen
   */
  readonly outcomeOf: (check: string, at: string, lifted?: readonly string[], putRight?: readonly string[]) => boolean
  /** Cold readings of a line as a meter gives them after some parts came off: a stage with its siblings. */
  readonly measure: (
    line: Measurement['line'],
    lifted?: readonly string[],
    putRight?: readonly string[],
  ) => readonly Measurement[]
  /** What is found under each part that is lifted. */
  readonly lift: (refs: readonly string[]) => readonly FoundUnder[]
  /** Lanes in a test after these parts came off, were put right and refitted. */
  readonly retest: (lifted: readonly string[], putRight?: readonly string[]) => ReadonlyMap<string, LaneState>
  readonly withLeft: (left: readonly Damage[]) => AsLeft
}

/** What checks, readings and tests find while so much is broken. */
export interface AsLeft {
  readonly outcomeOf: (check: string, at: string) => boolean
  readonly measure: (line: Measurement['line']) => readonly Measurement[]
  /** @param name of the run: with the same name a test ends alike */
  readonly test: (name: string) => ReadonlyMap<string, LaneState>
}

export interface FoundUnder {
  readonly ref: string
  /** Something that spoils a lane or a rail was found and put right. */
  readonly atFault: boolean
  /** Regions of it that a spill had reached. */
  readonly wet: readonly string[]
  readonly kinds: readonly CauseKind[]
}
