/**
 * In: plain numbers, points, text. Out: geometry, hatch, free places, rasters, GF(2) algebra, seeded random numbers, faults with a path,
 * numbers as they are typed and said.
 * Refuses: nothing here knows a board, a screen, a clock or unseeded chance.
 */
export * from './errors.ts'
export * from './free-places.ts'
export * from './geometry.ts'
export * from './gf2.ts'
export * from './grid.ts'
export * from './hatch.ts'
export * from './homography.ts'
export * from './json.ts'
export * from './markup.ts'
export {
  type Catalogue,
  NO_SOURCE,
  say,
  sayData,
  sayName,
  sayParts,
  SHOWN_FIELDS,
  spacedName,
  speak,
  type Speech,
  speech,
  spoken,
} from './message.ts'
export * from './manner.ts'
export { okabeIto } from './okabe-ito.ts'
export * from './overrides.ts'
export * from './random.ts'
export * from './resample.ts'
export * from './round.ts'
export * from './say.ts'
export * from './typed-number.ts'
export * from './languages.ts'
export * from './look-ahead.ts'
