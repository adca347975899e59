/**
 * Where the lines between signatures lie. Stated assumptions, not measured facts: the fault-to-signature table they serve
 * is derived from which signals serve which bits (JEDEC graphics memory: DQ per bit; DBI, EDC per byte; command and
 * address per channel; clock, reset and supply per package), and the shares leave room for a second, smaller fault.
 */
export const THRESHOLDS = {
  /** At most this many DQ with at least `nearlyAll` of the bad bits make a `line` (one open or short, or two bridged). */
  lineBits: 2,
  /** Share that counts as "nearly all". */
  nearlyAll: 0.9,
  /** A lane with less than this share of its part's lane errors counts as clean when the kind is chosen. */
  strayShare: 0.05,
  /** Fewer failing rows than this are too few to see a place in: `sparse`. */
  few: 8,
  /** Failing rows per word that the report covers of the part, below which errors over several lanes may be `sparse`… */
  sparseDensity: 0.005,
  /** …if they have at most so many bad bits a row: a package that is cut off reads rubbish, a weak one drops a bit. */
  sparseBitsPerRow: 3,
  /** At most this many rows, columns or addresses of the array with at least `cellShare` of the errors make `cells`… */
  cellGroups: 8,
  cellShare: 0.8,
  /** …if there are at least this many errors to each of them… */
  errorsPerGroup: 4,
  /** …and the report covers at least this many times as many: else it may just have ended early. */
  coveredPerGroup: 4,
  /** Share of bits read 1 (or 0) from which on they are called stuck high (or low). */
  stuckShare: 0.95,
} as const
