/**
 * In: board files, package outlines, KiCad layouts. Out: a checked board model with regions, corridors and a decoder.
 * Refuses: a board with any fault; nothing is half loaded.
 */
export * from './addresses/map.ts'
export * from './model.ts'
export * from './schema.ts'
