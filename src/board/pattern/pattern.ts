/** What a user tells of a board that is made from a pattern, and what is usual where they tell nothing. */
import { z } from 'zod'
import { memoryKinds, type PatternPackage, patternPackages } from './memory-kinds.ts'

export const MOST_STAGES = 24

export const supplySchema = z.strictObject({
  name: z.string().trim().min(1).max(40),
  nominalV: z.number().positive().max(60),
  stages: z.int().min(0).max(MOST_STAGES).describe('power stages that make it; 0 where it comes from elsewhere'),
  feeds: z.enum(['core', 'memory', 'both']),
})
export type PatternSupply = z.infer<typeof supplySchema>

export const boardPatternSchema = z.strictObject({
  name: z.string().trim().min(1).max(120),
  busBits: z.int().min(64).max(512),
  package: z.enum(patternPackages),
  sides: z.enum(['one', 'both']),
  coreMm: z.number().min(12).max(70).optional().describe('edge of the square core; by the bus width where left out'),
  boardMm: z
    .strictObject({ widthMm: z.number().min(100).max(450), heightMm: z.number().min(50).max(300) })
    .optional()
    .describe('as small as the rest allows where left out; the height goes down to the tip of the slot’s tab'),
  supplies: z.array(supplySchema).max(12),
})
export type BoardPattern = z.infer<typeof boardPatternSchema>

/** Data bits that one stage of the core’s supply goes with on a card of the usual form. Common practice, no source. */
const BITS_PER_CORE_STAGE = 32

/**
 * Supplies as such cards usually have them: one of many stages for the core, one of two for core and memory, one of one
 * stage for each other. Common practice, no source; the voltages of the memory are those of its standard.
 */
export function usualSupplies(name: PatternPackage, busBits: number): PatternSupply[] {
  const { volts, second } = memoryKinds[name]
  const coreStages = Math.min(16, Math.max(3, Math.round(busBits / BITS_PER_CORE_STAGE) + 1))
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
  name: 'my board',
  busBits: 256,
  package: '180-ball',
  sides: 'one',
  supplies: usualSupplies('180-ball', 256),
})
