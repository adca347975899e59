/** A card of which nothing was entered, for tests that enter one thing. */
import type { Entered } from '../../src/case/index.ts'

export const nothingEntered: Entered = {
  marks: [],
  tally: undefined,
  substances: [],
  assumptions: undefined,
  measurements: [],
  goodReadings: [],
  checks: [],
}
