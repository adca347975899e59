/** Cautions that the case as it stands calls for: each has its reasons, and goes when its cause is gone. */
import type { Case } from '../../case/index.ts'
import { isCleaned, type PowerJudgement } from '../../measure/index.ts'
import { count } from './words.ts'

export interface Caution {
  readonly title: string
  readonly reasons: readonly string[]
}

/**
 * Why the card should not be powered yet; undefined where nothing that was entered speaks against it.
 * @param judgement of what was measured cold, where the board is known
 */
export function powerCaution(caseFile: Case, judgement?: PowerJudgement): Caution | undefined {
  const { accident, poweredSince } = caseFile.arrival
  const left = caseFile.marks.filter((mark) => !isCleaned(mark, caseFile.cleaned))
  const cleaned = caseFile.cleaned !== undefined
  const spills = left.filter((mark) => mark.kind === 'spill').length
  const dirt = left.filter((mark) => ['residue', 'film', 'corrosion'].includes(mark.kind)).length
  const slips = caseFile.marks.filter((mark) => mark.kind === 'slip').length
  const reasons = (judgement?.reasons ?? []).flatMap(({ weight, sentence }) => (weight === 'against' ? [sentence] : []))
  if (spills > 0)
    reasons.push(
      `${count(spills, 'spill is', 'spills are')} marked and may still bridge pads, also under parts where nobody can see.`,
    )
  else if (accident === 'spill' && !cleaned) reasons.push('Something was spilled, and where it went is not marked yet.')
  else if (accident === 'flux' && !cleaned) reasons.push('Flux was left behind: warm and damp, it conducts.')
  if (dirt > 0)
    reasons.push(
      `${count(dirt, 'place', 'places')} with residue, film or corrosion ${dirt === 1 ? 'is' : 'are'} not cleaned.`,
    )
  if (slips > 0 || accident === 'slip') reasons.push('A slipped tool may have left a short that only a meter shows.')
  if (accident === 'unknown') reasons.push('Nobody knows what happened to it.')
  if (reasons.length === 0) return undefined
  if (poweredSince === 'yes') {
    const wet = spills > 0 || accident === 'spill' || accident === 'flux'
    reasons.push(
      wet
        ? 'It was powered since: metal may have grown between wet joints.'
        : 'It was powered since, and may be worse for it.',
    )
  }
  if (!caseFile.measurements.some(({ quantity }) => quantity === 'ohms'))
    reasons.push('No rail was measured to ground here.')
  return { title: 'Don’t power it yet.', reasons }
}
