/**
 * In: a board's rails and stages, what people type or a meter says. Out: a verdict a line, whether power is safe, the place
 * of a short. Refuses: a reading that it can't understand; calling a card safe while a line that matters is not measured.
 */
export * from './schema.ts'
export * from './learn.ts'
export { lineKey, lineName, lineWithKind, lineWords } from './line-key.ts'
export * from './line-states.ts'
export * from './lines.ts'
export { type LinePoint, railPoints, stagePoints } from './points.ts'
export { inrushSeconds, longestInrushSeconds } from './inrush.ts'
export * from './order.ts'
export * from './power.ts'
export { measuringRules, type RailUse, stagePointWords, type UsualOhms, usualOhms } from './practice.ts'
export { sayMeasured, sayReading, typedReading } from './say.ts'
export * from './typed.ts'
export * from './verdict.ts'
export * from './scpi/index.ts'
export * from './short/index.ts'
