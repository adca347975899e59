/**
 * In: a board's rails and stages, what people type or a meter says. Out: a verdict a line, whether power is safe, the place
 * of a short. Refuses: a reading that it can't understand; calling a card safe while a line that matters is not measured.
 */
export * from './schema.ts'
export * from './line-states.ts'
export * from './short/index.ts'
