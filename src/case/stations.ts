/** The ten stations of a visit, in the order in which a card goes through them. */
export const stations = [
  'arrival',
  'cold-measuring',
  'powered-measuring',
  'memory-run',
  'inspection',
  'spill',
  'suspects',
  'plan',
  'proof',
  'hand-back',
] as const
export type Station = (typeof stations)[number]
