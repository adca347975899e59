/**
 * In: a board, marks, a tally, what was judged, and how millimetres come onto a drawing. Out: shapes, words and their
 * places, by meaning: the sheet's canvas and the printed picture draw the same.
 * Refuses: knowing what paints it.
 */
export { outlinesOf } from './area-outline.ts'
export { badgeArcs, badgePlaces } from './badge-places.ts'
export * from './badges.ts'
export * from './free-labels.ts'
export * from './load.ts'
export * from './mark-shapes.ts'
export * from './mark-words.ts'
export * from './palette.ts'
export * from './part-labels.ts'
export * from './region-shapes.ts'
export * from './ring-shapes.ts'
export * from './shape.ts'
