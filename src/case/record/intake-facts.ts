/** Rows of what the intake desk took down, as slip and record share them. */
import { dayWords, money, say } from '../../base/index.ts'
import { consentKinds, consentWords, type Intake, sealWords } from '../intake.ts'

/** The card as it was handed in; empty where nothing was noted. */
export const handedInFacts = ({
  model,
  serial,
  seals,
  sealsNote,
  cameWith,
  earlierRepairs,
}: Intake): [string, string][] => [
  [say('Model'), model],
  [say('Serial number'), serial],
  [say('Seals'), [sealWords[seals], sealsNote].filter(Boolean).join(': ')],
  [say('Came with it'), cameWith],
  [say('Earlier repairs'), earlierRepairs],
]

/** The fee in its currency, and each consent with its day or that there is none. */
export const agreedFacts = ({ diagnosisFee, consents }: Intake, currency: string): [string, string][] => [
  [say('Diagnosis fee'), diagnosisFee === undefined ? say('none agreed') : money(diagnosisFee, currency)],
  ...consentKinds.map((kind): [string, string] => {
    const on = consents[kind]
    return [consentWords[kind], on === undefined ? say('not agreed') : say('agreed on {on}', { on: dayWords(on) })]
  }),
]
