/** Messages about files, shown where the file was dropped. */
import type { Fault, Point } from '../../base/index.ts'
import type { Desk } from '../stores/desk.ts'

export const sayFaults = (desk: Desk, at: Point, title: string, faults: readonly Fault[]): void =>
  desk.screen.setState({ message: { at, tone: 'fault', title, faults, lines: [] } })

export const saySettled = (desk: Desk, at: Point, title: string, lines: readonly string[]): void =>
  desk.screen.setState({ message: { at, tone: 'note', title, faults: [], lines } })

export const closeMessage = (desk: Desk): void => desk.screen.setState({ message: undefined })
