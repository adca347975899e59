/**
 * Cautions that a case calls for, each at the station where the hazard is met. They can't be switched off, and they
 * defer to local rules and qualified people. The sentences stand in `caution-rules.ts`.
 */
import { say } from '../base/index.ts'
import { cautionsFor, type Substance, substances as shippedSubstances } from '../spill/index.ts'
import { type Caution, type CautionedCase, type CautionFacts, cautionRules } from './caution-rules.ts'
import { type Station, stations } from './stations.ts'

export { type Caution, type CautionedCase, type Hazard } from './caution-rules.ts'

/** Stands last at every station. */
export const cautionsDefer = say(
  'Local rules and data sheets take precedence; where you are not qualified for a step, ask somebody who is.',
)

/** @returns what the case calls for, in the order of the stations; the last one of each defers to local rules */
export function stationCautions(caseFile: CautionedCase): Caution[] {
  const facts: CautionFacts = { caseFile, spilled: spilledOn(caseFile) }
  return stations.flatMap((station): Caution[] => {
    const held = cautionRules.filter((rule) => rule.station === station && rule.when?.(facts) !== false)
    const last: Caution = {
      station,
      hazard: 'rules',
      sentence: cautionsDefer,
      source: say('common practice, no source'),
    }
    const substances = station === 'spill' ? substanceCautions(facts.spilled) : []
    return [...held.map(plainCaution), ...(substances.length > 0 ? substances : [last])]
  })
}

/** Those of one station, as sentences. */
export const cautionsAt = (station: Station, caseFile: CautionedCase): string[] =>
  stationCautions(caseFile).flatMap((caution) => (caution.station === station ? [caution.sentence] : []))

/** What is dangerous at a station, in one line; undefined where nothing is but what the rules of the place say. */
export function dangersAt(station: Station, caseFile: CautionedCase): string | undefined {
  const dangers = stationCautions(caseFile).flatMap((caution) => (caution.station === station ? [caution.danger] : []))
  const line = [...new Set(dangers.filter((danger) => danger !== undefined))].join(', ')
  return line === '' ? undefined : `${line.charAt(0).toUpperCase()}${line.slice(1)}`
}

/** The sentences of some stations, each once, for a printed answer. */
export function cautionsOfCase(caseFile: CautionedCase, at: readonly Station[] = stations): string[] {
  return [
    ...new Set(at.flatMap((station) => cautionsAt(station, caseFile)).filter((line) => line !== cautionsDefer)),
    cautionsDefer,
  ]
}

const plainCaution = ({ station, hazard, danger, sentence, source }: Caution): Caution => ({
  station,
  hazard,
  ...(danger === undefined ? {} : { danger }),
  sentence,
  source,
})

function spilledOn({ marks, substances }: CautionedCase): Substance[] {
  const ids = new Set(marks.flatMap((mark) => (mark.kind === 'spill' ? [mark.substance] : [])))
  const known = [...substances, ...shippedSubstances]
  return [...ids].flatMap((id) => known.find((each) => each.id === id) ?? [])
}

/** Each sentence once, however many spills share it; the first of each substance, up to its stop, is its danger. */
function substanceCautions(spilled: readonly Substance[]): Caution[] {
  const first = new Map(spilled.map((substance) => cautionsFor(substance)[0]).map((said) => [said, dangerIn(said)]))
  return [...new Set(spilled.flatMap(cautionsFor))].map((sentence) => ({
    station: 'spill',
    hazard: 'substance',
    ...(first.get(sentence) === undefined ? {} : { danger: first.get(sentence) }),
    sentence,
    source: say('what the substance’s own data say'),
  }))
}

const dangerIn = (sentence: string | undefined): string | undefined => sentence?.split(/[:;.](?:\s|$)/)[0]
