/** How hard a practice card is: a shipped mixture of the simulator with some weights and figures put in place of its own. */
import { z } from 'zod'
import { say, sayData } from '../../base/index.ts'
import { accidentKinds, middleMixture, type Mixture, mixtureCalled } from '../simulator/mixture.ts'
import shipped from './difficulties.json' with { type: 'json' }

const share = z.number().min(0).max(1)
const words = z.string().min(1)
const figureNames = Object.keys(middleMixture().figures)

const difficultySchema = z.strictObject({
  id: z.string().regex(/^[a-z]{2,20}$/),
  name: words,
  words,
  mixture: z.string().refine((name) => mixtureCalled(name) !== undefined, say('a mixture of the simulator')),
  /** Kinds of accident that weigh otherwise than in the mixture. */
  weights: z.partialRecord(z.enum(accidentKinds), share),
  /** Figures that differ from the simulator's, each with its reason. */
  figures: z.record(
    z.string().refine((name) => figureNames.includes(name), say('a figure of the simulator')),
    z.strictObject({ value: share, reason: words }),
  ),
})
export type Difficulty = z.infer<typeof difficultySchema>

export const difficulties: readonly Difficulty[] = z.array(difficultySchema).min(3).parse(sayData(shipped))

/** The shipped difficulty of that id; undefined for any other. */
export const difficultyCalled = (id: string): Difficulty | undefined => difficulties.find((each) => each.id === id)

/**
 * The mixture that the difficulty names, with its own weights and figures laid over it; the middle one where it names
 * none that is shipped.
 */
export function mixtureOfDifficulty({ id, mixture, weights, figures }: Difficulty): Mixture {
  const base = mixtureCalled(mixture) ?? middleMixture()
  const changed = Object.fromEntries(Object.entries(figures).map(([name, { value }]) => [name, value]))
  return {
    name: `practice, ${id}`,
    weights: { ...base.weights, ...weights },
    figures: { ...base.figures, ...changed },
  }
}
