/**
 * In: a board model, a camera store, what was found and computed, the marks. Out: the drawn sheet, and what the hand did.
 * Refuses: computing reach or suspects, and changing a mark; it only tells the shell.
 */
export type { ShownSide } from './pure/camera.ts'
export { type CameraStore, createCameraStore } from './cameraStore.ts'
export { type PartStep } from './pure/nextPart.ts'
export type {
  DragPhase,
  MarkDraft,
  MarkGrip,
  Overlays,
  Painting,
  PhotoView,
  Selection,
  SheetNames,
  SheetProps,
  Tool,
  TwoReadings,
} from './props.ts'
export { pointOnBoard } from './pure/onBoard.ts'
export { movedMark } from './pure/handles.ts'
export { areaOfDraft } from './pure/stroke.ts'
export { exposureKinds, type ExposedPart, type ExposureKind, type HeatView, type PassView } from './heatView.ts'
export { exposureShapes } from './draw/exposure.ts'
export { proofStrokes } from './draw/proof.ts'
export { type ProofKind, proofKinds, type ProofLanes } from './pure/proofRegions.ts'
export type { ShortView } from './shortView.ts'
export { isothermLevels } from './pure/isotherms.ts'
export { Sheet } from './Sheet.tsx'
