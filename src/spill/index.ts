/**
 * In: a board model, substances, marks. Out: the reach field and the probability that each part and region was reached.
 * Refuses: a spill off the board, and a substance without the figures that its way of moving needs.
 */
export * from './marks.ts'
export * from './result.ts'
export * from './substance.ts'
export * from './substances.ts'
