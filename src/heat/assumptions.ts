/** What the thermal model takes for granted, read from one data file, each figure with its reason and source. */
import { say, sayData } from '../base/index.ts'
import { z } from 'zod'
import { type Part, type PartKind, partKindSchema } from '../board/index.ts'
import shipped from './assumptions.json' with { type: 'json' }

const figure = z.strictObject({ value: z.number().nonnegative(), why: z.string().min(1), source: z.string().min(1) })
const bodySchema = z.strictObject({
  rhoCJPerM3K: z.number().positive(),
  /** Through its height. */
  kWPerMK: z.number().positive(),
  /** In its plane: dies, lids and copper spread heat sideways far better than through the mould. */
  inPlaneKWPerMK: z.number().positive(),
  source: z.string(),
})
const alloySchema = z.strictObject({
  solidusC: z.number(),
  liquidusC: z.number(),
  densityKgPerM3: z.number().positive(),
  latentJPerKg: z.number().nonnegative(),
  hasLead: z.boolean(),
})
const alloyName = z.enum([
  'SAC305',
  'SAC405',
  'SAC387',
  'SAC105',
  'Sn96.5Ag3.5',
  'Sn99.3Cu0.7',
  'Sn63Pb37',
  'Sn60Pb40',
  'Bi58Sn42',
])

const assumptionsSchema = z.strictObject({
  version: z.literal(1),
  ambientC: figure,
  copperKWPerMK: figure,
  copperRhoCJPerM3K: figure,
  laminateKWPerMK: figure,
  continuousFromFill: figure,
  laminateRhoCJPerM3K: figure,
  defaultCopper: z.strictObject({
    value: z.array(z.strictObject({ thicknessUm: z.number().positive(), fill: z.number().min(0).max(1) })),
    why: z.string(),
    source: z.string(),
  }),
  stillAirWPerM2K: figure,
  preheaterWPerM2K: figure,
  jetWPerM2K: figure,
  jetFallOffMm: figure,
  jetMixingMm: figure,
  jetDelivery: figure,
  tapeJetFactor: figure,
  heatSinkJPerM2K: figure,
  solderKWPerMK: figure,
  gapKWPerMK: figure,
  underfillKWPerMK: figure,
  defaultJointShare: figure,
  minimumStandoffMm: figure,
  defaultAlloy: z.strictObject({ value: alloyName, why: z.string(), source: z.string() }),
  boardMaxC: figure,
  otherPartMaxC: figure,
  coldestJointMarginK: figure,
  aimJointMarginK: figure,
  moltenLeastS: figure,
  moltenMostS: figure,
  refitColdestMarginK: figure,
  refitAimMarginK: figure,
  refitHottestMarginK: figure,
  refitCoolerMarginK: figure,
  refitMoltenLeastS: figure,
  refitMoltenMostS: figure,
  preheatSiteMostC: figure,
  neighbourHarmFromC: figure,
  neighbourHarmLeadC: figure,
  neighbourHarmBismuthC: figure,
  hottestJointMarginK: figure,
  rampWindowS: figure,
  latentUndercooling: figure,
  bodies: z.record(partKindSchema, bodySchema),
  alloys: z.record(alloyName, alloySchema),
  alloySource: z.string(),
})

export type HeatAssumptions = z.infer<typeof assumptionsSchema>
export type JointAlloy = NonNullable<Part['jointAlloy']>
export type Alloy = z.infer<typeof alloySchema>

const bodies = shipped.bodies satisfies Record<PartKind, unknown>
export const heatAssumptions: HeatAssumptions = assumptionsSchema.parse(sayData({ ...shipped, bodies }))

interface HasAlloy {
  readonly jointAlloy?: JointAlloy | undefined
}

/** The alloy of a part's joints: the file's, else the stated default. */
export const alloyOf = (part: HasAlloy): JointAlloy => part.jointAlloy ?? heatAssumptions.defaultAlloy.value

/**
 * Where the limit of neighbours comes from, in a line for the bench: M. A. Ismail and others, Scientific Reports 12, 15118, 2022
 * (`neighbourHarmFromC`). Here the hottest joint of a package is held to the lower of both figures.
 */
export const crackedFromWords = say(
  'Joints were found cracked from 195 °C in a package’s middle and 210 °C at its corner.',
)

/** What the joints of a package beside a site should stay below, °C, by their alloy. */
export function harmFromC(alloy: JointAlloy): number {
  if (alloy.includes('Bi')) return heatAssumptions.neighbourHarmBismuthC.value
  return alloy.includes('Pb') ? heatAssumptions.neighbourHarmLeadC.value : heatAssumptions.neighbourHarmFromC.value
}

/** A joint is strong enough to be moved by so much below the solidus of its alloy. Common practice, no source. */
const FIRM_BELOW_SOLIDUS_K = 30

/** °C, a round figure below which no joint of these parts yields when they are touched. */
export function handsOffUntilC(parts: readonly HasAlloy[]): number {
  const solidusC = Math.min(...parts.map((part) => heatAssumptions.alloys[alloyOf(part)].solidusC))
  return Math.floor((solidusC - FIRM_BELOW_SOLIDUS_K) / 10) * 10
}
