/** What a report comes to: error counts per part, channel, lane and bit, and what kind of failure each part shows. Types only. */

export type SignatureKind = 'clean' | 'line' | 'byte' | 'channel' | 'package' | 'cells' | 'sparse'

export interface Signature {
  readonly kind: SignatureKind
  /** Where: the lane, bit or channel that the kind speaks of, in words of the board (`U13.A0 bit 3`). */
  readonly where: string
  /** The numbers that decided, each with its name, so that a reader can check (`share in one DQ` 0.98). */
  readonly numbers: readonly { readonly name: string; readonly value: number }[]
  /** Reads come back 1 (`high`), 0 (`low`), or either; undefined where the report does not say. */
  readonly stuck: 'high' | 'low' | 'both' | undefined
  readonly sentence: string
}

export interface LaneTally {
  readonly id: string
  /** Failing rows in which the lane has at least one bad bit, or the count that the report gives for the lane. */
  readonly errors: number
  /** Errors per data bit of the lane; all zero where the report does not go down to bits. */
  readonly bits: readonly number[]
  /** Of those, how often a 0 was read as 1, and a 1 as 0. */
  readonly high: readonly number[]
  readonly low: readonly number[]
  /** `untested` where the report does not cover the lane. */
  readonly state: 'fail' | 'pass' | 'untested'
}

export interface ChannelTally {
  readonly id: string
  readonly lanes: readonly LaneTally[]
  /** Failing rows in the channel, those that the report does not place in a lane included. */
  readonly errors?: number
}

/** How the failing rows of a part spread over the cells of its array; only from rows with addresses. */
export interface CellSpread {
  /** Failing rows with an address. */
  readonly failingRows: number
  /** Of those, how many were looked at: all of them, or a fair sample of at most 2048 a channel. */
  readonly sampled: number
  /** Different failing addresses among those. */
  readonly addresses: number
  /** Words of 4 bytes that the part holds between the lowest mapped address and the highest in the report. */
  readonly coveredWords: number
  /** Rows, columns and single addresses with the most failures; estimated from the sample, most first, at most 16. */
  readonly mostRows: readonly CellCount[]
  readonly mostColumns: readonly CellCount[]
  readonly mostAddresses: readonly CellCount[]
  /** How many rows and columns of the part the covered addresses touch, as far as 4096 probes tell (a lower bound). */
  readonly coveredRows: number
  readonly coveredColumns: number
}

export interface CellCount {
  /** Such as `channel 7 bank 3 row 0x1a2`. */
  readonly name: string
  readonly errors: number
}

export interface PartTally {
  readonly ref: string
  /** Failing rows that touch the part, those that the report does not place in a lane included. */
  readonly errors: number
  readonly signature: Signature
  readonly channels: readonly ChannelTally[]
  readonly cells?: CellSpread
}

export interface Tally {
  readonly rows: {
    readonly read: number
    readonly unreadable: number
    readonly unmapped: number
    readonly skipped: number
  }
  /** The first few rows that could not be read or mapped, with line numbers from 1. */
  readonly troubles: readonly { readonly line: number; readonly text: string; readonly why: string }[]
  /** `words`: address with expected and actual; `labels`: lane, channel or part with counts; `table`: entered by hand. */
  readonly level: 'words' | 'labels' | 'table'
  readonly parts: readonly PartTally[]
}
