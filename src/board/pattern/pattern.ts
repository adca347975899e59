/** What a user tells of a board that is made from a pattern, and what is usual where they tell nothing. */
import { say } from '../../base/index.ts'
import { z } from 'zod'
import { memoryKinds, type PatternPackage, patternPackages } from './memory-kinds.ts'

interface Range {
  readonly min: number
  readonly max: number
}

/** What a pattern may say: of sizes in mm, of voltages in V, else counts. */
export const patternLimits = {
  nameCharacters: 120,
  busBits: { min: 64, max: 8192 },
  coreMm: { min: 12, max: 70 },
  widthMm: { min: 100, max: 450 },
  heightMm: { min: 50, max: 300 },
  supplies: 12,
  supplyNameCharacters: 40,
  nominalV: { min: 0.01, max: 60 },
  stages: { min: 0, max: 24 },
} as const satisfies Readonly<Record<string, number | Range>>

const within = ({ min, max }: Range) => z.number().min(min).max(max)

const supplySchema = z.strictObject({
  name: z.string().trim().min(1).max(patternLimits.supplyNameCharacters),
  nominalV: within(patternLimits.nominalV),
  stages: within(patternLimits.stages).int().describe('power stages that make it; 0 where it comes from elsewhere'),
  feeds: z.enum(['core', 'memory', 'both']),
})
export type PatternSupply = z.infer<typeof supplySchema>

export const boardPatternSchema = z.strictObject({
  name: z.string().trim().min(1).max(patternLimits.nameCharacters),
  busBits: within(patternLimits.busBits).int(),
  package: z.enum(patternPackages),
  sides: z.enum(['one', 'both']),
  coreMm: within(patternLimits.coreMm).optional().describe('edge of the square core; by the bus width where left out'),
  boardMm: z
    .strictObject({
      widthMm: within(patternLimits.widthMm).optional(),
      heightMm: within(patternLimits.heightMm).optional().describe('down to the tip of the slot’s tab'),
    })
    .optional()
    .describe('each as small as the rest allows where left out'),
  supplies: z.array(supplySchema).max(patternLimits.supplies),
})
export type BoardPattern = z.infer<typeof boardPatternSchema>

/** Data bits that one stage of the core’s supply goes with on a card of the usual form. Common practice, no source. */
const BITS_PER_CORE_STAGE = 32
const STACK_BITS_PER_CORE_STAGE = 256

/**
 * Supplies as such cards usually have them: one of many stages for the core, one of two for core and memory, one of one
 * stage for each other. Common practice, no source; the voltages of the memory are those of its standard.
 */
export function usualSupplies(name: PatternPackage, busBits: number): PatternSupply[] {
  const { volts, second, onSubstrate } = memoryKinds[name]
  const bitsPerStage = onSubstrate === true ? STACK_BITS_PER_CORE_STAGE : BITS_PER_CORE_STAGE
  const coreStages = Math.min(16, Math.max(3, Math.round(busBits / bitsPerStage) + 1))
  const memoryStages = busBits >= 192 ? 2 : 1
  return [
    { name: 'VCORE', nominalV: 0.9, stages: coreStages, feeds: 'core' },
    { name: 'VMEM', nominalV: volts, stages: memoryStages, feeds: 'both' },
    ...(second === undefined
      ? []
      : [{ name: second.name, nominalV: second.volts, stages: 1, feeds: 'memory' as const }]),
    { name: '0V9', nominalV: 0.9, stages: 1, feeds: 'core' },
  ]
}

/** A pattern to begin with: eight packages in a ring on one side. */
export const usualPattern = (): BoardPattern => ({
  name: say('my board'),
  busBits: 256,
  package: '180-ball',
  sides: 'one',
  supplies: usualSupplies('180-ball', 256),
})
