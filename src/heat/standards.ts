/** Limits and tables of J-STD-020 and J-STD-033 as data and lookups. Where revisions differ, the safer figure stands. */
import { sayData } from '../base/index.ts'
import { z } from 'zod'
import type { Part } from '../board/index.ts'
import shipped from './rework-limits.json' with { type: 'json' }

const pair = z.tuple([z.number(), z.number()])
const profileSchema = z.strictObject({
  soakC: pair,
  soakS: pair,
  rampUpCPerS: z.number(),
  rampDownCPerS: z.number(),
  liquidusC: z.number(),
  aboveLiquidusS: pair,
  nearPeakS: z.number(),
  toPeakS: z.number(),
  cycles: z.int(),
})
const classRow = z.strictObject({ thicknessBelowMm: z.number().nullable(), c: z.array(z.number()).min(2).max(3) })
const limitsSchema = z.strictObject({
  version: z.literal(1),
  classTemperature: z.strictObject({ source: z.string(), leadFree: z.array(classRow), tinLead: z.array(classRow) }),
  profile: z.strictObject({ source: z.string(), leadFree: profileSchema, tinLead: profileSchema }),
  bake: z.strictObject({
    source: z.string(),
    rows: z.array(
      z.strictObject({
        thicknessUpToMm: z.number(),
        levels: z.array(z.string()),
        at125H: pair,
        at90H: pair,
        at40D: pair,
        mark: z.enum(['read', 'from memory']),
      }),
    ),
    largeArray: z.strictObject({ overMm: z.number(), at125H: z.number(), mark: z.literal('from memory') }),
  }),
  floorLife: z.strictObject({ source: z.string(), days: z.record(z.string(), z.number().nullable()) }),
  derating: z.strictObject({
    source: z.string(),
    humidityPct: z.array(z.number()),
    days: z.record(z.string(), z.array(z.number().nullable())),
  }),
  rework: z.strictObject({ noBakeBodyC: z.number(), source: z.string() }),
})

const limits = limitsSchema.parse(sayData(shipped))

export type MoistureLevel = NonNullable<Part['moistureLevel']>
export type Assembly = 'lead-free' | 'tin-lead'

/** Removal needs no bake of the board while every body stays at or below this (J-STD-033). */
export const NO_BAKE_BODY_C = limits.rework.noBakeBodyC

/**
 * Class temperature of J-STD-020, °C at the top centre of the body.
 * @param body thickness in mm, volume in mm³ without balls or leads. At exactly 2.5 mm older text puts a lead-free body
 * into the thicker row and newer text doesn't: the lower figure is given.
 */
export function classTemperatureC(body: {
  readonly assembly: Assembly
  readonly thicknessMm: number
  readonly volumeMm3: number
}): number {
  const table = body.assembly === 'lead-free' ? limits.classTemperature.leadFree : limits.classTemperature.tinLead
  const row = table.find(({ thicknessBelowMm }) => thicknessBelowMm === null || body.thicknessMm < thicknessBelowMm)
  const column = body.volumeMm3 < 350 ? 0 : body.assembly === 'lead-free' && body.volumeMm3 > 2000 ? 2 : 1
  return row?.c[column] ?? Math.min(...table.flatMap(({ c }) => c))
}

export interface ProfileLimits {
  readonly soakC: { readonly least: number; readonly most: number }
  readonly soakS: { readonly least: number; readonly most: number }
  readonly rampUpCPerS: number
  readonly rampDownCPerS: number
  readonly liquidusC: number
  readonly aboveLiquidusS: { readonly least: number; readonly most: number }
  /** Within 5 °C of the class temperature. */
  readonly nearPeakS: number
  readonly toPeakS: number
  readonly cycles: number
}

/** Profile limits of J-STD-020 Table 5-2: what a package must survive, no recipe for a board. */
export function profileLimits(hasLead: boolean): ProfileLimits {
  const { soakC, soakS, aboveLiquidusS, ...rest } = hasLead ? limits.profile.tinLead : limits.profile.leadFree
  const range = ([least, most]: readonly [number, number]): { least: number; most: number } => ({ least, most })
  return { ...rest, soakC: range(soakC), soakS: range(soakS), aboveLiquidusS: range(aboveLiquidusS) }
}

export interface Bake {
  readonly hours: number
  readonly mark: 'read' | 'from memory'
}

/**
 * Hours of bake before reflow (J-STD-033, user side).
 * @param body thickness in mm, moisture level, whether it is a ball array over 17 by 17 mm or holds stacked dies
 * @param bake oven at 125, 90 (at most 5 % RH) or 40 °C (at most 5 % RH); `over`: beyond floor life by more than 72 h, or less
 * @returns undefined where the table has no bake: level 1, or thicker than 4.5 mm, or 40 °C for large arrays.
 * Level 6 is baked as 5a.
 */
export function bakeHours(
  body: { readonly thicknessMm: number; readonly level: MoistureLevel; readonly largeArray?: boolean },
  bake: { readonly ovenC: 125 | 90 | 40; readonly over: 'more-than-72h' | 'up-to-72h' },
): Bake | undefined {
  const level = body.level === '6' ? '5a' : body.level
  const row = limits.bake.rows.find((each) => body.thicknessMm <= each.thicknessUpToMm && each.levels.includes(level))
  if (row === undefined) return undefined
  const index = bake.over === 'more-than-72h' ? 0 : 1
  const { at125H: largeH } = limits.bake.largeArray
  if (body.largeArray === true) {
    if (bake.ovenC === 40) return undefined
    return { hours: bake.ovenC === 125 ? Math.max(largeH, row.at125H[index]) : row.at90H[index], mark: 'from memory' }
  }
  if (bake.ovenC === 125) return { hours: row.at125H[index], mark: row.mark }
  if (bake.ovenC === 90) return { hours: row.at90H[index], mark: row.mark }
  return { hours: row.at40D[index] * 24, mark: row.mark }
}

/** Days out of the dry bag at 30 °C and 60 % RH (level 1: 85 %); Infinity without a limit, 0 for level 6: bake, then the label's time. */
export function floorLifeDays(level: MoistureLevel): number {
  const days = limits.floorLife.days[level]
  return days === null ? Infinity : (days ?? 0)
}

/**
 * Days of floor life at 30 °C in another humidity (J-STD-033 derating, thick bodies and ball arrays of 1 mm and more).
 * @param humidityPct 0 to 100; between columns the damper one is taken, as it is safer
 * @returns undefined for levels that the table doesn't hold
 */
export function floorLifeAtDays(level: MoistureLevel, humidityPct: number): number | undefined {
  const row = limits.derating.days[level]
  if (row === undefined) return undefined
  const column = limits.derating.humidityPct.findIndex((each) => humidityPct <= each)
  const days = row[column === -1 ? row.length - 1 : column]
  return days === null ? Infinity : days
}
