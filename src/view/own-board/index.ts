/**
 * In: a board of one's own, kept in versions or inside cases. Out: a window in which it is edited, its versions are seen
 * and two of them compared. Refuses: keeping a board with faults, and leaving with changes that nobody decided about.
 */
import { later } from '../controls/later.tsx'

export { exportBoard } from './exportBoard.ts'
export type { BoardSubject } from './keepVersion.ts'
export type { BoardTask } from './OwnBoardWindow.tsx'

/** Loaded when a board is first looked at. */
export const OwnBoardWindow = later(async () => (await import('./OwnBoardWindow.tsx')).OwnBoardWindow)
