/**
 * In: a board model and findings. Out: stories with probabilities, where the spill was, the lift list with its reasons.
 * Refuses: certainty; whatever the model leaves out is named.
 */
export * from './result.ts'
