/** Rows of what the intake desk took down, as slip and record share them. */
import { money } from '../../base/index.ts'
import { consentKinds, consentWords, type Intake, sealWords } from '../intake.ts'
import { dayWords } from './words.ts'

/** The card as it was handed in; empty where nothing was noted. */
export const handedInFacts = ({
  model,
  serial,
  seals,
  sealsNote,
  cameWith,
  earlierRepairs,
}: Intake): [string, string][] => [
  ['Model', model],
  ['Serial number', serial],
  ['Seals', [sealWords[seals], sealsNote].filter(Boolean).join(': ')],
  ['Came with it', cameWith],
  ['Earlier repairs', earlierRepairs],
]

/** The fee in its currency, and each consent with its day or that there is none. */
export const agreedFacts = ({ diagnosisFee, consents }: Intake, currency: string): [string, string][] => [
  ['Diagnosis fee', diagnosisFee === undefined ? 'none agreed' : money(diagnosisFee, currency)],
  ...consentKinds.map((kind): [string, string] => {
    const on = consents[kind]
    return [consentWords[kind], on === undefined ? 'not agreed' : `agreed on ${dayWords(on)}`]
  }),
]
