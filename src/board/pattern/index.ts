/** A board from a few numbers, and the pieces that make cards of the usual form. */
export { boardFromPattern, frontPlace, patternUntold } from './board.ts'
export { Canvas, type FilePart } from './canvas.ts'
export * from './card-parts.ts'
export { cardHoles, cardOutline } from './card-shape.ts'
export { type PackagePair, ringChannels } from './channels.ts'
export { boardLikeness } from './likeness.ts'
export { busLimits, type PatternPackage, patternPackages, outlineNamed, packageBits } from './memory-kinds.ts'
export { type CoreEdge, type MemoryRing, ringPlaces, turnedRound } from './memory-ring.ts'
export {
  type BoardPattern,
  type PatternSupply,
  patternLimits,
  usualPattern,
  usualSupplies,
} from './pattern.ts'
export { packageCount, usualCoreMm } from './places.ts'
export { isStack } from './stacks.ts'
export type { PlacedPower, PlacedSupply } from './power.ts'
export { patternRails } from './rails.ts'
