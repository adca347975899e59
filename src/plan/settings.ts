/** The shop's settings: the price book, and every limit and weight of the plan, each open to change. */
import { z } from 'zod'
import { bad, faultsFromZod, good, type Result, merged, sayData } from '../base/index.ts'
import { heatAssumptions } from '../heat/index.ts'
import { bookSections, shippedPriceBook } from '../suspects/index.ts'
import shipped from './assumptions.json' with { type: 'json' }

const money = z.number().min(0).max(1e6)
const share = z.number().min(0).max(1)
const factor = z.number().min(0).max(100)
const temperatureC = z.number().min(20).max(500)
const spanK = z.number().min(1).max(200)
const lengthMm = z.number().min(0).max(100)

const sections = {
  ...bookSections,
  heat: z.strictObject({
    heatLimit: z.int().min(1).max(7).describe('a part that has been molten so often is replaced'),
    unknownHeatCount: z.int().min(0).max(100),
    bodyBakeC: temperatureC,
    ovenC: z.literal([40, 90, 125]),
    dryHours: z.number().min(0).max(1000),
  }),
  exposure: z.strictObject({
    meltRisk: share,
    chipMeltRisk: share,
    perHeatCount: factor,
    hangingFactor: z.number().min(1).max(100),
    overLimitRisk: share,
    overLimitFullK: spanK,
    nearRisk: share,
    neighbourC: temperatureC,
    neighbourLeadC: temperatureC,
    neighbourBismuthC: temperatureC,
    nearSpanK: spanK,
    leastPrice: money,
  }),
  rules: z.strictObject({
    cleanReachMm: lengthMm,
    nozzleRimMm: lengthMm,
    tornPadFactor: share,
    tearsCorner: share,
    tearsEdge: share,
    tearsUnderfill: share,
    glueSoftC: temperatureC,
    mostNodes: z.int().min(0).max(200_000),
  }),
} as const

const fullSchema = z.strictObject(sections)
/** Every figure, resolved. */
export type ShopSettings = z.infer<typeof fullSchema>

/** What a user's settings or a case may carry: only the figures that differ from the shipped ones. */
export const shopSettingsSchema = z.strictObject({
  money: sections.money.partial().optional(),
  minutes: sections.minutes.partial().optional(),
  materials: sections.materials.partial().optional(),
  pace: sections.pace.partial().optional(),
  heat: sections.heat.partial().optional(),
  exposure: sections.exposure.partial().optional(),
  rules: sections.rules.partial().optional(),
})
export type ShopSettingsInput = z.input<typeof shopSettingsSchema>

type HeatFigure = (typeof heatAssumptions)['neighbourHarmFromC']

const entrySchema = z.strictObject({ value: z.number(), reason: z.string().min(1), source: z.string().min(1) })

const fromHeat = ({ value, why, source }: HeatFigure) => ({ value, reason: why, source })

/**
 * The shipped figures with the reason and the source of each, for people to read: section, name, entry. What neighbours
 * should stay below is the heat room's figure, so that it is judged alike there and here.
 */
export const shippedShopSettings = z.record(z.string(), z.record(z.string(), entrySchema)).parse({
  ...shippedPriceBook,
  ...sayData(shipped),
  exposure: {
    ...shipped.exposure,
    neighbourC: fromHeat(heatAssumptions.neighbourHarmFromC),
    neighbourLeadC: fromHeat(heatAssumptions.neighbourHarmLeadC),
    neighbourBismuthC: fromHeat(heatAssumptions.neighbourHarmBismuthC),
  },
})

export const defaultShopSettings: ShopSettings = fullSchema.parse(
  Object.fromEntries(
    Object.entries(shippedShopSettings).map(([section, entries]) => [
      section,
      Object.fromEntries(Object.entries(entries).map(([name, { value }]) => [name, value])),
    ]),
  ),
)

/** The shipped figures, with those replaced that `overrides` names; refuses what the schema does, such as negative prices. */
export function resolveShopSettings(overrides: unknown): Result<ShopSettings> {
  const parsed = shopSettingsSchema.safeParse(overrides ?? {})
  if (!parsed.success) {
    const faults = faultsFromZod(parsed.error, overrides).map((fault) => ({
      ...fault,
      path: fault.path.replace('$', '$.settings'),
    }))
    return bad(...faults)
  }
  const over = parsed.data
  return good({
    money: merged(defaultShopSettings.money, over.money),
    minutes: merged(defaultShopSettings.minutes, over.minutes),
    materials: merged(defaultShopSettings.materials, over.materials),
    pace: merged(defaultShopSettings.pace, over.pace),
    heat: merged(defaultShopSettings.heat, over.heat),
    exposure: merged(defaultShopSettings.exposure, over.exposure),
    rules: merged(defaultShopSettings.rules, over.rules),
  })
}
