/** A newer Liftmap begins only once what is on the desk is kept. */
import type { Point } from '../../base/index.ts'
import type { Desk } from '../stores/desk.ts'
import { mayLeave } from './putOnDesk.ts'

export async function startNewVersion(desk: Desk, at: Point): Promise<void> {
  if (await mayLeave(desk, at)) await desk.version.start()
}
