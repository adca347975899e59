/** Assumptions: every prior, reliability and cost that the reasoning uses, from one data file, each open to change. */
import { z } from 'zod'
import { merged, sayData } from '../base/index.ts'
import shipped from './assumptions.json' with { type: 'json' }

const probability = z.number().min(0).max(1)
const minutesOfLift = z.number().min(0).max(1e6)

export const PRIOR_KEYS = [
  'die',
  'joints',
  'command-joints',
  'corridor',
  'rail',
  'rail-branch',
  'power-stage',
  'core',
  'core-patch',
  'spill',
  'unreported-spill',
  'slip',
] as const
const FAIL_KEYS = [
  'die',
  'joints',
  'command-joints',
  'corridor',
  'core',
  'core-few',
  'core-whole',
  'core-most',
  'core-patch',
  'spill-at-memory',
  'spill-at-core',
  'metal-at-memory',
  'metal-at-core',
  'crust-at-memory',
  'crust-at-core',
  'spill-on-corridor',
  'slip-on-corridor',
  'slip-on-stage',
  'slip-on-small-part',
  'power-region',
  'leak',
] as const
export const SEVERITIES = ['weak', 'low', 'gone'] as const
/** How badly a rail or a stage is off: it decides how many lanes fail. */
export type Severity = (typeof SEVERITIES)[number]
export const MARGINS = ['thin', 'usual', 'ample'] as const
export type Margin = (typeof MARGINS)[number]
const severityKey = z.enum([
  ...SEVERITIES.flatMap((severity) => [
    `rail-${severity}` as const,
    `stage-${severity}` as const,
    `core-fed-${severity}` as const,
    `reads-${severity}` as const,
    `shorts-${severity}` as const,
    ...MARGINS.map((margin) => `${severity}-${margin}` as const),
  ]),
  ...MARGINS.map((margin) => `margin-${margin}` as const),
])
const coreKey = z.enum(['whole', 'side', 'controller', 'stack-channel', 'stack-joints'])
export const BITES = ['none', 'some', 'full'] as const
const biteKey = z.enum(BITES)
const toldKey = z.enum(['noAccident', 'reported'])
const EVIDENCE_KEYS = [
  'residueWhereReached',
  'residueElsewhere',
  'cleanOverlooksReached',
  'railBadIfBranch',
  'railBadIfSmallPart',
  'railBadIfSlip',
  'railBadElsewhere',
  'railShortElsewhere',
  'stageBadIfStage',
  'stageBadIfRail',
  'stageBadIfSlip',
  'stageBadElsewhere',
] as const
const RISK_KEYS = ['memoryDamage', 'coreDamage', 'otherDamage'] as const
const MINUTES_KEYS = ['minutesPerMemoryLift', 'minutesPerCoreLift', 'minutesPerOtherLift'] as const

/** How a part's errors look beyond which lanes fail; `whole` is byte, channel or package, which the lanes tell already. */
const looksSchema = z.strictObject({ cells: probability, line: probability, sparse: probability, whole: probability })

const priorKey = z.enum(PRIOR_KEYS)
const failKey = z.enum(FAIL_KEYS)
const evidenceKey = z.enum(EVIDENCE_KEYS)
const signatureKey = z.enum([...PRIOR_KEYS, 'unknown'])
const patchFields = {
  radiiMm: z.array(z.number().positive().max(100)).min(1).max(12),
  stepMm: z.number().min(0.2).max(20),
}

/** What a remedy cures, as far as a shop has learnt it; the others are those of `remedies/figures.json`. */
export const CURE_KEYS = [
  'replaceDie',
  'reballJoints',
  'reballBeneath',
  'reballBeneathMetal',
  'replaceBeneath',
  'repairBeside',
] as const
const curesSchema = z.partialRecord(z.enum(CURE_KEYS), probability)

/** Of checks of the catalogue, by id: what a shop has learnt about them, within the bounds of the catalogue. */
const checksSchema = z.record(
  z.string().min(1).max(80),
  z.strictObject({
    finds: z.record(z.string().min(1).max(80), z.number().gt(0).max(0.99)).optional(),
    falseAlarm: z.number().min(0.001).max(0.5).optional(),
  }),
)

const fullSchema = z.strictObject({
  prior: z.record(priorKey, probability),
  fails: z.record(failKey, probability),
  patch: z.strictObject(patchFields),
  severity: z.record(severityKey, probability),
  core: z.record(coreKey, probability),
  bite: z.record(biteKey, probability),
  told: z.record(toldKey, probability),
  signature: z.record(signatureKey, looksSchema),
  evidence: z.record(evidenceKey, probability),
  /** In all, from the lift to the inspection of its joints. */
  cost: z.record(z.enum(MINUTES_KEYS), minutesOfLift),
  risk: z.record(z.enum(RISK_KEYS), probability),
  /** Checks that differ from the catalogue. */
  checks: checksSchema.default({}),
  /** Cures that differ from the shipped ones. */
  cures: curesSchema.default({}),
})
/** Every figure, resolved. */
export type Assumptions = z.infer<typeof fullSchema>

/** What a case may carry: only the figures that differ from the shipped ones. */
export const assumptionsSchema = z.strictObject({
  prior: z.partialRecord(priorKey, probability).optional(),
  fails: z.partialRecord(failKey, probability).optional(),
  patch: z.strictObject(patchFields).partial().optional(),
  severity: z.partialRecord(severityKey, probability).optional(),
  core: z.partialRecord(coreKey, probability).optional(),
  bite: z.partialRecord(biteKey, probability).optional(),
  told: z.partialRecord(toldKey, probability).optional(),
  signature: z.partialRecord(signatureKey, looksSchema).optional(),
  evidence: z.partialRecord(evidenceKey, probability).optional(),
  cost: z.partialRecord(z.enum(MINUTES_KEYS), minutesOfLift).optional(),
  risk: z.partialRecord(z.enum(RISK_KEYS), probability).optional(),
  checks: checksSchema.optional(),
  cures: curesSchema.optional(),
})
export type AssumptionOverrides = z.infer<typeof assumptionsSchema>

const entrySchema = z.strictObject({ value: z.unknown(), reason: z.string().min(1), source: z.string().min(1) })
const fileSchema = z.record(z.string(), z.record(z.string(), entrySchema))

/** The shipped figures with the reason and the source of each, for people to read: section, name, entry. */
export const shippedAssumptions = fileSchema.parse(sayData(shipped))

const valuesOf = (section: Record<string, { value?: unknown }>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(section).map(([key, entry]) => [key, entry.value]))

export const defaultAssumptions: Assumptions = fullSchema.parse(
  Object.fromEntries(Object.entries(shippedAssumptions).map(([key, section]) => [key, valuesOf(section)])),
)

/** The shipped figures, with those replaced that `overrides` names. */
export function withAssumptions(overrides: AssumptionOverrides | undefined): Assumptions {
  if (overrides === undefined) return defaultAssumptions
  return {
    prior: merged(defaultAssumptions.prior, overrides.prior),
    fails: merged(defaultAssumptions.fails, overrides.fails),
    patch: merged(defaultAssumptions.patch, overrides.patch),
    severity: merged(defaultAssumptions.severity, overrides.severity),
    core: merged(defaultAssumptions.core, overrides.core),
    bite: merged(defaultAssumptions.bite, overrides.bite),
    told: merged(defaultAssumptions.told, overrides.told),
    signature: merged(defaultAssumptions.signature, overrides.signature),
    evidence: merged(defaultAssumptions.evidence, overrides.evidence),
    cost: merged(defaultAssumptions.cost, overrides.cost),
    risk: merged(defaultAssumptions.risk, overrides.risk),
    checks: overrides.checks ?? defaultAssumptions.checks,
    cures: overrides.cures ?? defaultAssumptions.cures,
  }
}

const SURE = 1 - 1e-6
const LEAST_LEAK = 1e-9

/**
 * Figures that leave every observation possible: no effect is certain and something unknown may always be at work, so
 * that no card contradicts the assumptions outright.
 */
export function usableAssumptions(assumptions: Assumptions): Assumptions {
  const { fails, evidence, severity } = assumptions
  return {
    ...assumptions,
    severity: capped(severity),
    fails: { ...capped(fails), leak: Math.min(SURE, Math.max(LEAST_LEAK, fails.leak)) },
    evidence: {
      ...capped(evidence),
      cleanOverlooksReached: Math.max(1 - SURE, evidence.cleanOverlooksReached),
      residueElsewhere: Math.min(SURE, Math.max(LEAST_LEAK, evidence.residueElsewhere)),
      railShortElsewhere: Math.min(SURE, Math.max(LEAST_LEAK, evidence.railShortElsewhere)),
      railBadElsewhere: Math.min(SURE, Math.max(LEAST_LEAK, evidence.railBadElsewhere)),
      stageBadElsewhere: Math.min(SURE, Math.max(LEAST_LEAK, evidence.stageBadElsewhere)),
    },
  }
}

function capped<T extends Record<string, number>>(figures: T): T {
  const over = Object.entries(figures).filter(([, value]) => value > SURE)
  return { ...figures, ...Object.fromEntries(over.map(([key]) => [key, SURE])) }
}
