/** The substances that ship with Liftmap, read from one data file, and the cautions that go with handling one. */
import { say, sayData } from '../../base/index.ts'
import { z } from 'zod'
import { type Substance, substanceSchema } from './substance.ts'
import shipped from './substances.json' with { type: 'json' }

export const substances: readonly Substance[] = z.array(substanceSchema).parse(sayData(shipped))

/**
 * A substance by its id.
 * @param own substances of the case; one that bears a shipped id stands in its place
 */
export const substanceOf = (id: string, own: readonly Substance[]): Substance | undefined =>
  [...own, ...substances].find((substance) => substance.id === id)

const LOCAL_RULES = say(
  'The substance’s data sheet and the rules of your place take precedence; where they differ or you are in doubt, ask somebody qualified.',
)

/** What to mind where the substance is met, in sentences; the last one defers to local rules and qualified people. */
export function cautionsFor(substance: Substance): string[] {
  const attacks = substance.attacks.map(({ what, how }) => say('It harms {what}: {how}.', { what, how }))
  return [...substance.cautions, ...attacks, LOCAL_RULES]
}
