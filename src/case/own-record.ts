/** The figures of the shop's own record as a layer between what ships and what a case itself changes. */
import {
  type AssumptionOverrides,
  assumptionsSchema,
  paceBy,
  type PriceBook,
  type PriceBookInput,
  withAssumptions,
} from '../suspects/index.ts'
import type { Case } from './schema.ts'

/** What differs from the shipped figures for this case: the record's where it is used, then the case's own over them. */
export function assumptionsInForce({
  ownRecord,
  assumptions,
}: Pick<Case, 'ownRecord' | 'assumptions'>): AssumptionOverrides | undefined {
  return ownRecord === undefined ? assumptions : layered(ownRecord.figures, assumptions ?? {})
}

/** The shop's own prices and minutes; the pace follows from the assumptions. Undefined where nothing differs. */
export function pricesInForce({ shop }: Pick<Case, 'shop'>): PriceBookInput | undefined {
  if (shop === undefined) return undefined
  const { money, minutes, materials } = shop
  return { money, minutes, materials }
}

/** How many times the stated minutes work takes in this shop, for the plan. */
export const paceInForce = (layers: Pick<Case, 'ownRecord' | 'assumptions'>): PriceBook['pace'] =>
  paceBy(withAssumptions(assumptionsInForce(layers)))

function layered(below: AssumptionOverrides, above: AssumptionOverrides): AssumptionOverrides {
  const sections = Object.keys(assumptionsSchema.shape).flatMap((section) => {
    const figures = { ...sectionOf(below, section), ...sectionOf(above, section) }
    return Object.keys(figures).length === 0 ? [] : [[section, figures]]
  })
  return assumptionsSchema.parse(Object.fromEntries(sections))
}

function sectionOf(overrides: AssumptionOverrides, section: string): object {
  const found: unknown = Reflect.get(overrides, section)
  return typeof found === 'object' && found !== null ? found : {}
}
