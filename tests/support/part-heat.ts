/** What a pass did to a part that stayed cool, with what a test changes of it. */
import type { PartHeat } from '../../src/heat/index.ts'

export const coolPart = (ref: string, change: Partial<PartHeat> = {}): PartHeat => ({
  ref,
  jointPeakC: 150,
  bodyPeakC: 150,
  aboveLiquidusS: 0,
  maxRampCPerS: 1,
  melts: false,
  overLimit: false,
  bodyLimitC: 260,
  remarks: [],
  ...change,
})
