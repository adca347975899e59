/**
 * In: a board model, equipment, a target. Out: temperatures over time, the setting that lifts the target, who else gets hot.
 * Refuses: a setting that the equipment can't give, and limits that contradict each other.
 */
export * from './result.ts'
