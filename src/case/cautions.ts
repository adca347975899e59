/**
 * Cautions that a case calls for, each at the station where the hazard is met. They can't be switched off, and they
 * defer to local rules and qualified people. Common practice, no source, unless a sentence names one.
 */
import { cautionsFor, substances as shippedSubstances } from '../spill/index.ts'
import type { Case } from './schema.ts'

export interface Caution {
  readonly station: 'arrival' | 'spill' | 'suspects'
  readonly sentence: string
}

const POWERED_DOWN =
  'Do not power the card yet: with liquid, metal or a short on it, power can destroy what still works or start a fire. Unplug it, wait for the capacitors to discharge, check that they have, and measure cold first.'

const STATIC =
  'Static kills parts without a mark: work at an earthed bench with a wrist strap, as your local rules for static-sensitive work say.'

const HOT_WORK =
  'Lifting means hot air and molten solder: hot parts burn, flux fumes harm the lungs, old joints may hold lead. Use extraction and eye protection, keep solvents away from heat, wash your hands, and follow local rules; ask somebody qualified where you are not.'

const PRESUMED =
  'This list is what the model finds likely from what was entered, not a certainty. Check the reasons before heat goes on the board.'

export function stationCautions(caseFile: Pick<Case, 'arrival' | 'marks' | 'substances'>): Caution[] {
  const cautions: Caution[] = [
    { station: 'arrival', sentence: POWERED_DOWN },
    { station: 'arrival', sentence: STATIC },
    { station: 'suspects', sentence: PRESUMED },
    { station: 'suspects', sentence: HOT_WORK },
  ]
  const spilled = new Set(caseFile.marks.flatMap((mark) => (mark.kind === 'spill' ? [mark.substance] : [])))
  const known = [...caseFile.substances, ...shippedSubstances]
  for (const id of spilled) {
    const substance = known.find((each) => each.id === id)
    if (substance === undefined) continue
    for (const sentence of cautionsFor(substance)) cautions.push({ station: 'spill', sentence })
  }
  return cautions
}

/** The sentences alone, for a printed answer. */
export const cautionsOfCase = (caseFile: Pick<Case, 'arrival' | 'marks' | 'substances'>): string[] =>
  stationCautions(caseFile).map(({ sentence }) => sentence)
