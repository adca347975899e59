/** The figures of the shop's own record as a layer between what ships and what a case itself changes. */
import {
  type AssumptionOverrides,
  assumptionsSchema,
  paceBy,
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

/** The shop’s own prices and minutes, at the pace that its record or the case gives. */
export function pricesInForce(caseFile: Pick<Case, 'ownRecord' | 'assumptions' | 'shop'>): PriceBookInput {
  const { money, minutes, materials } = caseFile.shop ?? {}
  const pace = paceBy(withAssumptions(assumptionsInForce(caseFile)))
  return { money, minutes, materials, pace }
}

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
