/** Messages about files, shown where the file was dropped. */
import { type Fault, type Point, say } from '../../base/index.ts'
import type { Desk } from '../stores/desk.ts'

/** Where a message stands that belongs to no place on the page, in px. */
export const MESSAGE_CORNER: Point = { x: 420, y: 64 }
/** Where a note about what lies on the sheet stands: at its foot, off the tools. */
export const sheetFoot = (): Point => ({ x: 420, y: globalThis.innerHeight - 70 })

export const sayFaults = (desk: Pick<Desk, 'screen'>, at: Point, title: string, faults: readonly Fault[]): void =>
  desk.screen.setState({ message: { at, tone: 'fault', title, faults, lines: [] } })

export const saySettled = (desk: Desk, at: Point, title: string, lines: readonly string[]): void =>
  desk.screen.setState({ message: { at, tone: 'note', title, faults: [], lines } })

export const closeMessage = (desk: Desk): void => desk.screen.setState({ message: undefined })

/** A thrown error as a fault about a file. */
export const faultOf = (path: string, reason: unknown): Fault => ({
  path,
  found: reason instanceof Error ? reason.message : String(reason),
  expected: say('a file that can be read to its end'),
  todo: say('Copy the file to this machine and drop it again.'),
})

/** What was dropped on a case that is not on the desk any more goes into no other. */
export const caseLeft = {
  found: say('another case on the desk'),
  expected: say('the case that it was dropped on'),
  todo: say('Go back to that case and drop it again.'),
} as const
