/**
 * In: plain numbers, points, text. Out: geometry, rasters, GF(2) algebra, seeded random numbers, faults with a path,
 * numbers as they are typed and said.
 * Refuses: nothing here knows a board, a screen, a clock or unseeded chance.
 */
export * from './errors.ts'
export * from './geometry.ts'
export * from './gf2.ts'
export * from './grid.ts'
export * from './homography.ts'
export * from './json.ts'
export * from './markup.ts'
export * from './overrides.ts'
export * from './random.ts'
export * from './resample.ts'
export * from './round.ts'
export * from './say.ts'
export * from './typed-number.ts'
