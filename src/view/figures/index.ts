/** Numbers that say how they were worked out. */
export { Figured, FiguredText } from './Figured.tsx'
export type { Figure } from './figure.ts'
export { Reasons } from './Reasons.tsx'
export { isWashTold, WashMayDo } from './WashMayDo.tsx'
