/** Rows on their way from the text to the tally: one typed array a column, filled, decoded, counted, filled again. */
import type { Row } from './row.ts'

export const BATCH_ROWS = 4096

export interface RowBatch {
  rows: number
  /** Byte address of each row. */
  readonly address: Float64Array
  readonly differenceLow: Int32Array
  readonly differenceHigh: Int32Array
  readonly actualLow: Int32Array
  readonly actualHigh: Int32Array
  /** Errors that the row stands for: 1, and only written where the report has counts. */
  readonly count: Float64Array
  /** Where the row's line begins in the bytes that are being read. */
  readonly start: Int32Array
  /** Only of a batch whose rows all count as 1 error. */
  readonly shared?: SharedMemory
}

/** The memory that a batch's columns lie in (all but count and start), and room in it for counting. */
export interface SharedMemory {
  readonly memory: WebAssembly.Memory
  readonly room: Uint8Array
}

/** An empty batch. A row without a count counts as 1 error; its two halves hold words of up to 64 bits. */
export function newBatch(): RowBatch {
  return {
    rows: 0,
    address: new Float64Array(BATCH_ROWS),
    differenceLow: new Int32Array(BATCH_ROWS),
    differenceHigh: new Int32Array(BATCH_ROWS),
    actualLow: new Int32Array(BATCH_ROWS),
    actualHigh: new Int32Array(BATCH_ROWS),
    count: new Float64Array(BATCH_ROWS).fill(1),
    start: new Int32Array(BATCH_ROWS),
  }
}

/** Adds a row that was read the plain way; the batch must have room. */
export function pushRow(batch: RowBatch, row: Row, start: number): void {
  const i = batch.rows++
  batch.address[i] = row.address
  batch.differenceLow[i] = row.differenceLow
  batch.differenceHigh[i] = row.differenceHigh
  batch.actualLow[i] = row.actualLow
  batch.actualHigh[i] = row.actualHigh
  batch.count[i] = row.count
  batch.start[i] = start
}
