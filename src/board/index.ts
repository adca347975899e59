/**
 * In: board files, package outlines, layouts and other data files. Out: a checked board model with regions, corridors and a decoder.
 * Refuses: a board with any fault; nothing is half loaded.
 */
export { checkAddressing } from './addresses/check.ts'
export * from './addresses/fair-split.ts'
export * from './addresses/learn/index.ts'
export * from './addresses/map.ts'
export * from './addresses/one-to-one.ts'
export * from './model.ts'
export { isSmallKind, orderOfKind, partKinds } from './part-kinds.ts'
export * from './schema.ts'
export { type Ball, ballsOf, patchOf } from './ball-field.ts'
export { deriveModel } from './derive.ts'
export {
  type BoardComparison,
  compareBoards,
  type MovedPart,
  NOTHING_CHANGED,
  sayComparison,
  turnWords,
} from './compare.ts'
export * from './edit/index.ts'
export { boardJsonSchema } from './json-schema.ts'
export { type NamedBall, readBalls } from './formats/balls.ts'
export type { BoardFormat } from './formats/pieces.ts'
export { boardFormatOf } from './formats/tell.ts'
export { type BoardDataFile, importBoard, type BoardImportOptions } from './formats/import.ts'
export { importKicad, type KicadCounts, type KicadImport, type KicadImportOptions } from './kicad/import.ts'
export { type BoardImport } from './layout/describe.ts'
export { stacksOn, standsOnBoard } from './lanes.ts'
export { boardFaults, loadBoard, readBoard } from './load.ts'
export { type PackageOutline, packageOutlineSchema, type PackageRegion } from './package-outline.ts'
export { packageOutlines } from './packages.ts'
export * from './pattern/index.ts'
export { hullOf } from './polygons.ts'
export { boardRemarks, partsWithoutSupply } from './remarks.ts'
