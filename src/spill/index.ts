/**
 * In: a board model, substances, marks. Out: the reach field and the probability that each part and region was reached.
 * Refuses: a spill off the board, and a substance without the figures that its way of moving needs.
 */
export * from './area-shape.ts'
export * from './curve.ts'
export * from './engine.ts'
export * from './film.ts'
export * from './march.ts'
export * from './marks.ts'
export * from './puddle.ts'
export { fillPolygon, touchPath } from './raster.ts'
export { spillAssumptions } from './assumptions.ts'
export { evenShare, normalQuantile } from './draws.ts'
export { pressedChance, pressingOf } from './press.ts'
export * from './result.ts'
export * from './rings.ts'
export * from './seeds.ts'
export * from './streak.ts'
export * from './substance.ts'
export * from './substances.ts'
export * from './terrain.ts'
export { UNREPORTED_RADII } from './unreported.ts'
export { usualOf } from './usual.ts'
