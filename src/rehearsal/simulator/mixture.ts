/** What happens to the cards of the simulator, and how often: stated apart from what the inference assumes. */
import { z } from 'zod'
import type { Random } from '../../base/index.ts'
import { dirichlet } from './draw.ts'
import shipped from './mixtures.json' with { type: 'json' }

const share = z.number().min(0).max(1)
const reason = z.string().min(1)
const figure = z.strictObject({ value: share, reason }).transform(({ value }) => value)

const accidentKindSchema = z.enum([
  'die',
  'joints',
  'command-joints',
  'core-patch',
  'core-controller',
  'core-side',
  'core-whole',
  'rail',
  'rail-branch',
  'power-stage',
  'slip',
  'wet-spill',
  'pasty-spill',
  'nothing',
])
export type AccidentKind = z.infer<typeof accidentKindSchema>
export const accidentKinds: readonly AccidentKind[] = accidentKindSchema.options

const weightsSchema = z.record(accidentKindSchema, share)

const mixturesSchema = z.strictObject({
  mixtures: z.record(
    z.string(),
    z.strictObject({ reason: z.string().min(1), source: z.string().min(1), weights: weightsSchema }),
  ),
  figures: z.strictObject({
    concentration: z.strictObject({ value: z.number().positive(), reason }).transform(({ value }) => value),
    secondAccident: figure,
    wetDamageMemory: figure,
    wetDamageCore: figure,
    wetDamageTrack: figure,
    metalDamageMemory: figure,
    metalDamageCore: figure,
    metalDamageTrack: figure,
    compoundDamageMemory: figure,
    compoundDamageCore: figure,
    compoundDamageTrack: figure,
    fluxDamageMemory: figure,
    fluxDamageCore: figure,
    fluxDamageTrack: figure,
    pressedFar: figure,
    bodyClosed: figure,
    upright: figure,
    spillReported: figure,
    silentOfUnreported: figure,
    falseReport: figure,
    saysNoAccident: figure,
    uprightTold: figure,
    railsMeasured: figure,
    stagesMeasured: figure,
    lineMeasured: figure,
    readingWrong: figure,
    looked: figure,
    edgeLooked: figure,
    residueSeen: figure,
    residueSeenElsewhere: figure,
    slipSeen: figure,
    harmlessSlip: figure,
    partlyTested: figure,
    rowReports: figure,
    washCures: figure,
    washCuresMetal: figure,
    takeUpCures: figure,
    siteCures: figure,
    siteCuresMetal: figure,
    reballCures: figure,
    newPartGood: figure,
    repairFinds: figure,
    seenUnder: figure,
    seenUnderClean: figure,
    refitSpoilsMemory: figure,
    refitSpoilsCore: figure,
    liftLosesMemory: figure,
    liftLosesCore: figure,
  }),
})

const parsed = mixturesSchema.parse(shipped)

export type FigureName = keyof typeof parsed.figures

export interface Mixture {
  readonly name: string
  readonly weights: Readonly<Record<AccidentKind, number>>
  readonly figures: Readonly<Record<FigureName, number>>
}

export const mixtureNames: readonly string[] = Object.keys(parsed.mixtures)

/** A shipped mixture as it stands, or undefined where none has that name. */
export function mixtureCalled(name: string): Mixture | undefined {
  const found = parsed.mixtures[name]
  if (found === undefined) return undefined
  return { name, weights: found.weights, figures: parsed.figures }
}

/** The shipped mixture called `middle`. Throws where none of that name is shipped. */
export function middleMixture(): Mixture {
  const middle = mixtureCalled('middle')
  if (middle === undefined) throw new Error('the middle mixture is missing')
  return middle
}

/** The same mixture with each weight drawn anew around it. */
export const variedMixture = (mixture: Mixture, random: Random): Mixture => ({
  ...mixture,
  name: `${mixture.name}, varied`,
  weights: dirichlet(random, mixture.weights, mixture.figures.concentration),
})
