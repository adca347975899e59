/** The free labels of a pane: marks and rings, where they found a place. */
import type { Box } from '../../../base/index.ts'
import { freeLabels } from '../../../case/index.ts'
import type { Mark, Ring } from '../../../spill/index.ts'
import type { Frame } from './frame.ts'
import { measureOn, paint, viewOf, write } from './paint.ts'

interface FreeLabelsShown {
  readonly marks: readonly Mark[]
  readonly rings: readonly Ring[]
  readonly obstacles: readonly Box[]
  readonly substanceName: (id: string) => string
}

/** Labels that found no free place are left out, a spill’s never. */
export function drawFreeLabels(frame: Frame, shown: FreeLabelsShown): void {
  for (const { ground, lines } of freeLabels(viewOf(frame), { ...shown, measure: measureOn(frame) })) {
    if (ground !== undefined) paint(frame, [ground])
    for (const line of lines) write(frame, line)
  }
}
