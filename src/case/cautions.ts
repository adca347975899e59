/**
 * Cautions that a case calls for, each at the station where the hazard is met. They can't be switched off, and they
 * defer to local rules and qualified people. The sentences stand in `caution-rules.ts`.
 */
import { cautionsFor, type Substance, substances as shippedSubstances } from '../spill/index.ts'
import { type Caution, type CautionedCase, type CautionFacts, cautionRules } from './caution-rules.ts'
import { type Station, stations } from './stations.ts'

export { type Caution, type CautionedCase, type Hazard } from './caution-rules.ts'

/** Stands last at every station. */
export const cautionsDefer =
  'Local rules and data sheets take precedence; where you are not qualified for a step, ask somebody who is.'

/** @returns what the case calls for, in the order of the stations; the last one of each defers to local rules */
export function stationCautions(caseFile: CautionedCase): Caution[] {
  const facts: CautionFacts = { caseFile, spilled: spilledOn(caseFile) }
  return stations.flatMap((station): Caution[] => {
    const held = cautionRules.filter((rule) => rule.station === station && rule.when?.(facts) !== false)
    const last: Caution = { station, hazard: 'rules', sentence: cautionsDefer, source: 'common practice, no source' }
    const substances = station === 'spill' ? substanceCautions(facts.spilled) : []
    return [...held.map(plainCaution), ...(substances.length > 0 ? substances : [last])]
  })
}

/** Those of one station, as sentences. */
export const cautionsAt = (station: Station, caseFile: CautionedCase): string[] =>
  stationCautions(caseFile).flatMap((caution) => (caution.station === station ? [caution.sentence] : []))

/** The sentences of some stations, each once, for a printed answer. */
export function cautionsOfCase(caseFile: CautionedCase, at: readonly Station[] = stations): string[] {
  return [
    ...new Set(at.flatMap((station) => cautionsAt(station, caseFile)).filter((line) => line !== cautionsDefer)),
    cautionsDefer,
  ]
}

const plainCaution = ({ station, hazard, sentence, source }: Caution): Caution => ({
  station,
  hazard,
  sentence,
  source,
})

function spilledOn({ marks, substances }: CautionedCase): Substance[] {
  const ids = new Set(marks.flatMap((mark) => (mark.kind === 'spill' ? [mark.substance] : [])))
  const known = [...substances, ...shippedSubstances]
  return [...ids].flatMap((id) => known.find((each) => each.id === id) ?? [])
}

/** Each sentence once, however many spills share it. */
const substanceCautions = (spilled: readonly Substance[]): Caution[] =>
  [...new Set(spilled.flatMap(cautionsFor))].map((sentence) => ({
    station: 'spill',
    hazard: 'substance',
    sentence,
    source: 'what the substance’s own data say',
  }))
