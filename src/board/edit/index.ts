/**
 * In: a board description and edits as data. Out: the board after them with undo and redo, where parts come to rest, what
 * a fault of the check speaks of. Refuses: an edit that names what the board lacks, or asks what no board file can say.
 */
export { applyEdit } from './apply.ts'
export { type Alignment, alignments, type BoardEdit } from './edits.ts'
export { type FaultPlace, placeOfFault } from './fault-places.ts'
export { laneIdsOn, regionsOf } from './lanes.ts'
export { partBox, partCorners } from './look-up.ts'
export { type Overlap, overlapsOf } from './overlaps.ts'
export { freeRefs } from './parts.ts'
export { sayEdit } from './say.ts'
export { beginSession, type BoardSession, editSession, redoSession, undoSession } from './session.ts'
export { createSnapper, type SnapGuide, type Snapped } from './snap.ts'
