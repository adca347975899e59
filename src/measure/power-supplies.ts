/** What cold readings at the supplies say about power: each connector and the slot may hold a short of its own. */
import { joined, say } from '../base/index.ts'
import { lineWords } from './line-key.ts'
import { measuredReason, type PowerReason, reasonOf, whenWords } from './power-reason.ts'
import type { Phase } from './schema.ts'
import type { LineVerdict } from './verdict.ts'

/** @param verdicts of cold readings, of all lines */
export function supplyReasons(verdicts: readonly LineVerdict[], { phase }: { readonly phase: Phase }): PowerReason[] {
  const supplies = verdicts.filter(({ line }) => line.line.kind === 'supply')
  const unread = supplies.filter(({ measurement }) => measurement === undefined)
  const apart = unread.filter(({ line }) => line.isApart === true)
  const behindFuse = unread.filter(({ line }) => line.isApart !== true)
  return [
    ...supplies.flatMap((each) => reasonOf(each)),
    ...unreadReason(apart, 'unknown', phase),
    ...unreadReason(behindFuse, 'note', phase),
  ]
}

/** A supply that no fuse joins to its rail may be short while the rail reads well. */
function unreadReason(unread: readonly LineVerdict[], weight: PowerReason['weight'], phase: Phase): PowerReason[] {
  if (unread.length === 0) return []
  const lines = unread.map(({ line }) => line.line)
  const names = joined(lines.map(lineWords))
  const said = say('{count, plural, one {Supply} other {Supplies}} not read{phase}: {names}.', {
    count: lines.length,
    phase: whenWords(phase),
    names,
  })
  return [measuredReason(weight, said, lines)]
}
