/** What cold readings at the supplies say about power: each connector and the slot may hold a short of its own. */
import { joined } from '../base/index.ts'
import { lineWithKind } from './line-key.ts'
import { measuredReason, type PowerReason } from './power-reason.ts'
import type { LineVerdict } from './verdict.ts'
import type { VerdictKind } from './verdict-words.ts'

/** Behind a fuse the rail itself is read; a range is only the trade's habit here. */
const WEIGHTS: Readonly<Partial<Record<VerdictKind, PowerReason['weight']>>> = {
  short: 'against',
  low: 'unknown',
  'unlike-low': 'unknown',
  open: 'unknown',
  unusual: 'unknown',
  below: 'note',
  above: 'note',
}

export function supplyReasons(verdicts: readonly LineVerdict[]): PowerReason[] {
  const supplies = verdicts.filter(({ line }) => line.line.kind === 'supply')
  const read = supplies.flatMap(({ line, verdict, measurement }) => {
    const weight = WEIGHTS[verdict.kind]
    if (weight === undefined || measurement === undefined) return []
    return [measuredReason(weight, `${lineWithKind(line.line)}, ${verdict.word}: ${verdict.sentence}`, [line.line])]
  })
  const unread = supplies.filter(({ measurement }) => measurement === undefined)
  return [
    ...read,
    ...unreadReason(
      unread.filter(({ line }) => line.isApart === true),
      'unknown',
    ),
    ...unreadReason(
      unread.filter(({ line }) => line.isApart !== true),
      'note',
    ),
  ]
}

/** A supply that no fuse joins to its rail may be short while the rail reads well. */
function unreadReason(unread: readonly LineVerdict[], weight: PowerReason['weight']): PowerReason[] {
  if (unread.length === 0) return []
  const lines = unread.map(({ line }) => line.line)
  const said = `${unread.length === 1 ? 'Supply' : 'Supplies'} not read: ${joined(lines.map(({ name }) => name))}.`
  return [measuredReason(weight, said, lines)]
}
