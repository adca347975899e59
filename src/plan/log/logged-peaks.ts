/** What the real peaks of a log say, in sentences: a joint hotter than its body may be, or too cold to have melted. */
import { decimals, say } from '../../base/index.ts'
import type { BoardModel, PlacedPart } from '../../board/index.ts'
import { alloyOf, bodyLimitOf, heatAssumptions } from '../../heat/index.ts'
import type { PassLog } from './log.ts'

/** Compares each logged peak with the body limit (board file, else J-STD-020 class) and the alloy's solidus. */
export function peaksSaid(model: BoardModel, log: PassLog): string[] {
  return log.flatMap(({ action, refs, outcome, peakC }) => {
    if (peakC === undefined || outcome === 'skipped') return []
    return refs.flatMap((ref) => {
      const part = model.partByRef.get(ref)
      return part === undefined ? [] : peakSaid(part, action, outcome, peakC)
    })
  })
}

function peakSaid(part: PlacedPart, action: 'lift' | 'refit', outcome: 'done' | 'failed', peakC: number): string[] {
  const alloy = heatAssumptions.alloys[alloyOf(part.description)]
  const limitC = bodyLimitOf(part)
  const measured = say('{ref} peaked at {peakC} °C at its {action, select, lift {lift} other {refit}}', {
    ref: part.ref,
    peakC: decimals(peakC, 0),
    action,
  })
  if (peakC > limitC)
    return [
      say('{measured}, beyond the {limitC} °C that its body bears: test it, or replace it.', { measured, limitC }),
    ]
  if (outcome === 'done' && peakC < alloy.solidusC)
    return [
      say(
        '{measured}, below the {solidusC} °C at which its alloy starts to melt: check where the thermocouple sat, and the pads.',
        { measured, solidusC: alloy.solidusC },
      ),
    ]
  return []
}
