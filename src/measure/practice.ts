/** Rules of the trade as data: what rails usually read, and the figures that verdicts and ranges use, each with its reason. */
import { sayData } from '../base/index.ts'
import { z } from 'zod'
import shipped from './practice.json' with { type: 'json' }
import { type StagePoint, stagePointSchema } from './schema.ts'

const ohm = z.number().nonnegative()

const usualSchema = z.strictObject({
  use: z.enum(['input', 'core', 'second core', 'memory', 'stacks', 'any']),
  lowV: z.number().positive(),
  highV: z.number().positive(),
  lowOhm: ohm,
  highOhm: ohm.optional(),
  suspiciousBelowOhm: ohm.optional(),
  shortBelowOhm: ohm,
  reason: z.string().min(1),
  source: z.string().min(1),
})
/** What a rail of that voltage and use commonly reads to ground, cold. */
export type UsualOhms = z.infer<typeof usualSchema>
export type RailUse = UsualOhms['use']

const usualPointSchema = z.strictObject({
  point: stagePointSchema,
  words: z.string().min(1),
  lowOhm: ohm.optional(),
  shortBelowOhm: ohm.optional(),
  reason: z.string().min(1),
  source: z.string().min(1),
})
/** What a point of a stage commonly reads, cold; where a figure is left out, only its siblings tell. */
export type UsualPoint = z.infer<typeof usualPointSchema>

const ruleSchema = z.strictObject({
  value: z.number().positive(),
  reason: z.string().min(1),
  source: z.string().min(1),
})
const RULES = [
  'siblingsWithin',
  'siblingsLeastOhm',
  'siblingsMuchAbove',
  'siblingsLeastV',
  'siblingsWithinDiodeV',
  'diodeTestA',
  'pinDiodeLowV',
  'pinDiodeHighV',
  'leastSpreadDiodeV',
  'farBelowRange',
  'goodCardsNeeded',
  'spreads',
  'leastSpreadRatio',
  'mostSpreadRatio',
  'leastSpreadV',
  'anyRailAtLeastOhm',
  'muchAboveRange',
  'twoWireLeadsOhm',
  'contactOhm',
  'usualPackages',
  'noVoltageBelow',
  'toleranceWhereUntoldPct',
  'coreIdleLow',
  'coreIdleHigh',
  'coreLoadLow',
  'coreLoadHigh',
  'coreNeverAbove',
  'bulkFarad',
  'longestInrushS',
  'firstPowerLimitA',
  'inputFromV',
  'inputNominalV',
  'benchSupplyMostA',
  'touchingLeadsOhm',
  'upFirstFromV',
  'upSecondFromV',
  'upThirdFromV',
  'inductorWithinMm',
  'switchNodeParts',
  'diodeMostV',
  'meterMostOhm',
  'railMostV',
] as const

const parsed = z
  .strictObject({
    usual: z.array(usualSchema),
    stagePoints: z.array(usualPointSchema),
    rules: z.record(z.enum(RULES), ruleSchema),
  })
  .parse(sayData(shipped))

/** The shipped rules with reason and source, for people to read. */
export const measuringRules = parsed.rules
export const usualOhms: readonly UsualOhms[] = parsed.usual

/** `input to switch node`, `PWM pin`. */
export const stagePointWords = (point: StagePoint): string => usualPointOf(point)?.words ?? point

/** What is usual at a point of a stage; undefined for a point of which the rules say nothing. */
export const usualPointOf = (point: StagePoint): UsualPoint | undefined =>
  parsed.stagePoints.find((each) => each.point === point)

/** The figure of a rule, in the unit that its name ends with; without one it is a factor or a count. */
export const rule = (name: (typeof RULES)[number]): number => parsed.rules[name].value

/** Rails of the core read low by nature, and move under power. */
export const isOfCore = (use: RailUse): boolean => use === 'core' || use === 'second core'

/** @returns undefined where the voltage is not known or nobody has a rule for it, as for supplies of stacks on a core */
export function usualOhmsOf(nominalV: number | undefined, use: RailUse): UsualOhms | undefined {
  if (nominalV === undefined || use === 'stacks') return undefined
  const near = parsed.usual.filter(({ lowV, highV }) => nominalV >= lowV && nominalV <= highV)
  return near.find((entry) => entry.use === use) ?? near.find((entry) => entry.use === 'any')
}
