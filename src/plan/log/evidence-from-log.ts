/** What was found under lifted parts, as marks for the suspects: the place is the part's, the radius that of a circle of its body's area. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { AreaMark } from '../../spill/index.ts'
import type { Found, PassLog } from './log.ts'

const KIND: Partial<Record<Found, AreaMark['kind']>> = {
  clean: 'clean',
  wet: 'film',
  metal: 'residue',
  corroded: 'corrosion',
}

/** A torn pad says nothing of what was spilled and gives no mark; the last entry on a part and finding counts. */
export function evidenceFrom(model: BoardModel, log: PassLog): AreaMark[] {
  const marks = new Map<string, AreaMark>()
  for (const { found } of log) {
    for (const { ref, what } of found) {
      const part = model.partByRef.get(ref)
      if (part === undefined) continue
      for (const each of what) {
        const kind = KIND[each]
        if (kind === undefined) continue
        const id = `under-${ref}-${kind}`
        const radiusMm = Math.sqrt((part.widthMm * part.lengthMm) / Math.PI)
        const note = say('Seen under {ref} when it was off.', { ref })
        marks.set(id, { kind, id, side: part.side, at: part.placement.at, radiusMm, note })
      }
    }
  }
  return [...marks.values()]
}
