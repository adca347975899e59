/** What a hunt for a short comes to. Lengths in mm, voltages in mV. Types only. */
import type { Grid, Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'

/** `drawn` in the board description, or `assumed` as one plane under the rail's parts. */
export type CopperFrom = 'drawn' | 'assumed'

export interface ProbePlace {
  readonly at: Point
  /** Part and pad, or the place in words. */
  readonly label: string
}

export interface NextProbe extends ProbePlace {
  /** Expected information about the place, nats: mutual information of place and reading. */
  readonly nats: number
  /** Area that holds 90 %, now and as it is expected after the reading, mm2. */
  readonly areaNowMm2: number
  readonly areaAfterMm2: number
  /** Root of the expected variance of the place after the reading. */
  readonly sdAfterMm: number
  /** Whether a reading there is expected to tell anything to speak of. */
  readonly worthwhile: boolean
  readonly why: string
}

export interface ReadingFit {
  readonly at: Point
  readonly millivolt: number
  /** Of the best place, with offset and scale fitted; undefined where the point is not on the copper. */
  readonly expectedMillivolt: number | undefined
  /** Difference over its standard deviation. */
  readonly deviation: number | undefined
  /** Why it is left out, in a sentence. */
  readonly refused: string | undefined
}

export interface SuspectPart {
  readonly ref: string
  /** Probability that the short is in it, if it is in one part of the rail and all were equally likely before. */
  readonly share: number
  /** Probability of the copper under it and close around it, whatever else lies there. */
  readonly mass: number
}

/**
 * `too-few`: under two readings on the copper. `weak`: the current is too small to tell places apart. `flat`: readings
 * that hardly differ where most places would make them differ. `no-fit`: no single short explains them.
 */
export type ShortVerdict = 'too-few' | 'weak' | 'flat' | 'no-fit' | 'place'

export interface ShortAnswer {
  readonly hunt: string
  readonly rail: string
  readonly side: Side
  readonly verdict: ShortVerdict
  /** Plain sentences, the finding first. */
  readonly said: readonly string[]
  readonly grid: Grid
  /** Probability a cell, row by row from the lower left; 0 off the copper. */
  readonly density: Float32Array
  /** 1 where the copper is that was reckoned with. */
  readonly copper: Uint8Array
  readonly copperFrom: CopperFrom
  readonly sheetMilliohm: number
  /** By how much the copper resists more than that, as the readings have it. */
  readonly scale: number
  readonly best: Point
  readonly mean: Point
  /** Root of the variance of the place about its mean. */
  readonly sdMm: number
  /** Of the circle about the best place that holds 90 %. */
  readonly radius90Mm: number
  /** Of the smallest area that holds 90 %, and the least probability of a cell in it. */
  readonly area90Mm2: number
  readonly level90: number
  readonly readings: readonly ReadingFit[]
  readonly fit: { readonly chiSquare: number; readonly freedom: number; readonly tail: number } | undefined
  readonly parts: readonly SuspectPart[]
  readonly places: readonly ProbePlace[]
  readonly next: NextProbe | undefined
}
